package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// heatBeyondLimit finds text that asks for, or allows, more heat than a cleaner's ceiling, its distance to the flash point, or a material
// stands: “Bring Wash 1 to 80 °C”, “Do not start before it is at 80 °C”, “Polycarbonate takes 70 °C”.
// It prevents that somebody does what he reads: the surfactant leaves the bath, vapour can be lit, the part is ruined.
// The limits are the headers' ceiling and flash-point of the chemistry, the latter with the distance of admit.FlashMargin, and temperature
// of the material. It tests against the limit, never against the set-point, so that “heat” and “raise” may be used of anything below.
// What was, what happens if, an example, and what must not be done are left alone.
var heatBeyondLimit = finding.Rule{
	Name: "heat-beyond-limit", Severity: finding.Parts,
	Finds:  "a text that asks for more heat than a cleaner's ceiling or flash point allows, or a material stands",
	Why:    "Somebody will do what he reads: the bath separates or its vapour can be lit, or the part is ruined.",
	Source: "ceiling and flash-point of the chemistry, temperature of the material; the distance to the flash point is that of near-flash-point",
}

// Commands about heat in which a bath or a part has another temperature than that of the wash.
var otherHeat = sentence.Set("bake cure solder quench store cool boil steam melt lower chill freeze anneal weld braze temper stress-relieve reduce drop stop switch call scrap ventilate leave-alone")

// heatAttributes are words for what the temperature of a bath is set or read on.
var heatAttributes = map[string]bool{"": true, "set point": true, "set-point": true, "heater": true, "working point": true, "display": true, "screen": true, "thermometer": true, "probe": true, "thermostat": true, "winter": true, "summer": true, "night": true,
	// what has no temperature, so that another thing of the sentence has it
	"sound": true, "ultrasonic": true, "volume": true, "level": true, "duty": true, "price": true, "cost": true}

func findHeatBeyondLimits(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	said := p.reading(a)
	for i := range said.sentences {
		s := &said.sentences[i]
		if i+1 < len(said.sentences) {
			if b, q := p.saidYes(a, s, &said.sentences[i+1]); b != nil {
				list = append(list, b.finding(placeIn(a, s.Block, q.From)))
				continue
			}
			if b, from := p.hotAnswered(a, s, &said.sentences[i+1]); b != nil {
				list = append(list, b.finding(placeIn(a, s.Block, from)))
				continue
			}
		}
		if b, from := p.boiled(a, s); b != nil {
			list = append(list, b.finding(placeIn(a, s.Block, from)))
			continue
		}
		if b, from := p.dialledTooHot(a, s); b != nil {
			list = append(list, b.finding(placeIn(a, s.Block, from)))
			continue
		}
		if b, from := p.toldInTens(a, s); b != nil {
			list = append(list, b.finding(placeIn(a, s.Block, from)))
			continue
		}
		if b, from := p.heatByPoint(a, s); b != nil {
			list = append(list, b.finding(placeIn(a, s.Block, from)))
			continue
		}
		for j := range s.Quantities {
			if b := p.tooHot(a, s, &s.Quantities[j]); b != nil {
				list = append(list, b.finding(placeIn(a, s.Block, s.Quantities[j].From)))
			}
		}
	}
	return p.answeredTooHot(a, said, list)
}

// answeredTooHot adds the temperatures that say too much only together with the question that they answer: “Thick lime? 80 °C.”
func (p *proof) answeredTooHot(a *manual.Article, said *runningText, list []finding.Finding) []finding.Finding {
	for i := range said.answers {
		s := &said.answers[i]
		for j := range s.Quantities {
			q := &s.Quantities[j]
			if q.Clause == 0 || !labels(s, q.Clause) || s.ClauseHas(0, foundSo) || s.ClauseHas(0, asksAmount) {
				continue
			}
			if b := p.beyond(a, s, q); b != nil {
				f := b.finding(placeIn(a, s.Block, q.From))
				if !slices.ContainsFunc(list, func(g finding.Finding) bool { return g.Place == f.Place }) {
					list = append(list, f)
				}
			}
		}
	}
	return list
}

// asksAmount are words of a question that asks for an amount, and not for what to do.
var asksAmount = sentence.Set("what how why when where which who was did would could")

var intoWord = sentence.Set("into")

// boiled looks for a command to boil a tank of the shop: “Boil Wash 2 once a month to kill the germs”.
func (p *proof) boiled(a *manual.Article, s *sentence.Sentence) (*excess, int) {
	if s.Question || s.TakenBack || s.Has(exceptions) {
		return nil, 0
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if k := s.ClauseOf(m); m.Thing == nil || m.Thing.Tank == nil || s.Before(m) != "boil" || s.Clauses[k].Mood != sentence.Do || s.Clauses[k].Opener != "" || denies(s, k) {
			continue
		}
		of := p.ofMention(a, m)
		text := quantity.Show(p.boiling(), quantity.Temperature, p.Shop.System())
		return p.beyondBath(&sentence.Quantity{Text: text}, &of, p.boiling()), m.From
	}
	return nil, 0
}

// excess is a temperature that is beyond a limit.
type excess struct {
	says, remedy string
	at           finding.Place
	fire         bool
}

// finding tells of an excess; vapour that can be lit can hurt somebody.
func (e *excess) finding(at finding.Place) finding.Finding {
	f := heatBeyondLimit.At(at, e.says, e.remedy, e.at)
	if e.fire {
		f.Severity = finding.People
	}
	return f
}

// tooHot tells whether a quantity asks for too much heat, by what is said around it, or because nothing there speaks against it.
func (p *proof) tooHot(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	if q.Kind != quantity.Temperature || ofPiece(s, q) {
		return nil
	}
	for _, sort := range []func(*manual.Article, *sentence.Sentence, *sentence.Quantity) *excess{p.beyond, p.heatUnblamed, p.actsLate, p.heatThatWorks, p.heatWished, p.looksGoodAt, p.softNearDryer} {
		if e := sort(a, s, q); e != nil {
			return e
		}
	}
	return nil
}

// beyond tells whether a quantity asks for more heat than what it is said of stands.
func (p *proof) beyond(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	if q.Kind != quantity.Temperature || s.TakenBack || badLabel(s, q.Clause) || ofAnother(s) || s.ClauseHas(q.Clause, ovens) && !heatingHelps(s, q) || s.ClauseHas(q.Clause, staying) && s.ClauseHas(q.Clause, besideBaths) {
		return nil
	}
	if waterItself(a) && (q.Attribute == "water" || q.Attribute == "rinse" || q.Attribute == "brazing") {
		own := *q // on the page of a water that is what the bath is
		own.Attribute = ""
		q = &own
	}
	if q.Attribute == "water" && waterInTank(s, q) {
		own := *q
		own.Attribute = ""
		q = &own
	}
	asked, ok := askedFor(q)
	if tripsLate(s, q) {
		if of := p.of(a, q); len(of.tanks) > 0 || len(of.chemistries) > 0 {
			return p.beyondBath(q, &of, q.Range.Low)
		}
	}
	if !ok && q.Relation == sentence.Below && lost(s, q) {
		asked, ok = q.Range.Low, true
	}
	if !ok && uselessBelow(s, q) {
		of := p.of(a, q)
		if len(of.tanks) > 0 && !of.own || a.Chemistry != nil && len(of.chemistries) > 0 {
			return p.beyondBath(q, &of, q.Range.Low)
		}
	}
	if !ok {
		return p.beyondIfColder(a, s, q)
	}
	c := &s.Clauses[q.Clause]
	of := p.of(a, q)
	if t := p.tankOfCell(s, q); t != nil {
		of = p.ofTank(t)
		return p.beyondBath(q, &of, asked)
	}
	if q.About == nil && moments[c.Opener] && c.Opener != "" && waitedFor(s, q) {
		if t := onlyTank(s); t != nil { // “Wash 1 is ready as soon as the thermometer stands at 78 °C”
			of = p.ofTank(t)
		}
	}
	if otherBefore(a, s, q) {
		return nil // “Steel stands 60 °C, brass 50 °C”
	}
	if cutsOut(s, q) && (len(of.tanks) > 0 || len(of.chemistries) > 0) {
		return p.beyondBath(q, &of, asked)
	}
	if s.Has(eachOf) && s.Has(severalBaths) && (q.About == nil || q.About.Stands && q.About.Thing == nil) {
		of = p.ownSubject(a, "baths")
		of.each = true
	}
	if e := p.softInDryer(a, s, q, asked); e != nil {
		return e
	}
	if of.dryer != nil && c.Verb != "dry" && c.Verb != "put" && c.Verb != "use" {
		return nil // where the dryer stands is no command
	}
	drying := c.Verb == "dry" || c.Verb == "dried" || q.Attribute == "drying" || q.Attribute == "dryer" || q.Attribute == "dry" || q.Attribute == "blow"
	rinsing := c.Verb == "rinse" || c.Verb == "rinsed" || q.Attribute == "rinse"
	advice := advised(a, s, q)
	if q.Attribute == "oven" && (advice || s.ClauseHas(q.Clause, goesDry) && c.Opener == "" && !against(s, q.Clause) && !s.Harmful()) {
		return p.softInOven(a, q, asked)
	}
	if !heatAttributes[q.Attribute] && !(drying || rinsing) && !((wantsHeat(a, s, q) || inTank(s, q)) && soilWords[q.Attribute]) && !(c.Verb == "until" && startWords[q.Attribute]) && !fillsHot(a, s, q) && !(advice && (soilWords[q.Attribute] || startWords[q.Attribute] && waitedFor(s, q))) || otherHeat[c.Verb] && !(c.Verb == "lower" && s.ClauseHas(q.Clause, intoWord)) && !(c.Verb == "boil" && (len(of.tanks) == 1 && !of.own || a.Chemistry != nil && q.About != nil && q.About.Stands)) {
		return nil
	}
	if s.Harmful() && !harmIsOccasion(s, q.Clause) && !bids[c.Verb] && !advice && !keptAgainst(s, q) || describes(s, q) || s.ClauseHas(q.Clause, byOthers) || othersWork(s, q.Clause) || ofOthers(s, q) {
		return nil
	}
	if a.Material != nil && q.About == nil && s.ClauseHas(q.Clause, sayings) && (c.Mood == sentence.Able || len(s.Quantities) > 1) {
		return nil // “The maker of the tube allows 70 °C in air”
	}
	if consequence(s, q.Clause) && s.Has(spoilt) {
		return nil // “Dip them at 60 °C and the brass is pickled”
	}
	named := q.About != nil
	if t := onlyTank(s); advice && q.About == nil && len(of.tanks)+len(of.chemistries)+len(of.materials) == 0 && t != nil && pointedAt(s, q) {
		of = p.ofTank(t) // “Foam falls at 70 °C, so warm Wash 2 to that”
	}
	if advice && !drying && !rinsing {
		return p.beyondAdvised(q, a, s, &of, asked)
	}
	mood := c.Mood
	if mood == sentence.If && keptAgainst(s, q) {
		mood = sentence.Do
	}
	switch mood {
	case sentence.Do:
	case sentence.MustNot:
		if q.Relation != sentence.AtLeast { // “never below 80 °C” asks for it
			return nil
		}
	case sentence.Able:
		if endsDenied(s) {
			return nil // “Glass tubes stand 60 °C, acrylic ones do not”
		}
		if drying || rinsing {
			return nil
		}
		if len(of.tanks) > 0 && (c.Verb == "stands" || c.Verb == "takes" && precededBy(s, q, "at")) && q.Relation != sentence.To {
			return nil // “Wash 1 stands at 80 °C” tells where it is
		}
	case sentence.Fragment:
		if q.About != nil && len(of.tanks) == 1 && !of.own && c.Opener == "" && (q.Relation == sentence.AtMost || setOnCard(s, q) || soilCard(a, s, q)) {
			break // “Monday: Wash 1 up to 79 °C, lid on”
		}
		if a.Material == nil && a.Part == nil || s.Block.Kind == sentence.Cell || q.Relation != sentence.At && q.Relation != sentence.To || drying || rinsing || q.About == nil && precededBy(s, q, "of") {
			return nil // “six years on condensate of 140 °C”
		}
	default:
		return nil
	}
	if w := p.waterOf(of.rinse); w != nil && !denies(s, q.Clause) {
		if e := p.beyondBath(q, &spokenOf{chemistries: []*manual.Article{w}}, asked); e != nil {
			return e
		}
	}
	if drying || rinsing || of.dryer != nil || of.rinse != nil {
		of.tanks, of.chemistries = nil, nil
		if len(of.materials) == 0 && (a.Material != nil || a.Part != nil) {
			of = p.ownSubject(a, "")
		}
	}
	if len(of.tanks) > 0 || len(of.chemistries) > 0 {
		if of.own && !named && !of.each && (a.Chemistry == nil && c.Mood != sentence.Do || !heats[c.Verb] && !fillsHot(a, s, q) && !(waterItself(a) && s.ClauseHas(q.Clause, keptAt)) && !(c.Verb == "give" && hasTime(s, q.Clause)) && !(c.Verb == "are" && s.ClauseHas(q.Clause, areWashed))) {
			return nil
		}
		if b := p.beyondBath(q, &of, asked); b != nil {
			return b
		}
		of = p.worked(a, s, q)
	}
	if len(of.materials) == 0 {
		return nil
	}
	if drying && slices.ContainsFunc(of.materials, func(m *manual.Article) bool { return !admit.Softens(m.Material.MadeOf) }) {
		return nil // the limit of a metal is one for the wet metal
	}
	if of.own && c.Mood == sentence.Do && !worksOn[c.Verb] && !wantsHeat(a, s, q) && !drying && !rinsing {
		return nil
	}
	b := p.beyondMaterial(q, &of, asked)
	if b == nil && a.Part != nil && of.part == a && !drying && !rinsing && (washIt[c.Verb] || c.Verb == "" && s.ClauseHas(q.Clause, washIt)) { // its own bath has a ceiling
		if bath := p.ownSubject(a, "wash"); len(bath.chemistries) == 1 {
			return p.beyondBath(q, &bath, asked)
		}
	}
	return b
}

// waterInTank tells whether the water of which a temperature is said is the one in a tank: “Bring the water in Wash 2 to 70 °C”.
func waterInTank(s *sentence.Sentence, q *sentence.Quantity) bool {
	m := q.About
	return m != nil && m.Thing != nil && m.Thing.Tank != nil && m.From >= s.From && m.From < q.From && strings.HasSuffix(strings.ToLower(s.Block.Text[s.From:m.From]), "water in ")
}

// waterOf gives the article of the water that feeds a rinse, or nil.
func (p *proof) waterOf(r *manual.Rinse) *manual.Article {
	if r == nil || r.Water == "" {
		return nil
	}
	return p.Named(manual.Chemistry, r.Water+"-water")
}

// harmIsOccasion tells whether what goes wrong in a sentence is only the occasion for a command: “If two trials fail, the third is made at …”.
func harmIsOccasion(s *sentence.Sentence, k int) bool {
	if c := &s.Clauses[k]; c.Opener != "" || c.Mood != sentence.Do || c.Harmful {
		return false
	}
	for j := range s.Clauses {
		if c := &s.Clauses[j]; c.Harmful && (j > k || c.Opener != "if" && c.Opener != "when" && c.Opener != "where" && c.Opener != "whenever") {
			return false
		}
	}
	return true
}

// endsDenied tells whether a sentence ends with a negation without a verb of its own: “…, acrylic ones do not”.
func endsDenied(s *sentence.Sentence) bool {
	list := s.AllWords()
	n := len(list)
	return n > 2 && (list[n-1] == "not" || list[n-1] == "don't" || list[n-1] == "doesn't" || list[n-1] == "cannot")
}

// setOnCard tells whether words without a verb, as on a list, set a tank to a temperature: “Wash 1: heater on, 79 °C”, “Wash 1 set to 79 °C”.
func setOnCard(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if s.Block.Kind == sentence.Cell || q.Relation != sentence.At && q.Relation != sentence.To || s.Has(noWords) || s.Has(ailing) || s.Has(foundSo) || illOf(s) {
		return false
	}
	words := s.Tokens()
	for i := 0; i+1 < len(words); i++ {
		if t := words[i]; t.Clause != k || t.From > q.From {
			continue
		} else if t.Text == "heater" && words[i+1].Text == "on" || (t.Text == "set" || t.Text == "turned" || t.Text == "raised" || t.Text == "heated" || t.Text == "brought") && (words[i+1].Text == "to" || words[i+1].Text == "up" || words[i+1].Text == "at") {
			return true
		}
	}
	return false
}

// spoilt are words of what comes of too much heat.
var spoilt = sentence.Set("pickled pitted etched dull ruined lost spoilt spoiled crazed swollen milky brown black scrap")

// sayings are words of those who say what a dry piece stands.
var sayings = sentence.Set("maker maker's manufacturer manufacturer's supplier supplier's standard sheet catalogue datasheet")

// soilCard tells whether words without a verb send a soil into a tank at a temperature: “Old grease: Wash 1 at 78 °C for twenty minutes”.
func soilCard(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if s.Block.Kind == sentence.Cell || q.Relation != sentence.At && q.Relation != sentence.To || !hasTime(s, k) || s.Has(noWords) || s.Has(foundSo) || illOf(s) || badLabel(s, k) {
		return false
	}
	return a.Soil != nil && (k == 0 || !labels(s, k)) || k > 0 && labels(s, k) && s.ClauseHas(k-1, soilNames)
}

// badLabel tells whether a clause stands behind a label that takes it back: “Wrong:”, “Not allowed:”, “Yesterday:”.
func badLabel(s *sentence.Sentence, k int) bool {
	return k > 0 && labels(s, k) && (s.ClauseHas(k-1, noWords) || s.ClauseHas(k-1, badLabels))
}

var badLabels = sentence.Set("wrong mistake mistakes error errors alarm yesterday forbidden fault found finding incident example never bad rumour myth trial ask question quiz")

// softInDryer finds a plastic or rubber that goes into the dryer at more than it stands: “Nitrile seals go into the dryer at 80 °C together with the metal”.
func (p *proof) softInDryer(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity, asked float64) *excess {
	k := q.Clause
	c := &s.Clauses[k]
	hotAir := q.Attribute == "air" && driesWithAir(s, q)
	if !hotAir && q.Attribute != "dryer" && q.Attribute != "dry" && q.Attribute != "drying" && !(q.About != nil && q.About.Thing != nil && q.About.Thing.Dryer != nil) && c.Verb != "dry" && !s.ClauseHas(k, driesAt) {
		return nil
	}
	if c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.MustNot || c.Mood == sentence.Ask || c.Mood == sentence.Example || s.Block.Kind == sentence.Cell || denies(s, k) || illOf(s) || s.Harmful() || s.ClauseHas(k, longAgo) || s.Has(exceptions) {
		return nil
	}
	if ownDries(a, s, k) || a.Part != nil && !a.Partial && !otherPart(a, s, k) && !otherMatter(a, s) && (hotAir && namesOwn(a, s, k) || labelsDrying(s, k)) {
		of := p.ownSubject(a, "")
		of.materials = slices.DeleteFunc(slices.Clone(of.materials), func(b *manual.Article) bool { return !admit.Softens(b.Material.MadeOf) })
		if len(of.materials) > 0 {
			if e := p.beyondMaterial(q, &of, asked); e != nil {
				return e
			}
		}
	}
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Thing.Kind() != manual.Material || m.Where || m.From > q.From || !(s.ClauseOf(m) == k && s.ClauseHas(k, goesDry) || s.ClauseOf(m) == k-1 && labels(s, k)) || s.Before(m) == "with" || s.Before(m) == "of" && s.ClauseHas(k, traysOf) {
			continue
		}
		of := p.ofMention(a, m)
		if len(of.materials) == 0 || slices.ContainsFunc(of.materials, func(b *manual.Article) bool { return !admit.Softens(b.Material.MadeOf) }) {
			continue
		}
		if e := p.beyondMaterial(q, &of, asked); e != nil {
			return e
		}
	}
	return nil
}

// ownDries tells whether the part of a page goes into the dryer: “The window has ten minutes in the dryer at 80 °C”.
func ownDries(a *manual.Article, s *sentence.Sentence, k int) bool {
	if a.Part == nil || a.Partial || otherPart(a, s, k) || otherMatter(a, s) || !s.ClauseHas(k, dryerWord) || !namesOwn(a, s, k) {
		return false
	}
	return s.ClauseHas(k, goesDry) || s.ClauseHas(k, itNeeds)
}

// driesWithAir tells whether a temperature is that of the air with which something is dried: “Hot air of 80 °C takes the last drops off the window”.
func driesWithAir(s *sentence.Sentence, q *sentence.Quantity) bool {
	return (precededBy(s, q, "air of") || precededBy(s, q, "air at")) && s.ClauseHas(q.Clause, dropsOff)
}

// labelsDrying tells whether a clause stands behind a label of drying: “Drying: dryer, 80 °C, ten minutes”.
func labelsDrying(s *sentence.Sentence, k int) bool {
	return k > 0 && labels(s, k) && (slices.Equal(s.Words(k-1), []string{"drying"}) || slices.Equal(s.Words(k-1), []string{"dry"}))
}

var dropsOff = sentence.Set("drops drop water dry dries dried drying wet film blow blows blown")

var dryerWord = sentence.Set("dryer")

var (
	driesAt = sentence.Set("dry dries dried dryer")
	goesDry = sentence.Set("go goes put dry dries dried stay stays ride rides through place hang load take get can may")
	traysOf = sentence.Set("tray trays basket lid box handle")
)

var foundSo = sentence.Set("found measured reads read reading stopped tripped alarm yesterday last noted logged display log was")

var washIt = sentence.Set("wash clean degrease soak sonicate washed cleaned degreased")

// beyondAdvised is beyond for what is advised without a command.
func (p *proof) beyondAdvised(q *sentence.Quantity, a *manual.Article, s *sentence.Sentence, of *spokenOf, asked float64) *excess {
	if len(of.tanks) > 0 || len(of.chemistries) > 0 {
		if b := p.beyondBath(q, of, asked); b != nil {
			return b
		}
		work := p.worked(a, s, q)
		of = &work
	}
	if len(of.materials) == 0 && (a.Material != nil || a.Part != nil) {
		work := p.ownSubject(a, "")
		of = &work
	}
	if len(of.materials) == 0 {
		return nil
	}
	return p.beyondMaterial(q, of, asked)
}

var (
	soilWords    = sentence.Set("wax oil grease rubber film glue resin")
	eachOf       = sentence.Set("each both all every either")
	severalBaths = sentence.Set("tanks baths")
)

// byOthers are words for who does it otherwise than the shop.
var byOthers = sentence.Set("others trade elsewhere makers suppliers competitors competitor")

// heats are verbs that give a bath its temperature.
var heats = sentence.Set("stands bring heat set hold keep raise run warm use work operate maintain increase take let get push turn make wash clean until brought heated kept held raised warmed used worked must should is be mix reheat preheat restore adjust dial crank drive ramp boost start operated maintained degas soak can may go dip immerse treat brighten descale degrease derust")

// areWashed are what is done to parts in a bath, in the passive.
var areWashed = sentence.Set("washed cleaned degreased soaked sonicated descaled dipped immersed brightened treated derusted")

// bids are verbs that are a command whatever the sentence says besides.
var bids = sentence.Set("prepare bring heat set hold keep raise run warm use take turn make wash clean until reheat adjust crank soak dip increase maintain drive start boost")

// worksOn are verbs of what is done with a part.
var worksOn = sentence.Set("increase drive boost operate maintain reheat adjust wash clean heat soak dip dry rinse bring set hold keep run raise warm sonicate immerse degrease use take derust descale strip treat put leave until washed cleaned heated soaked dipped dried rinsed sonicated immersed kept held degreased treated stand stands takes withstands withstand tolerates tolerate bears survives go work is be safe can may must should let start give get")

// askedFor gives the temperature that the text asks for or allows.
func askedFor(q *sentence.Quantity) (float64, bool) {
	switch q.Relation {
	case sentence.At, sentence.To, sentence.AtMost:
		return q.Range.High, true
	case sentence.AtLeast, sentence.Above:
		return q.Range.Low, true
	case sentence.From: // “from 48 °C to 73 °C”
		return q.Range.High, q.Span
	}
	return 0, false
}

func (p *proof) beyondBath(q *sentence.Quantity, of *spokenOf, asked float64) *excess {
	highest, fire := math.Inf(-1), false
	var by manual.Limit
	var which *manual.Article
	for _, c := range of.chemistries {
		limit, l, burns := heatLimit(c)
		if l == nil {
			return nil // one of them has no limit that is known
		}
		if w := c.Chemistry.Temperature; w.Set && w.High > limit+0.05 {
			return nil // the header disagrees with itself, which is said there
		}
		if limit > highest || of.each && limit < highest {
			highest, by, which, fire = limit, *l, c, burns
		}
	}
	if which == nil || !over(q, asked, highest) {
		return nil
	}
	in := p.Shop.System()
	shown := quantity.Show(highest, quantity.Temperature, in)
	e := &excess{at: by.At, fire: fire, says: fmt.Sprintf("The text asks for %s; the ceiling of %s is %s.", q.Text, which.Head.Title, shown),
		remedy: "Stay at or below " + shown + ", or correct the ceiling."}
	if fire {
		e.says = fmt.Sprintf("The text asks for %s; %s has to stay 30 °F (16.7 K) below its flash point, at or below %s.", q.Text, which.Head.Title, shown)
		e.remedy = "Stay at or below " + shown + "."
	}
	if len(of.tanks) > 0 {
		e.says = fmt.Sprintf("The text asks for %s in %s; what is in it, %s, may have %s at most.", q.Text, of.tanks[0].Name, which.Head.Title, shown)
	}
	return e
}

// heatLimit is the highest temperature of a chemistry's bath: of its ceiling, its cloud point and the distance to its flash point.
func heatLimit(a *manual.Article) (float64, *manual.Limit, bool) {
	c := relate.Chemistry(a)
	highest, by, fire := math.Inf(1), (*manual.Limit)(nil), false
	for _, l := range admit.OfChemistry(&c) {
		if l.What == admit.Temperature && l.Rule != &admit.OutsideChemistryWindow && l.High < highest {
			highest, by, fire = l.High, &l.Limit, l.Rule.Severity == finding.People && l.Rule != &admit.AboveCeiling
		}
	}
	return highest, by, fire
}

// over tells whether what is asked for is more than a limit, but for what rounding takes.
func over(q *sentence.Quantity, asked, limit float64) bool {
	if q.Relation == sentence.Above {
		return asked >= limit-0.05
	}
	return asked > limit+0.3
}

func (p *proof) beyondMaterial(q *sentence.Quantity, of *spokenOf, asked float64) *excess {
	lowest := math.Inf(1)
	var by *manual.Article
	for _, m := range of.materials {
		l := m.Material.Temperature
		if of.part == nil { // one word for several materials: the one that stands most
			if !l.Set {
				return nil
			}
			if by == nil || l.High > lowest {
				lowest, by = l.High, m
			}
		} else if l.Set && l.High < lowest {
			lowest, by = l.High, m
		}
	}
	if by == nil || !over(q, asked, lowest) {
		return nil
	}
	shown := quantity.Show(lowest, quantity.Temperature, p.Shop.System())
	return &excess{at: by.Material.Temperature.At, says: fmt.Sprintf("The text asks for %s; the limit of %s is %s.", q.Text, by.Head.Title, shown),
		remedy: "Stay at or below " + shown + ", or correct the limit in the material's article."}
}

// cutsOut tells whether a temperature is the one to which the over-temperature cut-out of a bath is set. It has to stop the heater at the
// ceiling: procedures/monthly-care.md of the demo manual; common practice, no source.
func cutsOut(s *sentence.Sentence, q *sentence.Quantity) bool {
	if !cutOuts[q.Attribute] || !s.ClauseHas(q.Clause, setsCutOut) || s.Harmful() || illOf(s) || denies(s, q.Clause) {
		return false
	}
	switch c := &s.Clauses[q.Clause]; c.Mood {
	case sentence.Do, sentence.Is, sentence.Fragment, sentence.Able:
		return c.Opener == "" || c.Opener == "until"
	}
	return false
}

// keptAgainst tells whether a bath is said to be brought or held to a temperature against something: “Once a week Wash 2 is kept at 70 °C against slime”.
func keptAgainst(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	if s.Clauses[k].Opener != "" || denies(s, k) || illOf(s) || q.About == nil || q.About.From > q.From {
		return false
	}
	kept, harm := false, false
	words := s.Tokens()
	for i, w := range words {
		if w.Clause == k && w.From < q.From && i > 0 && (words[i-1].Text == "is" || words[i-1].Text == "are") && keptAt[w.Text] {
			kept = true
		}
		harm = harm || w.Text == "against" && w.From > q.To && i+1 < len(words) && pests[words[i+1].Text]
	}
	return kept && harm
}

var (
	keptAt = sentence.Set("kept held heated brought raised warmed run taken set turned")
	pests  = sentence.Set("smelling slime germs bacteria mould algae smell smells biofilm weeds rust grease scale legionella foam fungus")
)

// tripsLate tells whether the cut-out of a bath is not to act below a temperature, or to act only from there on: “must not trip below 85 °C”.
func tripsLate(s *sentence.Sentence, q *sentence.Quantity) bool {
	k := q.Clause
	c := &s.Clauses[k]
	if !cutOuts[q.Attribute] && !s.ClauseHas(k, cutOuts) || !s.ClauseHas(k, trips) || c.Opener != "" || c.Mood == sentence.Was || c.Mood == sentence.Ask || c.Mood == sentence.Example || s.ClauseHas(k, longAgo) {
		return false
	}
	switch q.Relation {
	case sentence.AtLeast: // “not below”
		return c.Mood == sentence.MustNot || c.Mood == sentence.Do || c.Negated || s.ClauseHas(k, onlyWord)
	case sentence.At, sentence.Above:
		return s.ClauseHas(k, onlyWord) && (precededBy(s, q, "at") || precededBy(s, q, "above")) && !s.Has(ailing)
	}
	return false
}

var (
	trips       = sentence.Set("trip trips act acts cut cuts open opens switch switches stop stops interrupt interrupts respond responds react reacts come comes tripping")
	onlyWord    = sentence.Set("only")
	ailing      = sentence.Set("if call defect faulty wrong broken stuck fault too late dangerous lock out replaced repair mistake")
	ovens       = sentence.Set("bakes cures stoves sinters hardens anneals brazes welds solders tempers sterilises")
	besideBaths = sentence.Set("bench rack shelf trolley table hook outside bath-side pallet")
)

// beyondIfColder looks for what may go in as long as the bath is below a temperature that the work does not stand.
func (p *proof) beyondIfColder(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) *excess {
	c := &s.Clauses[q.Clause]
	if q.Relation != sentence.Below || c.Opener != "as-long-as" && c.Opener != "provided" && c.Opener != "only-if" || c.Negated || illOf(s) || s.Harmful() {
		return nil
	}
	main := slices.IndexFunc(s.Clauses, func(c sentence.Clause) bool { return c.Opener == "" })
	if main < 0 || s.Clauses[main].Mood != sentence.Do && s.Clauses[main].Mood != sentence.Able || denies(s, main) {
		return nil
	}
	of := p.worked(a, s, q)
	if len(of.materials) == 0 {
		return nil
	}
	return p.beyondMaterial(q, &of, q.Range.Low)
}

var (
	cutOuts    = sentence.Set("cut-out over-temperature thermostat thermal relay")
	setsCutOut = sentence.Set("set sets goes back is adjusted adjust turn turned put setting mark stands belongs trips")
	// otherOnes are words for a bath or a product that is not the one that the article is about.
	otherOnes = sentence.Set("competitor's rival's neighbour's neighbours neighbour")
)

// ofAnother tells whether a sentence speaks of a bath or a product that is not the one of its article. Another notch, turn or minute is none.
func ofAnother(s *sentence.Sentence) bool {
	if s.Has(otherOnes) {
		return true
	}
	words := s.Tokens()
	for i, w := range words {
		if w.Text == "another" && !aLittleMore[textAt(words, i+1)] {
			return true
		}
	}
	return false
}

// aLittleMore are words of a little more.
var aLittleMore = sentence.Set("notch turn step bit touch minute hour five ten degree degrees try time go day")

// worked gives the material or part that a sentence about a bath names as the work, or the article's own.
func (p *proof) worked(a *manual.Article, s *sentence.Sentence, q *sentence.Quantity) spokenOf {
	for i := range s.Mentions {
		m := &s.Mentions[i]
		if m.Where || m == q.About || s.Clauses[s.ClauseOf(m)].Mood == sentence.MustNot {
			continue
		}
		if of := p.ofMention(a, m); len(of.materials) > 0 && !of.own {
			return of
		}
	}
	if a.Material != nil || a.Part != nil {
		of := p.ownSubject(a, "")
		of.own = false
		return of
	}
	return spokenOf{}
}
