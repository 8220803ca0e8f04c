// Package air holds what a tank's room and a dryer need to know about moist
// air: pressure over altitude, humidity, wet bulb, density, and the transport
// properties for convection.
//
// Temperatures are in °C, pressures in Pa, relative humidity 0–1. Moist air is
// taken as an ideal mixture, as in the ASHRAE Handbook Fundamentals (2017)
// chapter 1; vapour pressures come from package water.
package air

import (
	"math"

	"tankside/calculators/water"
)

const (
	gas    = 8.314462618 // J/(mol·K), CODATA 2018
	dryAir = 0.0289647   // kg/mol

	// SeaLevel is the standard atmosphere in Pa.
	SeaLevel = 101325.

	// HeatCapacity of air at constant pressure in J/(kg·K).
	HeatCapacity = 1007.

	// ratio of the molar masses of water and dry air, as ASHRAE prints it.
	ratio = 0.621945
)

// Pressure of the standard atmosphere in Pa at an altitude in m, to 11 km.
// ASHRAE Fundamentals (2017) chapter 1 equation 3.
func Pressure(altitude float64) float64 {
	return SeaLevel * math.Pow(1-2.25577e-5*altitude, 5.2559)
}

// Vapour is the partial pressure of water vapour at a temperature and
// relative humidity.
func Vapour(t, humidity float64) float64 { return humidity * water.VapourPressure(t) }

// HumidityRatio is the mass of vapour per mass of dry air at a vapour pressure
// below the whole pressure.
func HumidityRatio(vapour, pressure float64) float64 {
	return ratio * vapour / (pressure - vapour)
}

// DryDensity is the mass of dry air in a volume of moist air, kg/m³.
func DryDensity(t, vapour, pressure float64) float64 {
	return (pressure - vapour) * dryAir / (gas * (t + water.Kelvin))
}

// Density of moist air, kg/m³.
func Density(t, vapour, pressure float64) float64 {
	return DryDensity(t, vapour, pressure) + vapour*water.MolarMass/(gas*(t+water.Kelvin))
}

// WetBulb is the thermodynamic wet-bulb temperature of air above freezing,
// from its humidity ratio: ASHRAE Fundamentals (2017) chapter 1 equation 33,
// solved by bisection.
func WetBulb(t, humidityRatio, pressure float64) float64 {
	low, high := 0., math.Min(t, water.BoilingPoint(pressure)-0.01)
	for range 60 {
		wet := (low + high) / 2
		saturated := HumidityRatio(water.VapourPressure(wet), pressure)
		w := ((2501-2.326*wet)*saturated - 1.006*(t-wet)) / (2501 + 1.86*t - 4.186*wet)
		if w < humidityRatio {
			low = wet
		} else {
			high = wet
		}
	}
	return (low + high) / 2
}

// Viscosity of air in Pa·s, Sutherland's law with the constants of the U.S.
// Standard Atmosphere 1976.
func Viscosity(t float64) float64 {
	k := t + water.Kelvin
	return 1.458e-6 * k * math.Sqrt(k) / (k + 110.4)
}

// Conductivity of heat of air in W/(m·K), U.S. Standard Atmosphere 1976
// equation 53.
func Conductivity(t float64) float64 {
	k := t + water.Kelvin
	return 2.64638e-3 * k * math.Sqrt(k) / (k + 245.4*math.Exp(-12/k*math.Ln10))
}
