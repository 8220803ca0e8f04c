package safety

// PitsTo is the frequency in Hz up to which sound pits soft and polished faces.
const PitsTo = 30e3

// Loads, as shares of the bath: the mass of parts from which sound is weaker inside the basket, and from which it cannot work between them; the
// volume of parts from which a level is said to rise.
const (
	LoadFrom   = 0.1
	LoadMost   = 0.5
	LoadLevels = 0.02
)
