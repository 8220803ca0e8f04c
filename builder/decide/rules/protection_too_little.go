package rules

import (
	"fmt"
	"slices"
	"strings"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// protectionTooLittle finds protective equipment that leaves out what the hazards of the chemistry, or of a procedure and its chemistries, ask for.
// It prevents gloves without goggles at a drum that blinds.
// Limit: UN GHS, Annex 3, precautionary statements P280 (gloves, eye and face protection), P284 and P261 with P271 (breathing); 29 CFR 1910.133 and 1910.138.
var protectionTooLittle = finding.Rule{
	Name: "protection-too-little", Severity: finding.People,
	Finds:  "protective equipment without eyes, hands or breathing, where a hazard asks for it",
	Why:    "Whoever puts on what the page names believes to be protected, and is not.",
	Source: "UN GHS, Annex 3: P280 for H314, H318, H319 (eyes) and H310–H318 (hands), P284 and P261 with P271 for H330, H331, H334 (from memory, to be confirmed by the safety officer); gloves with H318 are our own limit",
}

// need is what a hazard asks for.
type need struct {
	what   string   // in a sentence
	add    string   // an item of protective-equipment that meets it
	codes  []string // hazard statements that ask for it
	meets  *expression.Expression
	except *expression.Expression // items that do not meet it although they have the word
}

// The words are those that people write, in English, Spanish, German, French, Italian, Portuguese, Dutch and Polish.
var needs = []need{
	{
		"goggles or a face shield", "goggles", strings.Fields("H314 H318"),
		expression.Of(`(?i)goggle|face[ -]?(?:shield|screen|guard|protection|piece)|visor|full[ -]face|eye[ -]?(?:protection|shield)|gafas|antiparras|pantalla facial|careta|visera|protección (?:facial|ocular)|korbbrille|vollsichtbrille|chemikalien\pL*brille|schließende\pL* (?:schutz)?brille|gesichtsschutz|visier|lunettes-masque|masque oculaire|écran facial|visière|occhiali a (?:maschera|tenuta)|viseira|ruimzichtbril|gelaats|gogle|osłon\pL+ twarzy|przyłbic`), nil,
	},
	{
		"eye protection", "goggles", strings.Fields("H319 H320"),
		expression.Of(`(?i)goggle|glasses|spectacles|face[ -]?(?:shield|screen|guard|protection|piece)|visor|full[ -]face|eye[ -]?(?:protection|shield)|gafas|antiparras|lentes|pantalla facial|careta|visera|protección (?:facial|ocular)|brille|augenschutz|gesichtsschutz|visier|lunettes|écran facial|visière|occhiali|óculos|viseira|veiligheidsbril|gelaats|okular|gogle|przyłbic`), nil,
	},
	{
		"chemical gloves", "chemical gloves", strings.Fields("H310 H311 H312 H314 H315 H317 H318"),
		expression.Of(`(?i)glove|gauntlet|mitten|guante|manopla|handschuh|\bgants?\b|guanti|luvas|handschoen|rękawic`),
		expression.Of(`(?i)\b(?:cotton|leather|knit(?:ted)?|fabric|heat|cut|insulating|anti-vibration)\b|algodón|cuero|anticorte|térmic|aislante|baumwoll|leder|strick|hitzeschutz|schnittschutz|coton|cuir|cotone|cuoio|algodão|couro|katoen|bawełn|skórzan`),
	},
	{
		"extraction or breathing protection", "breathing protection", strings.Fields("H330 H331 H334"),
		expression.Of(`(?i)breath|respirat|\bmask|filter|extract|exhaust|ventilat|fume (?:hood|cupboard)|supplied air|air line|mascarilla|máscara|respira|extracción|ventilación|campana|filtro|atemschutz|absaug|maske|abzug|lüft|masque|aspiration|hotte|maschera|aspirazione|cappa|exaustão|masker|afzuig|maska|wyciąg|wentyl`), nil,
	},
}

// none begins an item that says that something is not worn.
var none = expression.Of(`(?i)^(?:no|not|never|without|sin|ningún|ninguna|kein\pL*|ohne|nicht|sans|aucun|senza|sem|geen|zonder|bez|nie)(?:$|[^\pL])`)

// met tells whether one of the items meets a need.
func (n need) met(items []string) bool {
	return slices.ContainsFunc(items, func(item string) bool {
		return n.meets.MatchString(item) && !none.MatchString(item) && (n.except == nil || !n.except.MatchString(item))
	})
}

func findTooLittleProtection(p *proof) []finding.Finding {
	var list []finding.Finding
	wanting := make(map[*manual.Article]int) // chemistries that leave something out, with their findings
	for _, kind := range []manual.Kind{manual.Chemistry, manual.Procedure} {
		for _, a := range p.Articles {
			if a.Kind != kind || a.Partial || len(equipmentOf(a)) == 0 { // of none at all, hazard-without-protection speaks
				continue
			}
			missing, asked := p.unmet(a, equipmentOf(a))
			if len(missing) == 0 {
				missing, asked = p.unmetAtTanks(a)
			}
			if len(missing) == 0 {
				continue
			}
			if i, follows := p.followsFrom(a, wanting); follows {
				f := &list[i]
				f.Also = append(f.Also, at(a, "protective-equipment"))
				f.Remedy += " Likewise in " + a.Path + ": protective-equipment: [" + strings.Join(completed(equipmentOf(a), missing), ", ") + "]"
				continue
			}
			wanting[a] = len(list)
			list = append(list, tooLittle(a, missing, asked))
		}
	}
	return list
}

// unmetAtTanks gives what a procedure leaves out whose header names no hazard and no chemistry, while it is done at a tank that holds what burns or blinds: eye
// protection and gloves of some kind. Of what kind, only who says what is handled is asked.
func (p *proof) unmetAtTanks(a *manual.Article) (missing []need, asked []manual.Ref) {
	if a.Procedure == nil {
		return nil, nil
	}
	eyes, hands := needs[1], needs[2]
	eyes.codes, hands.except = needs[0].codes, nil
	for _, t := range a.Procedure.Tanks {
		tank := p.Shop.Tank(t.Name)
		if tank == nil {
			continue
		}
		c := p.Named(manual.Chemistry, tank.Chemistry.Name)
		if c == nil || len(asking(eyes, c.Chemistry.Hazards)) == 0 {
			continue
		}
		for _, n := range []need{eyes, hands} {
			if !n.met(equipmentOf(a)) && !slices.ContainsFunc(missing, func(m need) bool { return m.add == n.add }) {
				missing = append(missing, n)
				asked = asking(eyes, c.Chemistry.Hazards)
			}
		}
	}
	return missing, asked
}

// followsFrom tells whether a procedure leaves out no more than one of its chemistries' own articles does, and which finding says so.
func (p *proof) followsFrom(a *manual.Article, wanting map[*manual.Article]int) (int, bool) {
	if a.Procedure == nil {
		return 0, false
	}
	if own, _ := p.unmetBy(a.Procedure.Hazards, nil, equipmentOf(a)); len(own) > 0 {
		return 0, false
	}
	for _, c := range named(p, manual.Chemistry, a.Procedure.Chemistries) {
		if i, is := wanting[c]; is {
			return i, true
		}
	}
	return 0, false
}

func tooLittle(a *manual.Article, missing []need, asked []manual.Ref) finding.Finding {
	items := equipmentOf(a)
	var what []string
	for _, n := range missing {
		what = append(what, n.what)
	}
	var also []finding.Place
	for _, h := range asked {
		also = append(also, h.At)
	}
	verb := "asks"
	if len(codesOf(asked)) > 1 {
		verb = "ask"
	}
	return protectionTooLittle.At(at(a, "protective-equipment"), fmt.Sprintf("%s %s for %s; the protective equipment is: %s.", strings.Join(codesOf(asked), ", "), verb, strings.Join(what, " and "), strings.Join(items, ", ")),
		"Add what section 8 of the safety data sheet says, at least: protective-equipment: ["+strings.Join(completed(items, missing), ", ")+"]", also...)
}

// completed gives items with what is missing.
func completed(items []string, missing []need) []string {
	items = slices.Clone(items)
	for _, n := range missing {
		items = append(items, n.add)
	}
	return items
}

// equipmentOf gives the protective equipment of a chemistry or procedure.
func equipmentOf(a *manual.Article) []string {
	switch {
	case a.Chemistry != nil:
		return a.Chemistry.ProtectiveEquipment
	case a.Procedure != nil:
		return a.Procedure.ProtectiveEquipment
	}
	return nil
}

// unmet gives what items leave out of what an article's hazards, and those of a procedure's chemistries, ask for, with the hazards that ask.
func (p *proof) unmet(a *manual.Article, items []string) (missing []need, asked []manual.Ref) {
	codes, _ := hazardsOf(a)
	var others []*manual.Article
	if a.Procedure != nil {
		others = named(p, manual.Chemistry, a.Procedure.Chemistries)
	}
	return p.unmetBy(codes, others, items)
}

func (p *proof) unmetBy(codes []manual.Ref, chemistries []*manual.Article, items []string) (missing []need, asked []manual.Ref) {
	for _, n := range needs {
		by := asking(n, codes)
		for _, c := range chemistries {
			by = append(by, asking(n, c.Chemistry.Hazards)...)
		}
		if len(by) == 0 || n.met(items) || slices.ContainsFunc(missing, func(m need) bool { return m.add == n.add }) {
			continue
		}
		missing = append(missing, n)
		for _, h := range by {
			if !slices.Contains(asked, h) {
				asked = append(asked, h)
			}
		}
	}
	return missing, asked
}

// asking gives those of the hazards that ask for something.
func asking(n need, hazards []manual.Ref) []manual.Ref {
	var list []manual.Ref
	for _, h := range hazards {
		if slices.Contains(n.codes, h.Name) {
			list = append(list, h)
		}
	}
	return list
}

func codesOf(hazards []manual.Ref) []string {
	var list []string
	for _, h := range hazards {
		if !slices.Contains(list, h.Name) {
			list = append(list, h.Name)
		}
	}
	return list
}
