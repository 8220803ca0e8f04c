package calculators

import (
	"fmt"
	"math"
	"testing"

	"tankside/calculators/air"
	"tankside/calculators/water"
)

// TestHoldingBandAtAltitude: the water that the calculator says is lost in an hour, between its low and high end, covers W. H. Carrier's line,
// 0.089 W/(m²·Pa), and P. J. Ryan, D. R. F. Harleman and K. D. Stolzenbach's free convection, 2.7·Δθ^⅓ W/(m²·mbar) (Water Resources Research 10
// (1974) 930), in hot baths at sea level and at 2,000 m. At 85 °C and 2,000 m the best estimate lies between them.
func TestHoldingBandAtAltitude(t *testing.T) {
	for _, altitude := range []float64{0, 2000} {
		for _, temperature := range []float64{40, 60, 75, 85} {
			p := air.Pressure(altitude)
			pw, pr := water.VapourPressure(temperature), air.Vapour(20, 0.5)
			virtual := func(t, vapour float64) float64 { return (t + water.Kelvin) / (1 - 0.378*vapour/p) }
			carrier := 0.089 * (pw - pr)
			ryan := 2.7 * math.Cbrt(virtual(temperature, pw)-virtual(20, pr)) * (pw - pr) / 100
			a := mustRun(t, "holding", map[string]string{"length": "600 mm", "width": "450 mm", "depth": "445 mm", "target": fmt.Sprintf("%g °C", temperature), "hours": "1 h",
				"altitude": fmt.Sprintf("%g m", altitude), "air": "20 °C", "humidity": "50 %"})
			r, _ := a.Reading("water-lost")
			heat := func(volume float64) float64 {
				return volume * water.Density(20) * water.LatentHeat(temperature) / 3600 / (0.6 * 0.45)
			}
			low, best, high := heat(r.Low), heat(r.SI), heat(r.High)
			if carrier < low*0.95 || ryan > high*1.05 || ryan < low || carrier > high {
				t.Errorf("%g °C at %g m: %.0f (%.0f to %.0f) W/m², Carrier %.0f, Ryan %.0f", temperature, altitude, best, low, high, carrier, ryan)
			}
			if temperature == 85 && (best < carrier || best > ryan) {
				t.Errorf("%g °C at %g m: %.0f W/m² is not between %.0f and %.0f", temperature, altitude, best, carrier, ryan)
			}
		}
	}
}
