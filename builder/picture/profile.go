package picture

import (
	"encoding/binary"
	"math"
)

// fromD50 turns CIE XYZ under D50, in which profiles are written, into light of sRGB.
//
// Source: the primaries and white of IEC 61966-2-1:1999, table 1 (ITU-R BT.709, D65), adapted to D50 by the Bradford transform of
// ICC.1:2022, annex E; a test computes it from them.
var fromD50 = [3][3]float64{
	{3.1341864, -1.6172090, -0.4906941},
	{-0.9787485, 1.9161301, 0.0334334},
	{0.0719639, -0.2289939, 1.4057537},
}

// profileReader reads the colour profile of a picture.
type profileReader struct {
	data []byte
	tags map[string][]byte
}

// readProfile gives how the values of a picture become sRGB: nil when they are sRGB, or when the profile is missing, damaged or
// of another sort of picture, in which case browsers take them for sRGB as well. A profile that consists of tables is a problem.
//
// Source: ICC.1:2022 (profile version 4.4), 7.2 header, 7.3 tag table, 8.3 to 8.4 required tags, 10.6 and 10.18 curves, 10.31 XYZType.
func readProfile(data []byte, grey bool) (*conversion, *Problem) {
	p, ok := openProfile(data)
	if !ok {
		return nil, nil
	}
	space := string(data[16:20])
	switch {
	case space == "GRAY" && grey:
		linear, ok := readCurve(p.tags["kTRC"])
		if !ok {
			return nil, nil
		}
		c := newCurve(linear)
		return differing(&conversion{curves: [3]*curve{c, c, c}, single: true}), nil
	case space != "RGB " || grey:
		return nil, nil
	}
	c := &conversion{}
	for i, name := range []string{"r", "g", "b"} {
		linear, hasCurve := readCurve(p.tags[name+"TRC"])
		xyz, hasXYZ := readXYZ(p.tags[name+"XYZ"])
		if !hasCurve || !hasXYZ {
			if _, tables := p.tags["A2B0"]; tables {
				return nil, &Problem{Message: "The picture has a colour profile that consists of tables, which cannot be converted here.", Remedy: saveAsSRGB}
			}
			return nil, nil
		}
		c.curves[i] = newCurve(linear)
		for row := range 3 {
			sum := 0.0
			for k := range 3 {
				sum += fromD50[row][k] * xyz[k]
			}
			c.matrix[row][i] = int64(math.Round(unit * sum))
		}
	}
	return differing(c), nil
}

// openProfile finds the tags of a profile.
func openProfile(data []byte) (profileReader, bool) {
	p := profileReader{data: data, tags: make(map[string][]byte)}
	if len(data) < 132 || string(data[36:40]) != "acsp" {
		return p, false
	}
	table := data[132:]
	for range min(binary.BigEndian.Uint32(data[128:]), 100) {
		if len(table) < 12 {
			return p, false
		}
		at, n := uint64(binary.BigEndian.Uint32(table[4:])), uint64(binary.BigEndian.Uint32(table[8:]))
		if at+n > uint64(len(data)) {
			return p, false
		}
		p.tags[string(table[:4])] = data[at : at+n]
		table = table[12:]
	}
	return p, true
}

// readXYZ reads a colour under D50.
func readXYZ(tag []byte) ([3]float64, bool) {
	if len(tag) < 20 || string(tag[:4]) != "XYZ " {
		return [3]float64{}, false
	}
	return [3]float64{fixed16(tag[8:]), fixed16(tag[12:]), fixed16(tag[16:])}, true
}

// fixed16 reads an s15Fixed16Number.
func fixed16(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / 65536 }

// readCurve gives the light, 0 to 1, for a value of 0 to 1.
func readCurve(tag []byte) (func(float64) float64, bool) {
	if len(tag) < 12 {
		return nil, false
	}
	switch string(tag[:4]) {
	case "curv":
		return readTable(tag[12:], binary.BigEndian.Uint32(tag[8:]))
	case "para":
		return readParameters(binary.BigEndian.Uint16(tag[8:]), tag[12:])
	}
	return nil, false
}

// readTable reads a curveType: nothing for a straight line, one value for an exponent, or points at equal distances.
func readTable(b []byte, n uint32) (func(float64) float64, bool) {
	if uint64(n)*2 > uint64(len(b)) {
		return nil, false
	}
	switch n {
	case 0:
		return func(v float64) float64 { return v }, true
	case 1:
		g := float64(binary.BigEndian.Uint16(b)) / 256
		return func(v float64) float64 { return math.Pow(v, g) }, true
	}
	return func(v float64) float64 {
		at := v * float64(n-1)
		i := min(int(at), int(n)-2)
		low, high := float64(binary.BigEndian.Uint16(b[2*i:])), float64(binary.BigEndian.Uint16(b[2*i+2:]))
		return (low + (high-low)*(at-float64(i))) / 65535
	}, true
}

// readParameters reads a parametricCurveType. Source: ICC.1:2022, table 68.
func readParameters(kind uint16, b []byte) (func(float64) float64, bool) {
	counts := []int{1, 3, 4, 5, 7}
	if int(kind) >= len(counts) || len(b) < 4*counts[kind] {
		return nil, false
	}
	var p [7]float64
	for i := range counts[kind] {
		p[i] = fixed16(b[4*i:])
	}
	g, a, bb, c, d, e, f := p[0], p[1], p[2], p[3], p[4], p[5], p[6]
	switch kind {
	case 0:
		return func(x float64) float64 { return math.Pow(x, g) }, true
	case 1: // Y = (aX + b)^g from -b/a, 0 below
		c, d, e, f = 0, -bb/a, 0, 0
	case 2: // with c added on both sides
		e, f = c, c
		c, d = 0, -bb/a
	case 3: // cX below d
		e, f = 0, 0
	}
	return func(x float64) float64 {
		if x >= d {
			return math.Pow(a*x+bb, g) + e
		}
		return c*x + f
	}, true
}

// differing gives nil for a conversion that changes no colour by more than one step of 255.
func differing(c *conversion) *conversion {
	encode, levels := toSRGB(), []int{0, 1, 4, 16, 32, 64, 96, 128, 160, 192, 224, 255}
	near := func(light int64, value int) bool { return max(int(encode[light])-value, value-int(encode[light])) <= 1 }
	for _, r := range levels {
		if c.single {
			if !near(int64(c.curves[0].of8[r]), r) {
				return c
			}
			continue
		}
		for _, g := range levels {
			for _, b := range levels {
				lr, lg, lb := c.apply(int64(c.curves[0].of8[r]), int64(c.curves[1].of8[g]), int64(c.curves[2].of8[b]))
				if !near(lr, r) || !near(lg, g) || !near(lb, b) {
					return c
				}
			}
		}
	}
	return nil
}
