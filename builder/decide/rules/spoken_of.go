package rules

import (
	"strings"

	"tankside/builder/manual"
	"tankside/builder/sentence"
)

// spokenOf is what a quantity of the text is said of, as the model knows it. Several articles are several possibilities: what is said has to
// be wrong for each of them before a rule speaks up.
type spokenOf struct {
	tanks       []*manual.Tank
	rinse       *manual.Rinse
	dryer       *manual.Dryer
	chemistries []*manual.Article // with the tanks' own
	materials   []*manual.Article
	part        *manual.Article
	own         bool // nothing is named: it is the article's own subject
	each        bool // each of them is meant, and not one of them
}

func (o *spokenOf) known() bool {
	return len(o.tanks) > 0 || o.rinse != nil || o.dryer != nil || len(o.chemistries) > 0 || len(o.materials) > 0 || o.part != nil
}

// name is how a message calls it.
func (o *spokenOf) name() string {
	switch {
	case len(o.tanks) > 0:
		return o.tanks[0].Name
	case o.rinse != nil:
		return o.rinse.Name
	case o.dryer != nil:
		return o.dryer.Name
	case len(o.chemistries) > 0:
		return o.chemistries[0].Head.Title
	case o.part != nil:
		return o.part.Head.Title
	case len(o.materials) > 0:
		return o.materials[0].Head.Title
	}
	return "it"
}

// of gives what a quantity is said of.
func (p *proof) of(a *manual.Article, q *sentence.Quantity) spokenOf {
	if q.About == nil {
		return p.ownSubject(a, "")
	}
	return p.ofMention(a, q.About)
}

func (p *proof) ofMention(a *manual.Article, m *sentence.Mention) spokenOf {
	if m.Thing != nil {
		if a.Material != nil && m.Thing.Includes(a) { // “zinc” on the page of zinc is that one
			return spokenOf{materials: whole([]*manual.Article{a})}
		}
		return p.ofThing(m.Thing)
	}
	if m.Stands {
		return p.ownSubject(a, m.Word)
	}
	return spokenOf{}
}

// isSame tells whether two articles are one: an article that was read again, changed, is another value with the same title.
func isSame(a, b *manual.Article) bool {
	return a == b || a.Kind == b.Kind && a.Language == b.Language && a.Head.Title == b.Head.Title
}

func (p *proof) ofThing(t *sentence.Thing) spokenOf {
	switch {
	case t.Tank != nil:
		return p.ofTank(t.Tank)
	case t.Rinse != nil:
		return spokenOf{rinse: t.Rinse}
	case t.Dryer != nil:
		return spokenOf{dryer: t.Dryer}
	}
	switch t.Kind() {
	case manual.Chemistry:
		return spokenOf{chemistries: whole(t.Articles(p.Manual))}
	case manual.Material:
		return spokenOf{materials: whole(t.Articles(p.Manual))}
	case manual.Part:
		return p.ofPart(t.One(p.Manual, manual.Part))
	}
	return spokenOf{}
}

// whole leaves out articles of which not everything could be read.
func whole(list []*manual.Article) []*manual.Article {
	for _, a := range list {
		if a.Partial {
			return nil
		}
	}
	return list
}

func (p *proof) ofTank(t *manual.Tank) spokenOf {
	o := spokenOf{tanks: []*manual.Tank{t}}
	if c := p.Named(manual.Chemistry, t.Chemistry.Name); c != nil {
		o.chemistries = []*manual.Article{c}
	}
	return o
}

func (p *proof) ofPart(a *manual.Article) spokenOf {
	if a.Partial {
		return spokenOf{}
	}
	return spokenOf{part: a, materials: named(p, manual.Material, a.Part.Materials)}
}

// isBathWord tells whether a word is one for a bath, which stands for one named elsewhere.
func isBathWord(w string) bool {
	for _, noun := range []string{"bath", "tank", "cleaner", "liquid", "solution", "mix", "liquor", "wash", "detergent", "chemistry"} {
		if strings.HasSuffix(w, noun) || strings.HasSuffix(w, noun+"s") {
			return true
		}
	}
	return false
}

// ownSubject is what an article is about: a chemistry's bath, a procedure's tanks, a material, a part. The word is what the text says for it.
func (p *proof) ownSubject(a *manual.Article, word string) spokenOf {
	if a.Partial {
		return spokenOf{}
	}
	var o spokenOf
	switch {
	case a.Chemistry != nil:
		o = spokenOf{chemistries: []*manual.Article{a}}
	case a.Procedure != nil:
		for _, id := range a.Procedure.Tanks {
			if t := p.Shop.Tank(id.Name); t != nil {
				o.tanks = append(o.tanks, t)
				if c := p.Named(manual.Chemistry, t.Chemistry.Name); c != nil {
					o.chemistries = append(o.chemistries, c)
				}
			}
		}
		if len(o.tanks) == 0 {
			o.chemistries = named(p, manual.Chemistry, a.Procedure.Chemistries)
		}
		if word != "" && !isBathWord(word) && !strings.HasPrefix(word, "it") {
			return spokenOf{}
		}
	case a.Material != nil && !isBathWord(word):
		o = spokenOf{materials: []*manual.Article{a}}
	case a.Part != nil && !isBathWord(word):
		o = p.ofPart(a)
	case a.Part != nil:
		for _, w := range washes(p, a) {
			if w.Tank != nil {
				o.tanks = append(o.tanks, p.Shop.Tank(w.Tank.ID))
			}
			if w.Chemistry != nil {
				o.chemistries = append(o.chemistries, p.Named(manual.Chemistry, w.Chemistry.Name))
			}
		}
	case isBathWord(word): // the bath of a lesson or a symptom is any of the shop's
		for i := range p.Shop.Tanks {
			o.tanks = append(o.tanks, &p.Shop.Tanks[i])
			if c := p.Named(manual.Chemistry, p.Shop.Tanks[i].Chemistry.Name); c != nil {
				o.chemistries = append(o.chemistries, c)
			}
		}
	}
	o.own = true
	return o
}

// titleOf is the title of the one article that a thing is.
func (p *proof) titleOf(t *sentence.Thing) string {
	for _, a := range t.Articles(p.Manual) {
		return a.Head.Title
	}
	return ""
}
