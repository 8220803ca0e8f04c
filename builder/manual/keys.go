package manual

import (
	"fmt"
	"strings"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// This file declares every key of every kind of article, once: the reader, its suggestions and the printed reference follow it.
// A new key is one line here and one field of the model; a new kind is one entry of kindTable and its Facts.

var strengthKinds = []quantity.Kind{quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration}

// headKeys are the keys of all kinds of article.
var headKeys = []field[Article]{
	text("title", "what the article is called", "Hard wax", 80, func(a *Article) *string { return &a.Head.Title }).must(),
	text("summary", "what it says in one or two sentences", "Wax comes off above its melting point.", 240, func(a *Article) *string { return &a.Head.Summary }).must(),
	word("station", "where on the line it belongs", stationWords, func(a *Article) *string { return (*string)(&a.Head.Station) }).must(),
	text("revision", "letter or number of the revision", "C", 12, func(a *Article) *string { return &a.Head.Revision }).must(),
	approvedKey("when it was approved, and by which role").must(),
	day("review-by", "when it has to be looked at again", "2027-09-14", func(a *Article) *time.Time { return &a.Head.ReviewBy }).must(),
	texts("sources", "where its facts come from: title, year and table; or “common practice, no source”, “from memory”, “from the supplier's data sheet: check yours”",
		"[common practice, no source]", func(a *Article) *[]string { return &a.Head.Sources }).must(),
	texts("also-called", "everyday words that people use or type for it", "[white spots, water marks]", func(a *Article) *[]string { return &a.Head.AlsoCalled }),
	seeAlso(),
	each("accept", "findings that are accepted, with the reason that is printed in the article", acceptKeys,
		func(a *Article) *[]Acceptance { return &a.Head.Accept }, func(c *Acceptance, at finding.Place) { c.At = at }),
}

var acceptKeys = []field[Acceptance]{
	text("rule", "name of the rule", "orphan", 60, func(c *Acceptance) *string { return &c.Rule }).must(),
	text("reason", "why it is accepted", "Printed and kept at the gate.", 240, func(c *Acceptance) *string { return &c.Reason }).must(),
}

// kindTable says what there is to know of each kind.
var kindTable = map[Kind]struct {
	folder string
	one    string // the kind in a sentence
	facts  func(*Article)
	keys   []field[Article]
}{
	Soil: {"soils", "soil", func(a *Article) { a.Soil = new(SoilFacts) }, []field[Article]{
		word("nature", "what sort of soil it is", NatureWords, func(a *Article) *string { return &a.Soil.Nature }).must(),
		words("may-contain", "what it may contain that hurts people", PeopleHazardWords, func(a *Article) *[]Ref { return &a.Soil.MayContain }),
		removedBy(),
	}},
	Chemistry: {"chemistries", "chemistry", func(a *Article) { a.Chemistry = new(ChemistryFacts) }, []field[Article]{
		limit("ph", "pH of the bath", "9–11", func(a *Article) *Limit { return &a.Chemistry.PH }, quantity.PH),
		value("alkalinity", "total alkalinity of the bath at the upper end of its strength, by titration to pH 4.5, as calcium carbonate or in meq/L", "350 meq/L",
			func(a *Article) *Limit { return &a.Chemistry.Alkalinity }, quantity.Alkalinity),
		value("acidity", "acidity of the bath at the upper end of its strength, by titration to pH 8.3, as calcium carbonate or in meq/L", "600 meq/L",
			func(a *Article) *Limit { return &a.Chemistry.Acidity }, quantity.Alkalinity),
		limit("strength", "strength of the bath", "2–8 % v/v", func(a *Article) *Limit { return &a.Chemistry.Strength }, strengthKinds...),
		limit("temperature", "working temperature of the bath", "45–65 °C", func(a *Article) *Limit { return &a.Chemistry.Temperature }, quantity.Temperature),
		value("ceiling", "temperature that it must never pass", "70 °C", func(a *Article) *Limit { return &a.Chemistry.Ceiling }, quantity.Temperature),
		value("cloud-point", "temperature at which its surfactant drops out", "68 °C", func(a *Article) *Limit { return &a.Chemistry.CloudPoint }, quantity.Temperature),
		value("flash-point", "flash point of the working mix", "62 °C", func(a *Article) *Limit { return &a.Chemistry.FlashPoint }, quantity.Temperature),
		limit("time", "time under ultrasonics", "3–10 min", func(a *Article) *Limit { return &a.Chemistry.Time }, quantity.Time),
		limit("frequency", "frequencies it is used at", "25–80 kHz", func(a *Article) *Limit { return &a.Chemistry.Frequency }, quantity.Frequency),
		value("density", "density of the concentrate", "1.08 kg/L", func(a *Article) *Limit { return &a.Chemistry.Density }, quantity.Density),
		words("contains", "what it is made of, as far as others must not meet it", ContainsWords, func(a *Article) *[]Ref { return &a.Chemistry.Contains }),
		names("removes", "soils that it lifts", "[straight-cutting-oil, fingerprints]", aSoil, func(a *Article) *[]Ref { return &a.Chemistry.Removes }),
		hazards(func(a *Article) *[]Ref { return &a.Chemistry.Hazards }),
		texts("protective-equipment", "what people wear", "[chemical goggles, long nitrile gloves]", func(a *Article) *[]string { return &a.Chemistry.ProtectiveEquipment }),
		names("never-with", "what it must never meet", "[acid, hypochlorite]", aNeverMeets, func(a *Article) *[]Ref { return &a.Chemistry.NeverWith }),
		name("control-test", "how its strength is measured", "titration", aProcedure, func(a *Article) *Ref { return &a.Chemistry.ControlTest }),
		word("rinses", "how well it rinses off; stays-on where it is meant to stay on the part", rinsesWords, func(a *Article) *string { return &a.Chemistry.Rinses }),
	}},
	Material: {"materials", "material", func(a *Article) { a.Material = new(MaterialFacts) }, []field[Article]{
		words("made-of", "its substances", MadeOfWords, func(a *Article) *[]Ref { return &a.Material.MadeOf }).must(),
		words("features", "what makes it delicate", FeatureWords, func(a *Article) *[]Ref { return &a.Material.Features }),
		limit("ph", "pH that it stands", "5–9", func(a *Article) *Limit { return &a.Material.PH }, quantity.PH),
		limit("ph-silicated", "pH that it stands where the chemistry contains silicate", "5–11", func(a *Article) *Limit { return &a.Material.PHSilicated }, quantity.PH),
		limit("temperature", "temperature that it stands", "≤ 60 °C", func(a *Article) *Limit { return &a.Material.Temperature }, quantity.Temperature),
		materialFrequency(),
		limit("time", "total time under ultrasonics in one visit", "≤ 8 min", func(a *Article) *Limit { return &a.Material.Time }, quantity.Time),
		words("attacked-by", "constituents of a chemistry that attack it", ContainsWords, func(a *Article) *[]Ref { return &a.Material.AttackedBy }),
		texts("damage", "what is seen when it is damaged", "[white etch, black smut]", func(a *Article) *[]string { return &a.Material.Damage }),
		concessions(func(a *Article) *[]Concession { return &a.Material.Concessions }),
	}},
	Part: {"parts", "part", func(a *Article) { a.Part = new(PartFacts) }, append([]field[Article]{
		names("material", "its materials", "[bronze-and-copper]", aMaterial, func(a *Article) *[]Ref { return &a.Part.Materials }).must(),
		words("features", "what makes it delicate", FeatureWords, func(a *Article) *[]Ref { return &a.Part.Features }),
		names("soil", "what is on it", "[straight-cutting-oil]", aSoil, func(a *Article) *[]Ref { return &a.Part.Soils }).must(),
		each("steps", "its washes in order, where there are several", stepKeys, func(a *Article) *[]Step { return &a.Part.Steps }, func(s *Step, at finding.Place) { s.At = at }),
		names("rinse", "rinses in order", "[rinse-1, rinse-2]", aRinse, func(a *Article) *[]Ref { return &a.Part.Rinse }),
		name("dry", "dryer", "dryer", aDryer, func(a *Article) *Ref { return &a.Part.Dry }),
		yesNo("must-not-spot", "whether dried drops would spoil it", func(a *Article) *bool { return &a.Part.MustNotSpot }),
		word("next", "where it goes", nextWords, func(a *Article) *string { return &a.Part.Next }),
		concessions(func(a *Article) *[]Concession { return &a.Part.Concessions }),
	}, singleStep()...)},
	Procedure: {"procedures", "procedure", func(a *Article) { a.Procedure = new(ProcedureFacts) }, []field[Article]{
		limit("time", "how long it takes", "20–30 min", func(a *Article) *Limit { return &a.Procedure.Time }, quantity.Time),
		texts("equipment", "what is needed", "[measuring jug, pH paper]", func(a *Article) *[]string { return &a.Procedure.Equipment }),
		names("tank", "tanks, rinses or dryer that it is for, if only for some", "[wash-1]", aPlace, func(a *Article) *[]Ref { return &a.Procedure.Tanks }),
		names("chemistry", "chemistries that are used in it", "[mild-alkaline]", aChemistry, func(a *Article) *[]Ref { return &a.Procedure.Chemistries }),
		hazards(func(a *Article) *[]Ref { return &a.Procedure.Hazards }),
		texts("protective-equipment", "what people wear", "[chemical goggles, long nitrile gloves]", func(a *Article) *[]string { return &a.Procedure.ProtectiveEquipment }),
		firstAid(func(a *Article) *[]Ref { return &a.Procedure.FirstAid }),
	}},
	Lesson: {"lessons", "lesson", func(a *Article) { a.Lesson = new(LessonFacts) }, []field[Article]{
		whole("order", "its place in the course", "3", func(a *Article) *int { return &a.Lesson.Order }),
		limit("duration", "how long it takes", "45 min", func(a *Article) *Limit { return &a.Lesson.Duration }, quantity.Time),
		lessonRoles(),
		names("needs", "what comes first", "[how-cavitation-cleans]", aLearnable, func(a *Article) *[]Ref { return &a.Lesson.Needs }),
	}},
	Symptom: {"symptoms", "symptom", func(a *Article) { a.Symptom = new(SymptomFacts) }, []field[Article]{
		word("swatch", "drawing of what is seen", SwatchWords, func(a *Article) *string { return &a.Symptom.Swatch }),
		text("label", "two to four words under its drawing", "Spots after drying", 28, func(a *Article) *string { return &a.Symptom.Label }),
		word("seen-on", "where it is noticed", seenOnWords, func(a *Article) *string { return &a.Symptom.SeenOn }).must(),
		names("affects", "materials that it is seen on", "[brass, bronze-and-copper]", aMaterial, func(a *Article) *[]Ref { return &a.Symptom.Affects }),
		firstAid(func(a *Article) *[]Ref { return &a.Symptom.FirstAid }),
		each("observations", "what can be seen with it; remedies refer to them", observationKeys,
			func(a *Article) *[]Observation { return &a.Symptom.Observations }, func(o *Observation, at finding.Place) { o.At = at }),
	}},
}

// stepKeys are the keys of one wash.
var stepKeys = append([]field[Step]{
	name("tank", "tank of the wash", "wash-1", aTank, func(s *Step) *Ref { return &s.Tank }).must(),
	name("chemistry", "chemistry of the wash", "mild-alkaline", aChemistry, func(s *Step) *Ref { return &s.Chemistry }).must(),
}, windowKeys(func(s *Step) *Window { return &s.Window })...)

// removalKeys are the keys of a chemistry that lifts a soil.
var removalKeys = append([]field[Removal]{
	name("chemistry", "chemistry that lifts the soil", "mild-alkaline", aChemistry, func(r *Removal) *Ref { return &r.Chemistry }).must(),
}, windowKeys(func(r *Removal) *Window { return &r.Window })...)

// concessions are what a named role lives with, of a material or of a part.
func concessions(to func(*Article) *[]Concession) field[Article] {
	return each("concessions", "what a named role lives with: a chemistry that a rule would refuse, within limits and for a reason", concessionKeys, to, func(c *Concession, at finding.Place) { c.At = at })
}

var concessionKeys = append([]field[Concession]{
	name("chemistry", "the chemistry that is accepted", "ammoniated-soap", aChemistry, func(c *Concession) *Ref { return &c.Chemistry }).must(),
	{Key{Name: "rules", Form: "list of names of rules", Example: "[ammonia-on-copper-alloy]", Means: "which rules are lived with", Required: true}, func(d *decoder, c *Concession, n *yaml.Node) {
		c.Rules = append(c.Rules, d.texts(n, Key{Name: "rules", Example: "[ammonia-on-copper-alloy]"})...)
	}},
	{Key{Name: "by", Form: "role of the shop file", Example: "process engineer", Means: "who answers for it", Required: true}, func(d *decoder, c *Concession, n *yaml.Node) {
		if value, ok := d.scalar(n, Key{Name: "by", Example: "process engineer"}); ok {
			c.By = d.named(Ref{Name: value, At: d.at(n)}, "by", aRole).Name
		}
	}},
	text("reason", "why, as it is printed wherever the verdict stands", "A minute cold, then rinsed: no crack in fifty coupons.", 240, func(c *Concession) *string { return &c.Reason }).must(),
}, windowKeys(func(c *Concession) *Window { return &c.Window })...)

func windowKeys[T any](of func(*T) *Window) []field[T] {
	return []field[T]{
		limit("strength", "strength of the bath", "4–8 % v/v", func(t *T) *Limit { return &of(t).Strength }, strengthKinds...),
		limit("temperature", "temperature of the bath", "55–65 °C", func(t *T) *Limit { return &of(t).Temperature }, quantity.Temperature),
		limit("time", "time under ultrasonics", "5–10 min", func(t *T) *Limit { return &of(t).Time }, quantity.Time),
		limit("frequency", "frequency", "40 kHz", func(t *T) *Limit { return &of(t).Frequency }, quantity.Frequency),
	}
}

// singleStep gives the keys of a wash as keys of the part, for a part that has one wash.
func singleStep() []field[Article] {
	var keys []field[Article]
	for _, f := range stepKeys {
		key := f.Key
		key.Required = false
		key.Means += ", where there is one wash"
		keys = append(keys, field[Article]{key, func(d *decoder, _ *Article, n *yaml.Node) {
			if d.single == nil {
				d.single = &Step{At: d.at(n)}
			}
			f.read(d, d.single, n)
		}})
	}
	return keys
}

// firstAid is the list of harms for which an article's text gives first aid.
func firstAid(to func(*Article) *[]Ref) field[Article] {
	return words("first-aid", "harms for which the text gives first aid", FirstAidWords, to)
}

// approvedKey is the date of approval and the role that approved.
func approvedKey(means string) field[Article] {
	key := Key{Name: "approved", Form: "date and role, parted by a comma", Example: "2026-09-14, process engineer", Means: means}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		value, ok := d.scalar(n, key)
		if !ok {
			return
		}
		date, role, found := strings.Cut(value, ",")
		if _, err := time.Parse(dateForm, strings.TrimSpace(date)); !found && err == nil {
			d.report(ruleWrongValue, d.at(n), fmt.Sprintf("“approved: %s” does not say by which role.", clip(value, 40)), "Write for example: approved: "+key.Example)
		}
		if t, ok := d.date(strings.TrimSpace(date), d.at(n), key); ok {
			a.Head.Approved = t
		}
		if role = strings.TrimSpace(role); role != "" {
			a.Head.ApprovedBy = role
			d.named(Ref{Name: role, At: d.at(n)}, "approved", aRole)
		}
	}}
}

// seeAlso is a list of links or names; they are resolved when everything has been read.
func seeAlso() field[Article] {
	key := Key{Name: "see-also", Form: "list of relative links or names", Example: "[../procedures/rinse.md, titration]", Means: "related articles beyond those that the manual finds itself"}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		a.Head.SeeAlso = append(a.Head.SeeAlso, d.texts(n, key)...)
	}}
}

// removedBy is a list of chemistry names, or of mappings that give the window for this soil.
func removedBy() field[Article] {
	key := Key{
		Name: "removed-by", Form: "list, each item the name of a chemistry or keys of its own", Example: "[neutral-detergent, {chemistry: mild-alkaline, temperature: 60–70 °C}]",
		Means: "chemistries that lift it, each with the window for this soil", Under: keysOf(removalKeys),
	}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		items := []*yaml.Node{n}
		if n.Kind == yaml.SequenceNode {
			items = n.Content
		}
		for _, item := range items {
			var r Removal
			switch item.Kind {
			case yaml.MappingNode:
				decode(d, &r, item, removalKeys, "item of “removed-by”", nil)
			default:
				value, ok := d.scalar(item, key)
				if !ok {
					continue
				}
				r.Chemistry = d.named(Ref{Name: value, At: d.at(item)}, key.Name, aChemistry)
			}
			a.Soil.RemovedBy = append(a.Soil.RemovedBy, r)
		}
	}}
}

// materialFrequency is a limit, or none for a material that stands no sound at all.
func materialFrequency() field[Article] {
	key := Key{Name: "frequency", Form: "value or range, or none", Example: "≥ 40 kHz", Means: "frequencies that it stands; none where no sound may reach it"}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		if n.Kind == yaml.ScalarNode && strings.TrimSpace(n.Value) == "none" {
			a.Material.NoSound = true
			a.Material.Frequency.At = d.at(n)
			return
		}
		if l, ok := d.limit(n, key, []quantity.Kind{quantity.Frequency}); ok {
			a.Material.Frequency = l
		}
	}}
}

// lessonRoles is the list of roles that a lesson is for.
func lessonRoles() field[Article] {
	key := Key{Name: "for", Form: "list of roles of the shop file", Example: "[operator]", Means: "who learns it"}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		for _, ref := range d.texts(n, key) {
			a.Lesson.For = append(a.Lesson.For, d.named(ref, key.Name, aRole).Name)
		}
	}}
}

// readHead fills an article's header.
func readHead(d *decoder, a *Article, mapping *yaml.Node) {
	a.Head.At = make(map[string]finding.Place, len(mapping.Content)/2)
	decode(d, a, mapping, articleKeys[a.Kind], kindTable[a.Kind].one+"'s header", func(key string, at finding.Place) { a.Head.At[key] = at })
	if d.single != nil {
		d.addSingleStep(a)
	}
}

// addSingleStep moves the keys of a single wash to where the others are.
func (d *decoder) addSingleStep(a *Article) {
	if len(a.Part.Steps) > 0 {
		d.report(ruleDuplicateKey, d.single.At, "The part has “steps” and keys of a single wash beside them.", "Write every wash below “steps”.", a.Head.At["steps"])
		return
	}
	for _, must := range []string{"tank", "chemistry"} {
		if _, ok := a.Head.At[must]; !ok {
			d.report(ruleMissingKey, d.single.At, "The part's wash has no “"+must+"”.", "Add a line: "+must+": "+find(stepKeys, must).Example)
		}
	}
	a.Part.Steps = []Step{*d.single}
}

// articleKeys are the keys of each kind, the common ones first.
var articleKeys = func() map[Kind][]field[Article] {
	keys := make(map[Kind][]field[Article], len(kindTable))
	for kind, t := range kindTable {
		keys[kind] = append(append([]field[Article]{}, headKeys...), t.keys...)
	}
	return keys
}()

// HeadKeys are the keys that the header of every kind of article has.
func HeadKeys() []Key { return keysOf(headKeys) }

// Keys are the keys that the header of a kind has beside HeadKeys.
func Keys(kind Kind) []Key { return keysOf(kindTable[kind].keys) }

// Folder is the folder of the manual that holds the articles of a kind.
func (k Kind) Folder() string { return kindTable[k].folder }

// kindOf gives the kind of the articles in a folder.
func kindOf(folder string) (Kind, bool) {
	for _, k := range Kinds {
		if kindTable[k].folder == folder {
			return k, true
		}
	}
	return "", false
}

func folders() []string {
	names := make([]string, len(Kinds))
	for i, k := range Kinds {
		names[i] = kindTable[k].folder
	}
	return names
}
