package calculators

// room is what stands between a tank's mark and its rim, in m³; ok is false where the height or the surface is not known.
func (s *sum) room() (volume float64, ok bool) {
	return s.si("freeboard") * s.si("length") * s.si("width"), s.has("freeboard") && s.has("length") && s.has("width")
}

// fits refuses a volume above the mark, and says what it would do where the height of the rim is known.
func (s *sum) fits(input string, volume float64) bool {
	capacity := s.si("tank-capacity")
	if !s.has("tank-capacity") || volume <= capacity*(1+1e-9) {
		return true
	}
	room, known := s.room()
	switch {
	case !known:
		s.fail(input, "{volume} is more than the tank may hold, {volume}.", volume, capacity)
	case volume-capacity > room:
		s.fail(input, "{volume} is more than the tank may hold, {volume}: {volume} would run over the rim.", volume, capacity, volume-capacity-room)
	default:
		s.fail(input, "{volume} is more than the tank may hold, {volume}: it takes {volume} of the {volume} below the rim that the parts need.", volume, capacity, volume-capacity, room)
	}
	return false
}

// roomFor says that a fill was not compared with a tank where none is known, and otherwise what room is left for the parts.
func (s *sum) roomFor(volume float64) {
	if !s.has("tank-capacity") {
		s.caution(Careful, "Not checked: whether the tank has room for {volume}. Give the most that it may hold; hot cleaner over the rim burns.", volume)
		return
	}
	if room, known := s.room(); known {
		s.step("from the mark to the rim: {length} × {length} × {length} = {volume}, the room for parts and basket", s.si("length"), s.si("width"), s.si("freeboard"), room)
	}
}
