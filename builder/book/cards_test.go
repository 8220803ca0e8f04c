package book

import (
	"errors"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/builder/quantity"
)

var (
	cardOf    = regexp.MustCompile(`(?s)<section class="card handout" id="([^"]*)".*?</section>`)
	factOf    = regexp.MustCompile(`(?s)<div><dt>([^<]*)</dt><dd[^>]*>(.*?)</dd></div>`)
	cardCode  = regexp.MustCompile(`<b class="card-letters">([A-Z2-9]{5})</b>`)
	otherUnit = regexp.MustCompile(`<span class="us">[^<]*</span>`)
	anyTag    = regexp.MustCompile(`<[^>]*>`)
)

// said is what a reader of SI units reads.
func said(text string) string {
	text = anyTag.ReplaceAllString(otherUnit.ReplaceAllString(text, ""), "")
	return strings.TrimSpace(strings.ReplaceAll(html.UnescapeString(text), "\u00a0", " "))
}

func cards(text string) map[string]string {
	list := map[string]string{}
	for _, m := range cardOf.FindAllStringSubmatch(text, -1) {
		list[m[1]] = m[0]
	}
	return list
}

// The amounts on a tank's card are those of the balances of volume and of concentrate, worked out here by themselves: V·c for a fill
// (C₁V₁ = C₂V₂), V·(c − c₀) ÷ (1 − c₀) let out of a full tank and put back as concentrate for putting a weak bath right. They are rounded to what the measure
// shows, by a fortieth at most, and never to more concentrate than was worked out where a weak bath is put right.
func TestAmountsOnTheCards(t *testing.T) {
	m, files := demoEdition(t)
	list := cards(files[page.CardsPage])
	weakRow := regexp.MustCompile(`^([0-9.]+ % v/v): − (.*), \+ (.*) \(([^()]*)\)$`)
	for i := range m.Shop.Tanks {
		tank := &m.Shop.Tanks[i]
		facts := map[string]string{}
		for _, f := range factOf.FindAllStringSubmatch(list[tank.ID], -1) {
			name, value := said(f[1]), said(f[2])
			if row := weakRow.FindStringSubmatch(value); row != nil {
				facts[row[1]+", out"], facts[row[1]+", in"] = row[2], row[3]
				if row[4] == "" {
					t.Errorf("%s: %q is measured with nothing", tank.Name, value)
				}
				continue
			}
			facts[name], _, _ = strings.Cut(value, " (")
		}
		volume, strength := tank.Volume.Low, tank.Strength.Low
		density := m.Named(manual.Chemistry, tank.Chemistry.Name).Chemistry.Density.Low
		want := map[string]float64{"Filled to the mark": volume, "Concentrate": volume * strength, "Water": volume * (1 - strength)}
		for _, share := range []float64{0.9, 0.8, 0.7} {
			now := tank.Strength
			now.Low, now.High = share*now.Low, share*now.High
			measured, amount := strings.ReplaceAll(now.Range.String(), "\u00a0", " "), volume*(strength-share*strength)/(1-share*strength)
			want[measured+", out"], want[measured+", in"] = amount, amount
		}
		for name, amount := range want {
			got, err := quantity.ParseRange(facts[name], quantity.Volume)
			if err != nil {
				t.Errorf("%s: %s is %q: %v", tank.Name, name, facts[name], err)
			} else if math.Abs(got.Low/amount-1) > 0.05 || math.Abs(got.Low/amount-1) > 0.0251 && !strings.HasSuffix(name, ", in") {
				t.Errorf("%s: %s is %s, wants %g m³", tank.Name, name, facts[name], amount)
			} else if strings.HasSuffix(name, ", in") && got.Low > amount*1.001 {
				t.Errorf("%s: %s is %s, more than %g m³", tank.Name, name, facts[name], amount)
			}
		}
		mass, err := quantity.ParseRange(facts["or by mass"], quantity.Mass)
		if err != nil || math.Abs(mass.Low/(volume*strength*density)-1) > 0.005 {
			t.Errorf("%s: the concentrate weighs %s (%v)", tank.Name, facts["or by mass"], err)
		}
	}
}

var (
	verdictOf = regexp.MustCompile(`(?s)<(p|ul) class="(?:handout-list )?says-(no|conditions|yes)">(.*?)</(?:p|ul)>`)
	listItem  = regexp.MustCompile(`(?s)<li>(.*?)</li>`)
)

// A card says of every material the same as the answer to “may it go in?”, every condition included, and leaves none out.
func TestMaterialsOnTheCards(t *testing.T) {
	m, files := demoEdition(t)
	list := cards(files[page.CardsPage])
	table := relate.Table(m)
	for _, tank := range m.Shop.Tanks {
		on := map[string]string{} // verdict by what is said
		for _, v := range verdictOf.FindAllStringSubmatch(list[tank.ID], -1) {
			items := strings.Split(v[3], " · ")
			if v[1] == "ul" {
				items = nil
				for _, i := range listItem.FindAllStringSubmatch(v[3], -1) {
					items = append(items, i[1])
				}
			}
			for _, i := range items {
				on[said(i)] = v[2]
			}
		}
		if len(on) != len(table.Materials) {
			t.Errorf("%s: the card has %d materials of %d", tank.Name, len(on), len(table.Materials))
		}
		for i := range table.Materials {
			a, err := table.Answer(admit.Question{Materials: []string{table.Materials[i].Name}, Bath: tank.ID})
			if err != nil {
				t.Fatal(err)
			}
			title := table.Materials[i].Title
			if keep := a.Brief(nil, quantity.SI); keep != "" {
				title += " (" + keep + ")"
			}
			if got := on[strings.ReplaceAll(title, "\u00a0", " ")]; got != string(a.Verdict) {
				t.Errorf("%s: %s is %s; the card has it so under %q", tank.Name, title, a.Verdict, got)
			}
		}
	}
}

// Every tank, rinse and the dryer has a card with what can hurt at it, the gravest first, what to wear, and whom to ask.
func TestSafetyOnTheCards(t *testing.T) {
	_, files := demoEdition(t)
	list := cards(files[page.CardsPage])
	for id, words := range map[string][]string{
		"wash-1":  {"No hand, finger or hand-held tool in a running bath", "H318", "can blind", "62 °C"},
		"wash-2":  {"No hand, finger or hand-held tool in a running bath", "48 °C"},
		"rinse-1": {"hot cleaner", "Wet floors"},
		"rinse-2": {"hot cleaner", "Wet floors"},
		"dryer":   {"not built for vapours that burn", "Compressed air"},
	} {
		text := list[id]
		for _, w := range append(words, "Wear:", "safety data sheet", "Ask (", "Emergency") {
			if !strings.Contains(said(text), w) {
				t.Errorf("the card of %s does not say %q", id, w)
			}
		}
		var order []int
		for _, m := range regexp.MustCompile(`<p class="signal">(?:<svg.*?</svg> )?(\w+)</p>`).FindAllStringSubmatch(text, -1) {
			order = append(order, slices.Index(manual.SignalWords, m[1]))
		}
		if len(order) == 0 || !slices.IsSorted(order) || slices.Contains(order, -1) {
			t.Errorf("the card of %s has the signal words in the order %v", id, order)
		}
	}
	if len(list) != 5 {
		t.Errorf("there are %d cards", len(list))
	}
}

// The letters of a card change when what it says does, and only then: an edition in which something else has changed leaves it good.
func TestAnOldCardIsRecognised(t *testing.T) {
	m, files := demoEdition(t)
	code := func(files map[string]string, id string) string {
		if c := cardCode.FindStringSubmatch(cards(files[page.CardsPage])[id]); c != nil {
			return c[1]
		}
		t.Fatalf("the card of %s has no letters", id)
		return ""
	}
	changed := *m
	changed.Shop.Tanks = slices.Clone(m.Shop.Tanks)
	changed.Shop.Tanks[0].Temperature.Low, changed.Shop.Tanks[0].Temperature.High = 58, 58
	changed.Shop.EnergyPrice = 1
	after := edition(t, &changed)
	if a, b := code(files, "wash-1"), code(after, "wash-1"); a == b {
		t.Errorf("Wash 1 has another temperature, and its card is still %s", a)
	}
	for _, id := range []string{"wash-2", "rinse-1", "dryer"} {
		if a, b := code(files, id), code(after, id); a != b {
			t.Errorf("nothing that concerns %s has changed, and its card was %s and is %s", id, a, b)
		}
	}
}

// The line at the head of a sheet marks the stations of its article.
func TestTheLineMarksTheStation(t *testing.T) {
	_, files := demoEdition(t)
	for place, want := range map[string]string{
		"book/rinse.html#procedures.rinse": "Rinse, Last rinse", "book/dry.html#procedures.dry": "Dryer", "book/wash.html#chemistries.neutral-detergent": "Wash 2",
		"book/wash.html#tanks.wash-1": "Wash 1", "book/rinse.html#tanks.rinse-2": "Last rinse", "book/dry.html#tanks.dryer": "Dryer", "book/wash.html#materials.brass": "Wash 2",
	} {
		file, id, _ := strings.Cut(place, "#")
		_, leaf, found := strings.Cut(files[file], `<section class="leaf" id="`+id+`">`)
		leaf, _, _ = strings.Cut(leaf, `<div class="leaf-body">`)
		var marked []string
		for _, m := range regexp.MustCompile(`running-stop here">([^<]*)<`).FindAllStringSubmatch(leaf, -1) {
			marked = append(marked, m[1])
		}
		if got := strings.Join(marked, ", "); !found || got != want {
			t.Errorf("%s marks %q, wants %q", place, got, want)
		}
	}
}

// What no sound reaches has no time under it on its card, and a tank without a lid is told where it ends without one.
func TestCardsOfOtherVessels(t *testing.T) {
	shop, err := os.ReadFile("../../content/shop.yaml")
	if err != nil {
		t.Fatal(err)
	}
	with := func(old, new string) map[string]string {
		if !strings.Contains(string(shop), old) {
			t.Fatalf("the shop file has no %q", old)
		}
		text := strings.Replace(string(shop), old, new, 1)
		dir := t.TempDir()
		if err := errors.Join(os.CopyFS(dir, os.DirFS("../../content")), os.WriteFile(filepath.Join(dir, "shop.yaml"), []byte(text), 0o600)); err != nil {
			t.Fatal(err)
		}
		m, _, err := manual.Read(t.Context(), os.DirFS(dir))
		if err != nil {
			t.Fatal(err)
		}
		facts := map[string]string{}
		for _, f := range factOf.FindAllStringSubmatch(cards(edition(t, m)[page.CardsPage])["wash-2"], -1) {
			facts[said(f[1])] = said(f[2])
		}
		return facts
	}
	const sound = "    ultrasonic-power: 500 W\n    frequency: 80 kHz\n"
	if facts := with(sound, sound); facts["Time"] == "" || facts["Stop the sound, lid off, at"] == "" {
		t.Errorf("a tank with sound and lid: %v", facts)
	}
	if facts := with(sound, "    ultrasonic-power: none\n"); facts["Time"] != "" {
		t.Errorf("no sound, and a time under it: %v", facts)
	}
	if facts := with("    lid: yes\n    insulation: none\n    chemistry: neutral-detergent\n    strength: 2 % v/v\n    temperature: 48 °C\n    duty: 40 %\n",
		"    lid: no\n    insulation: none\n    chemistry: neutral-detergent\n    strength: 2 % v/v\n    temperature: 30 °C\n"); facts["Stop the sound at"] == "" || facts["Stop the sound, lid off, at"] != "" {
		t.Errorf("a tank without a lid that its sound warms: %v", facts)
	}
}
