package markup

import (
	"errors"
	"strings"
	"testing"

	"tankside/builder/quantity"
	"tankside/calculators"
)

// TestOnPaper: a sheet has the answer of the page to the letter, with its safety messages and curve, and nothing that is pressed or opened.
func TestOnPaper(t *testing.T) {
	values := map[string]string{"volume": "120 L", "start": "12 °C", "target": "62 °C", "heater": "6 kW"}
	page, err := SumIn(nil, "x", "heat-up", values, quantity.SI)
	if err != nil {
		t.Fatal(err)
	}
	_, answer, _ := strings.Cut(page, `<div class="sum-answer">`)
	answer, _, _ = strings.Cut(answer, "<details")
	sheet, err := OnPaper(nil, "a.x", "heat-up", values, quantity.SI)
	if err != nil {
		t.Fatal(err)
	}
	check(t, first(parse(t, sheet)))
	for _, want := range []string{answer, `id="a.x"`, "Heat-up time", `class="safety warning"`, "<figure"} {
		if want == "" || !strings.Contains(sheet, want) {
			t.Errorf("the sheet lacks %s", want)
		}
	}
	for _, never := range []string{"<form", "<input", "<button", "<details", "hidden"} {
		if strings.Contains(sheet, never) {
			t.Errorf("the sheet has %s", never)
		}
	}
	if sheet, err := OnPaper(nil, "x", "dilution", map[string]string{"volume": "10 L"}, quantity.SI); err != nil || !strings.Contains(sheet, "For an answer, fill in: strength") {
		t.Errorf("%v\n%s", err, sheet)
	}
	var wrong calculators.Errors
	if sheet, err := OnPaper(nil, "x", "dilution", map[string]string{"volume": "10", "strength": "4 % v/v"}, quantity.SI); sheet != "" || !errors.As(err, &wrong) {
		t.Errorf("%q, %v", sheet, err)
	}
	var unknown calculators.Unknown
	if sheet, err := OnPaper(nil, "x", "fortune", nil, quantity.SI); sheet != "" || !errors.As(err, &unknown) {
		t.Errorf("%q, %v", sheet, err)
	}
}
