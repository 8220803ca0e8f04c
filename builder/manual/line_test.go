package manual

import (
	"strings"
	"testing"
)

// The keys of the physics of the line: what is read, and that overflows do not run in a circle.
func TestReadsTheLine(t *testing.T) {
	shop := `name: Invented shop
tanks:
  - {id: wash-1, name: Wash 1, volume: 120 L, freeboard: 80 mm, duty: 40 %, cooling: 0.5 kW, drag-out: 0.6–1.2 L/h}
rinses:
  - {id: rinse-1, name: Rinse, fed-by: rinse-2, ph: 7.2, alkalinity: 180 mg/L}
  - {id: rinse-2, name: Last}
roles: [operator, process engineer]
`
	fsys := files(nil)
	fsys[ShopFile].Data = []byte(shop)
	m, list := read(t, fsys)
	if len(list) > 0 {
		t.Fatal(places(list))
	}
	tank, rinse := m.Shop.Tanks[0], m.Shop.Rinses[0]
	for name, pair := range map[string][2]float64{
		"freeboard": {tank.Freeboard.High, 0.08}, "duty": {tank.Duty.High, 0.4}, "cooling": {tank.Cooling.High, 500}, "drag-out, low": {tank.DragOut.Low * 3.6e6, 0.6},
		"drag-out, high": {tank.DragOut.High * 3.6e6, 1.2}, "ph": {rinse.PH.High, 7.2}, "alkalinity": {rinse.Alkalinity.High, 0.18},
	} {
		if d := pair[0] - pair[1]; d > 1e-9 || d < -1e-9 {
			t.Errorf("%s is %g, want %g", name, pair[0], pair[1])
		}
	}
	if rinse.FedBy.Name != "rinse-2" || rinse.FedBy.At.Line != 5 {
		t.Errorf("%+v", rinse.FedBy)
	}
	for change, want := range map[string]string{
		"Last}":                           "",
		"Last, fed-by: rinse-1}":          "5:40 wrong-value",
		"Last, fed-by: rinse-2}":          "6:39 wrong-value",
		"Last, fed-by: rinse-7}":          "6:39 unknown-name",
		"Last, alkalinity: 100–200 mg/L}": "6:43 wrong-value",
		"Last, duty: 40 %}":               "6:31 unknown-key",
	} {
		fsys[ShopFile].Data = []byte(strings.Replace(shop, "Last}", change, 1))
		_, list := read(t, fsys)
		got := strings.Join(strings.Fields(strings.ReplaceAll(places(list), "shop.yaml:", "")), " ")
		if got != want {
			t.Errorf("%s: %q, want %q", change, got, want)
		}
	}
}
