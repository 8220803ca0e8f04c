package safety

// Temperatures of water in °C at which it scalds deep within half a minute, 5 s and 1 s.
const (
	ScaldsIn30s = 54
	ScaldsIn5s  = 60
	ScaldsIn1s  = 70
)

// Temperatures in °C from which something is warned of: a bath as scalding, a bath as hurting skin that stays in it, parts and racks as hot.
const (
	Scalding   = 55
	HurtsSkin  = 44
	HotParts   = 60
	HotAsWater = 40 // water that is hot where concentrate or caustic goes into it
)

// StopAbove is how far above its set-point, in K, a bath may drift by its own sound before the sound is stopped; a ceiling, the distance to the flash
// point or what parts stand stops it sooner. Common practice, no source.
const StopAbove = 3

// NearSetPoint is how far above a set-point, in K, a limit is out of reach of a sound that nobody reckoned with. It is our own limit.
const NearSetPoint = 10

// The share of the electrical power of the sound that ends as heat in the bath: likely, low and high. What leaves the transducers as sound ends as
// heat in bath and parts (a 2013 guidebook on metal finishing); what generator and transducers keep is 0.2–0.6 of the electrical power, from memory.
// A tank's own share comes out of its calorimetric check.
const (
	SoundToHeat     = 0.6
	SoundToHeatLow  = 0.4
	SoundToHeatHigh = 0.8
)

// What a lid lets through: heat in W/(m²·K) of a closed single skin, from memory, and the share of the open surface's evaporation that finds its
// way past it where it is loose, common practice, no source.
const (
	LidTransmittance = 5.0
	LidLeak          = 0.05
)

// What walls lose: emissivity of clean stainless steel, from memory 0.1–0.3, and the conductivity of mineral wool in W/(m·K), usual handbook value.
const (
	BareEmissivity   = 0.3
	WoolConductivity = 0.04
)

// By how much losses of heat may be off, as a share of them: in the open at least and at most, and under a lid.
const (
	LossBandLeast = 0.2
	LossBandMost  = 0.5
	LossBandLid   = 0.4
)

// LevelFall is the share of a bath's depth that may evaporate before it is said that heater and transducers can run dry.
const LevelFall = 0.1
