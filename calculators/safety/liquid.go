package safety

// Where a bath counts as an acid: its pH can come below AcidBelow, or never comes above AcidTo. Pure water, which the air takes to 5.5, is none.
const (
	AcidBelow = 5
	AcidTo    = 6
)

// Where a bath counts as an alkali: its pH never comes below AlkaliFrom, or can come to AlkaliReaching. In running text a bath whose pH never
// comes down to AlkalineAbove is taken for one when acid is poured to it.
const (
	AlkaliFrom     = 9
	AlkaliReaching = 11
	AlkalineAbove  = 8
)

// LightMetalTo is the pH above which a bath without silicate dissolves aluminium, zinc, tin, lead, brass, anodise, coated optics and polycarbonate.
const LightMetalTo = 11

// KeepsGas is the pH below which cyanide and sulfide give off their gas: half of it at pH 9.2 and 7.0, some 14 % and 0.1 % at 10.
const KeepsGas = 10

// What counts as corrosive to skin and eyes by its pH alone.
const (
	CorrosiveAcid   = 2
	CorrosiveAlkali = 11.5
)

// What kills an enzyme: temperature in °C, pH.
const (
	EnzymeTo   = 50
	EnzymePHTo = 9
)

// How far off, as a share of what is wanted, a strength is set right before the next load, and from where the work is held and parts are checked.
const (
	StrengthAdjust = 0.1
	StrengthHold   = 0.2
)

// UnusualStrength is the share of concentrate in a bath above which it is called unusual.
const UnusualStrength = 0.3

// Neat is the share of a solvent from which a chemistry may count as one without water, which has no pH.
const Neat = 0.9

// Half is the share of a window that a material may take away before that is told, and of a bath's own range of pH that has to be left.
const Half = 0.5

// What a rinse may be: the pH that water has by itself, where nothing says (mains from and to, pure from); what no paper shows, and what has to be
// there beyond the water's own pH before it is told, in units of pH.
const (
	WaterFrom    = 6.5
	WaterTo      = 8.5
	PureFrom     = 6
	NoDifference = 0.05
	Difference   = 0.5
)

// Where a bath's titration means something: below EndPoint there is no alkalinity, and a bath that may be on either side of Neutral has to be known on both.
const (
	EndPoint = 4.5
	Neutral  = 7
)

// Laboratory is the temperature, in °C, at which a pH is told; a rinse whose temperature is not known is taken to have it.
const Laboratory = 25.

// SpotLimit is the conductivity in S/m that the last rinse of a part may have which must not spot.
const SpotLimit = 30e-4

// How worn a bath is by its total to its free alkalinity, as a multiple of the fresh bath's: a change is due soon, and now; below Fresher something else is wrong.
const (
	NearlyWorn = 1.5
	WornOut    = 2
	Fresher    = 0.9
)

// DragBand and SoilBand are the factors by which drag-out and the soil of a load are good either way.
const (
	DragBand = 1.5
	SoilBand = 1.3
)
