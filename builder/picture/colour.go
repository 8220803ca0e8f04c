package picture

import (
	"math"
	"sync"
)

// Inside, light is a whole number from 0 to 65535, in proportion to the light itself, so that mixing neighbours mixes light.
const full = 65535

// Source: IEC 61966-2-1:1999, 5.2 and 5.3, sRGB transfer: linear below 0.04045, above it ((v + 0.055) / 1.055) ^ 2.4.
func linearOfSRGB(v float64) float64 {
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

// curve turns the values of one channel, stored in 8 or 16 bits, into light.
type curve struct {
	of8  [256]uint16
	of16 func() []uint16 // made when a picture with 16 bits needs it
}

func newCurve(linear func(float64) float64) *curve {
	level := func(v float64) uint16 { return uint16(math.Round(full * min(max(linear(v), 0), 1))) }
	c := new(curve)
	for i := range c.of8 {
		c.of8[i] = level(float64(i) / 255)
	}
	c.of16 = sync.OnceValue(func() []uint16 {
		all := make([]uint16, full+1)
		for i := range all {
			all[i] = level(float64(i) / full)
		}
		return all
	})
	return c
}

var curveSRGB = sync.OnceValue(func() *curve { return newCurve(linearOfSRGB) })

// toSRGB gives for each light the nearest of the 256 values of sRGB.
var toSRGB = sync.OnceValue(func() []uint8 {
	all := make([]uint8, full+1)
	value := 0
	next := func() float64 { return full * linearOfSRGB((float64(value)+0.5)/255) } // where the next value begins
	end := next()
	for light := range all {
		for value < 255 && float64(light) >= end {
			value++
			end = next()
		}
		all[light] = uint8(value)
	}
	return all
})

// conversion says what the values of a picture mean, when they are not sRGB.
type conversion struct {
	curves [3]*curve
	matrix [3][3]int64 // light of the picture's primaries to light of sRGB, in units of 1/unit; unused when single
	single bool        // one channel: grey stays grey
}

const unit = 1 << 20

// apply changes the light of one pixel. What sRGB cannot show becomes the nearest it can, channel by channel.
func (c *conversion) apply(r, g, b int64) (int64, int64, int64) {
	row := func(m *[3]int64) int64 {
		return min(max((m[0]*r+m[1]*g+m[2]*b+unit/2)/unit, 0), full)
	}
	return row(&c.matrix[0]), row(&c.matrix[1]), row(&c.matrix[2])
}
