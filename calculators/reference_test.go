package calculators

import (
	"encoding/json"
	"errors"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"tankside/calculators/air"
	"tankside/calculators/water"
)

// TestReferenceLibraries compares water and air with general-purpose libraries
// that the npm registry carries: neutriumjs.thermo.iapws97 1.2.2 (IAPWS-IF97 and
// the IAPWS releases on viscosity and surface tension) and
// psychrolib 1.1.1 (ASHRAE Handbook Fundamentals 2017). Another formulation than
// ours, so the tolerances are a few times the difference between IF97 or ASHRAE
// and IAPWS-95: density 0.01 %, heat capacity 0.1 %, viscosity
// 0.1 %, surface tension 0.01 %, vapour pressure 0.05 %, wet bulb 0.05 K.
func TestReferenceLibraries(t *testing.T) {
	libraries := filepath.Join("..", "testdata", "npm")
	if _, err := os.Stat(filepath.Join(libraries, "node_modules", "psychrolib")); errors.Is(err, fs.ErrNotExist) {
		t.Fatal("the reference libraries are not installed; make test installs them with npm")
	}
	out, err := exec.Command("node", filepath.Join("testdata", "reference.js"), libraries).Output()
	if err != nil {
		t.Fatal(err)
	}
	var reference struct {
		Water    []struct{ T, Density, Heat, Viscosity, Tension, Vapour float64 }
		Moist    []struct{ T, Humidity, Wet float64 }
		Pressure []struct{ Z, Pascal float64 }
	}
	if err := json.Unmarshal(out, &reference); err != nil {
		t.Fatal(err)
	}
	if len(reference.Water) < 90 || len(reference.Moist) < 40 || len(reference.Pressure) < 20 {
		t.Fatalf("the libraries gave too little: %d, %d, %d", len(reference.Water), len(reference.Moist), len(reference.Pressure))
	}
	for _, w := range reference.Water {
		for _, c := range []struct {
			what             string
			ours, theirs, by float64
		}{
			{"density", water.Density(w.T), w.Density, 1e-4},
			{"heat capacity", water.HeatCapacity(w.T), 1000 * w.Heat, 1e-3},
			{"viscosity", water.Viscosity(w.T), w.Viscosity / 1000, 1e-3},
			{"surface tension", water.SurfaceTension(w.T), w.Tension / 1000, 1e-4},
			{"vapour pressure", water.VapourPressure(w.T), w.Vapour, 5e-4},
		} {
			if math.Abs(c.ours-c.theirs) > c.by*c.theirs {
				t.Errorf("%s at %g °C: %.6g, the library has %.6g", c.what, w.T, c.ours, c.theirs)
			}
		}
	}
	for _, m := range reference.Moist {
		if ours := air.WetBulb(m.T, m.Humidity, air.SeaLevel); m.Wet > 0 && math.Abs(ours-m.Wet) > 0.05 {
			t.Errorf("wet bulb at %g °C, %g kg/kg: %.3f °C, the library has %.3f", m.T, m.Humidity, ours, m.Wet)
		}
	}
	for _, p := range reference.Pressure {
		if ours := air.Pressure(p.Z); math.Abs(ours-p.Pascal) > 1e-5*p.Pascal {
			t.Errorf("pressure at %g m: %.1f Pa, the library has %.1f", p.Z, ours, p.Pascal)
		}
	}
}
