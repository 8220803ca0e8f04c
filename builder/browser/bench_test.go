package browser

import (
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/fact"
	"tankside/builder/decide/relate"
	"tankside/builder/quantity"
	"tankside/builder/sums"
	"tankside/calculators"
)

// set puts a value into a field, as a person does who types it.
func (b *tab) set(field, value string) {
	b.t.Helper()
	ask[bool](b, `(() => { const f = document.querySelector(`+quote(field)+`); f.value = `+quote(value)+`; f.dispatchEvent(new Event("input", {bubbles: true})); f.dispatchEvent(new Event("change", {bubbles: true})); return true; })()`)
}

// What was found today becomes what to pour, the same that the terminal says for this tank: too weak, too strong, and nothing to do.
func TestFoundToday(t *testing.T) {
	t.Parallel()
	m := demoManual(t)
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "tanks/wash-1.html", size(360, 740))
		for _, c := range []struct{ now, below string }{{"3.4", "18"}, {"5", "0"}, {"4.1", "40"}, {"0", "100"}} {
			values, err := sums.Values(m, "top-up", map[string]string{"tank": "wash-1", "strength-now": c.now + " % v/v", "below-mark": c.below + " mm"})
			if err != nil {
				t.Fatal(err)
			}
			a, err := calculators.Run("top-up", values, quantity.SI)
			if err != nil {
				t.Fatal(err)
			}
			var want []string
			for _, name := range []string{"drain-volume", "concentrate-volume", "water-volume"} {
				if r, _ := a.Reading(name); r.SI > 0 {
					want = append(want, strings.ReplaceAll(r.String(), "\u00a0", " "))
				}
			}
			b.set("#sum-top-up-strength-now", c.now)
			b.set("#sum-top-up-below-mark", c.below)
			shown := `[...document.querySelectorAll(".pour b")].map(x => x.textContent.replace(/\s/g, " "))`
			b.until(`JSON.stringify(` + shown + `) === ` + quote(`["`+strings.Join(want, `","`)+`"]`))
			if board := b.text(".board-text"); !strings.Contains(board, c.now+" % v/v, "+c.below+" mm") || !strings.Contains(board, want[0]) {
				t.Errorf("the board lacks what was found or what to pour: %q", board)
			}
			if !strings.Contains(b.text(".found .wear"), "goggles") || ask[int](b, `document.querySelectorAll(".found .sum-answer .safety").length`) != len(a.Cautions) {
				t.Error("protective equipment or a safety message is missing")
			}
			if bottom := ask[float64](b, `document.querySelector(".pour").getBoundingClientRect().bottom + scrollY`); bottom > 740 {
				t.Errorf("the answer ends %g px down on a phone", bottom)
			}
		}
		b.set("#sum-top-up-strength-now", "4")
		b.set("#sum-top-up-below-mark", "0")
		b.until(`document.querySelector(".pour-after").textContent.startsWith("Nothing to pour")`)
		b.set("#sum-top-up-below-mark", "")
		b.until(`document.querySelector(".pour-after").textContent.startsWith("Type both") && !document.querySelector(".pour li")`)
		b.set("#sum-top-up-below-mark", "900")
		b.until(`document.querySelector(".found .sum-error:not(:empty)")?.textContent.includes("deeper than the tank")`)
		if wide := ask[int](b, `document.documentElement.scrollWidth - innerWidth`); wide > 0 {
			t.Errorf("the page is %d px wider than a phone", wide)
		}
	})
}

// A time of the clock and a start temperature become times of the clock, over midnight too, by the times that heat-up and degas give.
func TestSwitchedOnOverMidnight(t *testing.T) {
	t.Parallel()
	m := demoManual(t)
	seconds := func(calculator string, given map[string]string) float64 {
		values, err := sums.Values(m, calculator, given)
		if err != nil {
			t.Fatal(err)
		}
		a, err := calculators.Run(calculator, values, quantity.SI)
		if err != nil {
			t.Fatal(err)
		}
		r, _ := a.Reading("time")
		return r.SI
	}
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "tanks/wash-1.html")
		if at := ask[string](b, `document.querySelector("#on-at").value`); len(at) != 5 || !strings.ContainsAny(at[4:], "05") {
			t.Errorf("it begins at %q, not at five minutes of the clock", at)
		}
		if from := ask[string](b, `document.querySelector("#on-from").value`); from != "12" {
			t.Errorf("it begins from %q, the shop's water has 12 °C", from)
		}
		for _, c := range []struct {
			at, from string
			minutes  float64
		}{{"06:10", "12", 370}, {"23:30", "12", 1410}, {"23:30", "40", 1410}} {
			b.set("#on-at", c.at)
			b.set("#on-from", c.from)
			hot := seconds("heat-up", map[string]string{"tank": "wash-1", "start": c.from + " °C"})
			ready := hot + seconds("degas", map[string]string{"tank": "wash-1"})
			want := "Hot at " + clockOf(c.minutes, hot) + ", degassed at " + clockOf(c.minutes, ready)
			b.until(`document.querySelector(".clock-answer").textContent === ` + quote(want))
			if board := b.text(".board-text"); !strings.Contains(board, want) {
				t.Errorf("the board lacks %q: %q", want, board)
			}
		}
		b.set("#on-from", "70") // hotter than wanted: that is said
		b.until(`document.querySelector(".clock-answer").textContent.includes("not above the start")`)
		b.set("#on-at", "")
		b.set("#on-from", "12")
		b.until(`document.querySelector(".clock-answer").textContent.startsWith("Write the time")`)
	})
}

func clockOf(begin, seconds float64) string {
	all := int(begin + float64(int(seconds/60+0.5)))
	minute := all % 1440
	text := quantity.Decimal(float64(minute/60), 3) + ":" + string(rune('0'+minute%60/10)) + string(rune('0'+minute%10))
	if all >= 1440 {
		text += " tomorrow"
	}
	return text
}

// What if it were 68 °C: the page names the materials whose answer the decision changes, no others, and those that drop out first.
func TestWhatIf(t *testing.T) {
	t.Parallel()
	table := relate.Table(demoManual(t))
	limit := func(text string, kind quantity.Kind) fact.Limit {
		r, err := quantity.ParseRange(text, kind)
		if err != nil {
			t.Fatal(err)
		}
		return fact.Limit{Range: r, Set: true}
	}
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "tanks/wash-1.html#at.if")
		for _, c := range []struct {
			field, typed string
			as           admit.As
		}{
			{"#if-temperature", "68", admit.As{Window: fact.Window{Temperature: limit("68 °C", quantity.Temperature)}}},
			{"#if-temperature", "90", admit.As{Window: fact.Window{Temperature: limit("90 °C", quantity.Temperature)}}},
			{"#if-frequency", "25", admit.As{Window: fact.Window{Temperature: limit("90 °C", quantity.Temperature), Frequency: limit("25 kHz", quantity.Frequency)}}},
			{"#if-chemistry", "neutral-detergent", admit.As{Chemistry: "neutral-detergent", Window: fact.Window{Temperature: limit("90 °C", quantity.Temperature), Frequency: limit("25 kHz", quantity.Frequency)}}},
		} {
			list, err := table.Beside(admit.Question{Bath: "wash-1"}, admit.Question{Bath: "wash-1", As: &c.as})
			if err != nil {
				t.Fatal(err)
			}
			var want []string
			for _, v := range list {
				if v.Turn() != admit.Same || v.Left.Brief(nil, quantity.SI) != v.Right.Brief(nil, quantity.SI) {
					want = append(want, v.Material.Name+" "+string(v.Left.Verdict)+" "+string(v.Right.Verdict))
				}
			}
			b.set(c.field, c.typed)
			rows := `[...document.querySelectorAll("#at\\.if tbody tr")].map(r => r.dataset.material + " " + r.cells[1].className + " " + r.cells[2].className)`
			b.until(`JSON.stringify(` + rows + `) === ` + quote(`["`+strings.Join(want, `","`)+`"]`))
			t.Logf("%s %s: %d rows", c.field, c.typed, len(want))
		}
		b.set("#if-frequency", "loud")
		b.until(`document.querySelector("#at\\.if .admit-wanting") !== null`)
	})
}

// Two baths beside each other have every material, and the answers of the page “May it go in?”.
func TestTwoBaths(t *testing.T) {
	t.Parallel()
	table := relate.Table(demoManual(t))
	b := open(t, "file://"+published(t)+"/", "tanks/wash-1.html#at.beside")
	b.set("#if-other", "wash-2")
	b.until(`document.querySelectorAll("#at\\.beside tbody tr").length === ` + quantity.Decimal(float64(len(table.Materials)), 4))
	got := ask[[]string](b, `[...document.querySelectorAll("#at\\.beside tbody tr")].map(r => r.dataset.material + " " + r.cells[1].className + " " + r.cells[2].className)`)
	for _, m := range table.Materials {
		one, _ := table.Answer(admit.Question{Materials: []string{m.Name}, Bath: "wash-1"})
		two, _ := table.Answer(admit.Question{Materials: []string{m.Name}, Bath: "wash-2"})
		if want := m.Name + " " + string(one.Verdict) + " " + string(two.Verdict); !slices.Contains(got, want) {
			t.Errorf("no row says %s", want)
		}
	}
}

// A calculator is set to a tank by a choice; what has to be measured stays empty until it is typed, and what was typed stays when the tank changes.
func TestCalculatorOfATank(t *testing.T) {
	t.Parallel()
	bothSchemes(t, func(t *testing.T, base string) {
		b := open(t, base, "calculators.html")
		if n := ask[int](b, `document.querySelectorAll('main .entries a[href^="calculators/"]').length`); n != len(calculators.All()) {
			t.Errorf("%d calculators are listed of %d", n, len(calculators.All()))
		}
		b.turn("calculators/top-up.html#tank=wash-2")
		b.until(`document.querySelector("#sum-top-up-tank-capacity").value === "28"`)
		if v := ask[string](b, `document.querySelector("#sum-top-up-strength-now").value + document.querySelector("#sum-top-up-volume").value`); v != "" {
			t.Errorf("what nobody measured is filled in: %q", v)
		}
		b.until(`document.querySelector("#sum-top-up .sum-wanting") !== null`)
		b.set("#sum-top-up-strength-now", "1.5")
		b.set("#sum-top-up-volume", "25")
		b.until(`document.querySelector("#sum-top-up .sum-value") !== null`)
		b.set("#tank-choice", "wash-1")
		b.until(`document.querySelector("#sum-top-up-tank-capacity").value === "120" && document.querySelector("#sum-top-up-strength-now").value === "1.5"`)
		b.turn("calculators/spotting.html")
		if b.text("#sum-spotting .sum-answer"); ask[bool](b, `document.querySelector("#sum-spotting .sum-verdict, #sum-spotting .sum-value") !== null`) {
			t.Error("spots are judged by what nobody measured")
		}
	})
}
