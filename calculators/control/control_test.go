package control

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.IsNaN(got) || math.Abs(got-want) > within {
		t.Errorf("%s is %.6g, want %.6g ± %.2g", what, got, want, within)
	}
}

// flow are the readings of NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2.
var flow = []float64{49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}

func TestIndividualsOfTheHandbook(t *testing.T) {
	c, told := Of(flow)
	if !told || c.N != 10 {
		t.Fatal(c, told)
	}
	near(t, "the mean", c.Mean, 50.81, 5e-5)
	near(t, "the mean moving range", c.MovingRange, 1.8778, 5e-5)
	near(t, "the upper limit", c.Upper, 55.8041, 1e-3)
	near(t, "the lower limit", c.Lower, 45.8159, 1e-3)
	near(t, "the limit of the moving range", c.RangeUpper, 6.1347, 1e-3)
	if s := c.Runs(flow); len(s) != 0 {
		t.Errorf("the handbook finds nothing, we find %v", s)
	}
}

// NIST/SEMATECH e-Handbook, 6.3.2.4: 20 readings, target 50, s = 2.0539, lambda = 0.3; the averages are printed with two places.
func TestMovingAverageOfTheHandbook(t *testing.T) {
	readings := []float64{52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1}
	want := []float64{50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99}
	got := Averages(readings, 50, 2.0539, 0.3, 3)
	for i := range want {
		near(t, "the average", got[i].Value, want[i], 0.0051)
	}
	near(t, "the upper limit far from the start", got[19].Upper, 52.5884, 2e-3)
	near(t, "the lower limit far from the start", got[19].Lower, 47.4115, 2e-3)
	near(t, "the upper limit at the first reading", got[0].Upper, 50+3*2.0539*0.3, 1e-9)
	if s := Moved(got); len(s) != 0 {
		t.Errorf("the handbook finds nothing, we find %v", s)
	}
}

// Each rule by the smallest row that meets it, and by one that just does not.
func TestRunRules(t *testing.T) {
	c := Individuals{Mean: 10, Sigma: 1}
	for _, row := range []struct {
		readings []float64
		want     []Signal
	}{
		{[]float64{13}, nil},
		{[]float64{13.01}, []Signal{{Beyond, 0, true}}},
		{[]float64{6.9}, []Signal{{Beyond, 0, false}}},
		{[]float64{12.1, 10, 12.1}, []Signal{{TwoOfThree, 2, true}}},
		{[]float64{12.1, 10, 10, 12.1}, nil},
		{[]float64{12.1, 10, 7.9}, nil},
		{[]float64{7.9, 7.9}, []Signal{{TwoOfThree, 1, false}}},
		{[]float64{11.1, 11.1, 10, 11.1, 11.1}, []Signal{{FourOfFive, 4, true}}},
		{[]float64{11.1, 11.1, 11, 10, 11.1, 11.1}, nil},
		{[]float64{10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 10.1}, []Signal{{EightInARow, 7, true}}},
		{[]float64{10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 10.1, 9.9, 10.1}, nil},
		{[]float64{9.9, 9.9, 9.9, 9.9, 9.9, 9.9, 9.9, 9.9, 9.9}, []Signal{{EightInARow, 7, false}, {EightInARow, 8, false}}},
	} {
		got := c.Runs(row.readings)
		same := len(got) == len(row.want)
		for i := 0; same && i < len(got); i++ {
			same = got[i] == row.want[i]
		}
		if !same {
			t.Errorf("%v: %v, want %v", row.readings, got, row.want)
		}
	}
}

func TestNothingToTellBy(t *testing.T) {
	for _, baseline := range [][]float64{nil, {4}, {4, 4, 4, 4, 4}, {0.1 + 0.2, 0.3, 0.3}} {
		if c, told := Of(baseline); told {
			t.Errorf("limits from %v: %+v", baseline, c)
		}
	}
}

func TestStep(t *testing.T) {
	for _, row := range []struct {
		readings []float64
		want     float64
	}{{nil, math.Inf(1)}, {[]float64{4, 4, 4}, math.Inf(1)}, {[]float64{9.8, 9.7, 9.8, 9.5}, 0.1}, {flow, 0.1}, {[]float64{0.1 + 0.2, 0.3}, math.Inf(1)}} {
		if got := Step(row.readings); math.Abs(got-row.want) > 1e-9 && got != row.want {
			t.Errorf("%v: %v, want %v", row.readings, got, row.want)
		}
	}
}

// Student's distribution against a statistics library.
func TestStudentAgainstALibrary(t *testing.T) {
	for _, freedom := range []float64{1, 1.7, 3, 6, 12.4, 28, 120, 5000, 99998} {
		d := distuv.StudentsT{Sigma: 1, Nu: freedom}
		for _, x := range []float64{0, 0.01, 0.5, 1, 2, 3.5, 8, 40} {
			near(t, "the tail", Tail(x, freedom), d.Survival(x), 1e-9)
		}
		for _, p := range []float64{0.6, 0.9, 0.975, 0.995, 0.9995} {
			near(t, "the quantile", Quantile(p, freedom), d.Quantile(p), 1e-6*(1+d.Quantile(p)))
		}
	}
}

// Line, errors and band against a library and against Norris, the certified line of NIST's reference data sets (StRD, linear regression):
// slope 1.00211681802045, intercept −0.262323073774029, standard error of the slope 0.429796848199937e-3, residual deviation 0.884796396144373.
func TestTrendOfTheReferenceData(t *testing.T) {
	y := []float64{0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9, 668.4, 449.2, 0.2}
	x := []float64{0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2, 669.1, 448.9, 0.5}
	got, told := TrendOf(x, y)
	if !told {
		t.Fatal("no line")
	}
	near(t, "the slope", got.Slope, 1.00211681802045, 1e-12)
	near(t, "the intercept", got.At(0), -0.262323073774029, 1e-10)
	near(t, "the residual deviation", got.deviation, 0.884796396144373, 1e-10)
	near(t, "the error of the slope without correction", got.Error/got.wider, 0.429796848199937e-3, 1e-13)
	alpha, beta := stat.LinearRegression(x, y, nil, false)
	near(t, "the library's intercept", alpha, got.At(0), 1e-9)
	near(t, "the library's slope", beta, got.Slope, 1e-12)
	m, v := stat.MeanVariance(y, nil)
	near(t, "the mean", mean(y), m, 1e-9)
	if v <= 0 {
		t.Error("no variance")
	}
}

func TestTooLittleForATrend(t *testing.T) {
	seven := []float64{1, 2, 3, 4, 5, 6, 7}
	if _, told := TrendOf(seven, seven); told {
		t.Error("a trend of seven readings")
	}
	same := []float64{5, 5, 5, 5, 5, 5, 5, 5}
	if _, told := TrendOf(same, []float64{1, 2, 3, 4, 5, 6, 7, 8}); told {
		t.Error("a trend of readings at one time")
	}
	flat, told := TrendOf([]float64{1, 2, 3, 4, 5, 6, 7, 8}, same)
	if !told || flat.Slope != 0 || flat.P != 1 {
		t.Errorf("a flat line: %+v %v", flat, told)
	}
	if c := flat.Meets(6, true, 100, 0.95); !math.IsInf(c.At, 1) || !math.IsInf(c.Earliest, 1) {
		t.Errorf("a flat line without errors meets a limit: %+v", c)
	}
}

// A line without errors meets its limit when school mathematics says so, and at no other time.
func TestMeets(t *testing.T) {
	times, readings := make([]float64, 10), make([]float64, 10)
	for i := range times {
		times[i], readings[i] = float64(i), 5-0.1*float64(i)
	}
	line, _ := TrendOf(times, readings)
	c := line.Meets(3, false, 100, 0.95)
	near(t, "the time", c.At, 20, 1e-6)
	near(t, "the earliest time", c.Earliest, 20, 1e-4)
	near(t, "the latest time", c.Latest, 20, 1e-4)
	if c := line.Meets(3, false, 15, 0.95); !math.IsInf(c.At, 1) {
		t.Errorf("beyond the horizon: %+v", c)
	}
	if c := line.Meets(6, true, 100, 0.95); !math.IsInf(c.At, 1) {
		t.Errorf("on the other side: %+v", c)
	}
	if c := line.Meets(4.5, false, 100, 0.95); c.At != 9 {
		t.Errorf("already beyond: %+v", c)
	}
}
