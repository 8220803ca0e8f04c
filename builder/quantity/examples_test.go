package quantity_test

import (
	"fmt"

	"tankside/builder/quantity"
)

// An amount is read as it is written, kept in SI, and shown in either family of units.
func ExampleParse() {
	v, err := quantity.Parse("140 F", quantity.Temperature)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v, "is", v.In(quantity.SI))

	_, err = quantity.Parse("140 L", quantity.Temperature)
	fmt.Println(err)
	// Output:
	// 140 °F is 60 °C
	// “140 L”: “L” is a unit of volume; write a temperature, for example 60 °C or 140 °F
}

func ExampleParseRange() {
	r, err := quantity.ParseRange("50–65 °C", quantity.Temperature)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(r.Low, r.High, r.In(quantity.US))
	// Output:
	// 50 65 122–149 °F
}
