package manual

import (
	"strings"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// This file declares the keys that all kinds of article have, and those that take more than a line. The keys of each kind stand in its
// declaration, in kinds.go: the reader, its suggestions and the printed reference follow them. A new key is one line there and one field of
// the model.

var strengthKinds = []quantity.Kind{quantity.VolumeFraction, quantity.MassFraction, quantity.MassConcentration}

// headKeys are the keys of all kinds of article.
var headKeys = []field[Article]{
	text("title", "what the article is called", "Hard wax", 80, func(a *Article) *string { return &a.Head.Title }).must(),
	text("summary", "what it says in one or two sentences", "Wax comes off above its melting point.", 240, func(a *Article) *string { return &a.Head.Summary }).must(),
	word("station", "where on the line it belongs", stationWords, func(a *Article) *string { return (*string)(&a.Head.Station) }).must(),
	text("revision", "letter or number of the revision", "C", 12, func(a *Article) *string { return &a.Head.Revision }).must(),
	approvedKey("who approved it as it stands here, in which role, and when").must(),
	day("review-by", "when it has to be looked at again", "2027-09-14", func(a *Article) *time.Time { return &a.Head.ReviewBy }).must(),
	draftKey("that it is not finished: the shop file's drafts says what becomes of it"),
	replacesKey(),
	sources().must(),
	restsOn(func(a *Article) *[]Rest { return &a.Head.RestsOn }),
	texts("also-called", "everyday words that people use or type for it", "[white spots, water marks]", func(a *Article) *[]string { return &a.Head.AlsoCalled }),
	seeAlso(),
	each("accept", "findings that are accepted, with the reason that is printed in the article", acceptKeys,
		func(a *Article) *[]Acceptance { return &a.Head.Accept }, func(c *Acceptance, at finding.Place) { c.At = at }),
}

var acceptKeys = []field[Acceptance]{
	text("rule", "name of the rule", "orphan", 60, func(c *Acceptance) *string { return &c.Rule }).must(),
	text("reason", "why it is accepted", "Printed and kept at the gate.", 240, func(c *Acceptance) *string { return &c.Reason }).must(),
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
	{Key{Name: "by", Form: "role of the shop file", Example: "process engineer", Means: "who answers for it", Required: true, Shop: aRole.lists()}, func(d *decoder, c *Concession, n *yaml.Node) {
		if value, ok := d.scalar(n, Key{Name: "by", Example: "process engineer"}); ok {
			c.By = d.named(Ref{Name: value, At: d.at(n)}, "by", aRole).Name
		}
	}},
	text("reason", "why, as it is printed wherever the verdict stands", "A minute cold, then rinsed; no crack in fifty coupons.", 240, func(c *Concession) *string { return &c.Reason }).must(),
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
func firstAid() field[Article] {
	return words("first-aid", "harms for which the text gives first aid", FirstAidWords, func(a *Article) *[]Ref { return &a.firstAid })
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
		Means: "chemistries that lift it, each with the window for this soil", Under: keysOf(removalKeys), Refers: aChemistry.kinds,
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

// limitOrNone is a limit, or none, which to gives a place for beside the limit's own.
func limitOrNone(key Key, kind quantity.Kind, to func(*Article) (limit *Limit, none *bool)) field[Article] {
	key.Words, key.Amounts = []string{"none"}, []quantity.Kind{kind}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		limit, none := to(a)
		if n.Kind == yaml.ScalarNode && strings.TrimSpace(n.Value) == "none" {
			*none, limit.At = true, d.at(n)
			return
		}
		if l, ok := d.limit(n, key, key.Amounts); ok {
			*limit = l
		}
	}}
}

// lessonRoles is the list of roles that a lesson is for.
func lessonRoles() field[Article] {
	key := Key{Name: "for", Form: "list of roles of the shop file", Example: "[operator]", Means: "who learns it", Shop: aRole.lists()}
	return field[Article]{key, func(d *decoder, a *Article, n *yaml.Node) {
		for _, ref := range d.texts(n, key) {
			a.Lesson.For = append(a.Lesson.For, d.named(ref, key.Name, aRole).Name)
		}
	}}
}

// readHead fills an article's header.
func readHead(d *decoder, a *Article, mapping *yaml.Node) {
	a.Head.At = make(map[string]finding.Place, len(mapping.Content)/2)
	decode(d, a, mapping, a.Kind.declared().all, string(a.Kind)+"'s header", func(key string, at finding.Place) { a.Head.At[key] = at })
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
