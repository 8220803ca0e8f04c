package markup

import (
	"strings"

	"tankside/builder/inboth"
	"tankside/builder/language"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// Separator stands between the fields of requests and replies, which the page
// and its WASM exchange as text.
const Separator = "\x1f"

// Reply answers a request from a page in its language: calculator, system of units, then name
// and text of every input. The reply's fields are the answer's HTML, what is
// read out, the answer as plain text, then name and message of every input with
// which something is wrong; with any of those the first is what stands in the
// answer's place, and the next two are empty.
func Reply(said language.Words, request string) string {
	fields := strings.Split(request, Separator)
	c, ok := calculators.Named(fields[0])
	if !ok || len(fields) < 2 || len(fields)%2 != 0 {
		return strings.Join([]string{"", "", "", "", calculators.Unknown(fields[0]).Error()}, Separator)
	}
	system, _ := quantity.SystemNamed(fields[1])
	values := make(map[string]string, len(fields)/2)
	for i := 2; i < len(fields); i += 2 {
		values[fields[i]] = fields[i+1]
	}
	a, err := c.RunIn(said, values, system)
	if err == nil {
		return strings.Join([]string{string(inboth.HTML([]byte(Answer(&a)))), inboth.Text(Spoken(&a), system), inboth.Text(Text(&a), system)}, Separator)
	}
	wrong, _ := err.(calculators.Errors) // Run gives no other
	reply := []string{Wanting(said, wrong), "", ""}
	for _, e := range wrong {
		reply = append(reply, e.Input, inboth.Text(e.Problem, system))
	}
	return strings.Join(reply, Separator)
}

// Convert answers a request to show an amount in another unit: calculator,
// input, the amount with its present unit, the unit's symbol. The reply is the
// number, or nothing where there is none: the amount cannot be read, or the
// other unit belongs to another sort of quantity.
func Convert(request string) string {
	fields := strings.Split(request, Separator)
	if len(fields) != 4 {
		return ""
	}
	c, ok := calculators.Named(fields[0])
	if !ok {
		return ""
	}
	in, ok := c.Input(fields[1])
	if !ok {
		return ""
	}
	for _, m := range in.Measures {
		v, err := quantity.Parse(fields[2], m.Kind)
		if err != nil {
			continue
		}
		if u, ok := quantity.UnitNamed(fields[3], m.Kind); ok {
			if u == v.Unit {
				return Number(v.SI, u)
			}
			return Converted(v.SI, u)
		}
	}
	return ""
}
