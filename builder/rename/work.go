package rename

import (
	"fmt"
	"maps"
	"path"
	"slices"
	"strings"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// work finds out what is meant and works out its edits.
func (p *Plan) work(old, to string) error {
	if file, anchor, is := strings.Cut(old, "#"); is {
		a := p.m.At(file)
		if a == nil {
			return p.nothing(file)
		}
		return p.heading(a, anchor, to)
	}
	if strings.HasSuffix(old, ".md") || strings.Contains(old, "/") {
		a := p.m.At(strings.TrimSuffix(old, ".md") + ".md")
		if a == nil {
			return p.nothing(old)
		}
		return p.article(a, to)
	}
	found := p.m.Lookup(old)
	tank := slices.ContainsFunc(p.m.Shop.Tanks, func(t manual.Tank) bool { return t.ID == old })
	switch {
	case tank && len(found) > 0:
		p.refuse(finding.Place{}, fmt.Sprintf("“%s” is a tank and an article, %s.", old, found[0].Path), "For the article, give its path. The tank is renamed once the article has another name.")
	case tank:
		return p.tank(old, to)
	case len(found) > 1:
		p.refuse(finding.Place{}, fmt.Sprintf("“%s” is the name of two articles, %s and %s.", old, found[0].Path, found[1].Path), "Give the path of the one that is meant.")
	case len(found) == 1:
		return p.article(found[0], to)
	default:
		return p.nothing(old)
	}
	return nil
}

func (p *Plan) nothing(old string) error {
	var names []string
	for _, a := range p.m.Articles {
		names = append(names, a.Path, a.Name)
	}
	for _, t := range p.m.Shop.Tanks {
		names = append(names, t.ID)
	}
	remedy := "Give the path of an article, a path with # and a heading, or the id of a tank."
	if near := manual.Nearest(old, names); near != "" {
		remedy = "Did you mean " + near + "?"
	}
	p.refuse(finding.Place{}, "The manual has no “"+old+"”.", remedy)
	return nil
}

// article gives an article another path, with its translations.
func (p *Plan) article(a *manual.Article, to string) error {
	if a.Language != "" {
		p.refuse(finding.Place{File: a.Path}, "This is a translation, which has the name of its original.", "Rename "+p.originalOf(a)+": its translations go with it.")
		return nil
	}
	if !strings.Contains(to, "/") {
		to = path.Dir(a.Path) + "/" + to
	}
	to = path.Clean(strings.TrimSuffix(to, ".md")) + ".md"
	if wrong := manual.CheckName(to); len(wrong) > 0 {
		p.refuse(finding.Place{}, "The article cannot be called “"+to+"”. "+wrong[0].Message, "Choose a name of lower-case words joined by hyphens.")
		return nil
	}
	if folder, _, _ := strings.Cut(to, "/"); folder != a.Kind.Folder() {
		p.refuse(finding.Place{File: a.Path}, fmt.Sprintf("The folder %s says that this is a %s, and in %s it would be something else, with another header.", a.Kind.Folder(), a.Kind, folder),
			"Keep it in "+a.Kind.Folder()+", or begin a new article of the other kind.")
		return nil
	}
	if to == a.Path {
		p.refuse(finding.Place{File: a.Path}, "It is called that already.", "Give it another name.")
		return nil
	}
	p.Moves[a.Path] = to
	for t := range everyArticle(p.m) {
		if t.Original == a {
			p.Moves[t.Path] = strings.TrimSuffix(to, ".md") + strings.TrimPrefix(t.Path, strings.TrimSuffix(a.Path, ".md"))
		}
	}
	if err := p.signatures(); err != nil {
		return err
	}
	if err := p.free(a); err != nil {
		return err
	}
	name := strings.TrimSuffix(path.Base(to), ".md")
	if err := p.mentioned(a, name); err != nil {
		return err
	}
	if err := p.seeAlso(a, name); err != nil {
		return err
	}
	if err := p.glossary(); err != nil {
		return err
	}
	if err := p.links(p.byPath); err != nil {
		return err
	}
	return p.forward(lead{a.Path, to})
}

// signatures has the signature of an article lie beside it afterwards too.
func (p *Plan) signatures() error {
	for _, file := range slices.Sorted(maps.Keys(p.Moves)) {
		there, err := p.exists(file + signatureExtension)
		if err != nil {
			return err
		}
		if there != "" {
			p.Moves[there] = p.Moves[file] + signatureExtension
		}
	}
	return nil
}

// signatureExtension is what the name of a signature has behind that of its article.
const signatureExtension = ".sig"

func (p *Plan) originalOf(t *manual.Article) string {
	if t.Original == nil {
		return "the original"
	}
	return t.Original.Path
}

// free refuses paths where there is something already, in whatever letters.
func (p *Plan) free(a *manual.Article) error {
	name := strings.TrimSuffix(path.Base(p.Moves[a.Path]), ".md")
	if other := p.m.Named(a.Kind, name); other != nil && other != a {
		p.refuse(finding.Place{File: other.Path}, fmt.Sprintf("There is a %s “%s” already.", a.Kind, name), "Choose another name.")
		return nil
	}
	for _, to := range p.Moves {
		there, err := p.exists(to)
		if err != nil {
			return err
		}
		if there != "" {
			p.refuse(finding.Place{File: there}, "There is a file of this name already.", "Choose another name, or move the file away.")
		}
	}
	return nil
}

// tank gives a tank another id.
func (p *Plan) tank(old, to string) error {
	at := finding.Place{File: manual.ShopFile}
	if !manual.UsableID(to) {
		p.refuse(at, "A tank cannot have the id “"+to+"”.", "Use letters, digits and hyphens, a letter or digit first, at most 40, and no name that Windows keeps for a device.")
		return nil
	}
	shop := &p.m.Shop
	ids := []string{shop.Dryer.ID}
	for _, t := range shop.Tanks {
		ids = append(ids, t.ID)
	}
	for _, r := range shop.Rinses {
		ids = append(ids, r.ID)
	}
	if slices.ContainsFunc(ids, func(id string) bool { return strings.EqualFold(id, to) }) {
		p.refuse(at, "The shop has something with the id “"+to+"” already.", "Choose another.")
		return nil
	}
	if n := len(slices.DeleteFunc(ids, func(id string) bool { return id != old })); n > 1 {
		p.refuse(at, "Several tanks, rinses or dryers have the id “"+old+"”, so it does not say which is meant.", "Give each an id of its own.")
		return nil
	}
	for mention := range p.m.Mentions {
		if mention.Name == old && mention.Tank() {
			if err := p.scalar(mention.At, old, to); err != nil {
				return err
			}
		}
	}
	for a := range everyArticle(p.m) {
		for _, sum := range a.Sums {
			for _, in := range sum.Inputs {
				if in.Name == "tank" && in.Value == old {
					if err := p.input(in, old, to); err != nil {
						return err
					}
				}
			}
		}
	}
	if err := p.ids(old, to); err != nil {
		return err
	}
	if err := p.record(old, to); err != nil {
		return err
	}
	return p.forward(lead{manual.TankFolder + old, manual.TankFolder + to})
}

// record has the record of a tank go with it.
func (p *Plan) record(old, to string) error {
	there, err := p.exists(manual.RecordFolder + "/" + old + recordExtension)
	if err != nil || there == "" {
		return err
	}
	now := manual.RecordFolder + "/" + to + recordExtension
	if other, err := p.exists(now); err != nil || other != "" {
		p.refuse(finding.Place{File: other}, "There is a record of this name already.", "Choose another id, or move the file away.")
		return err
	}
	p.Moves[there] = now
	return nil
}

const recordExtension = ".csv"
