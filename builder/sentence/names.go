package sentence

import (
	"fmt"
	"hash/fnv"
	"maps"
	"slices"
	"strings"

	"tankside/builder/manual"
)

// Thing is what text may speak of: a tank, a rinse, the dryer, or articles, several where one word means each of them, such as aluminium.
//
// It knows its articles by their paths, and a manual tells what stands there: so what was read of a text stays right while others change, and who asks for no
// article does not hang on one.
type Thing struct {
	Tank  *manual.Tank
	Rinse *manual.Rinse
	Dryer *manual.Dryer

	kind  manual.Kind // of its articles, or ""
	paths []string
	names []string // by which headers and the shop file call them
}

// Kind is the kind of its articles, or "".
func (t *Thing) Kind() manual.Kind {
	if t == nil {
		return ""
	}
	return t.kind
}

// Articles gives its articles as they stand in a manual.
func (t *Thing) Articles(m *manual.Manual) []*manual.Article {
	var list []*manual.Article
	for _, p := range t.paths {
		if a := m.At(p); a != nil {
			list = append(list, a)
		}
	}
	return list
}

// One gives its article as it stands in a manual if it is a single one of that kind, or nil.
func (t *Thing) One(m *manual.Manual, kind manual.Kind) *manual.Article {
	if !t.Single(kind) {
		return nil
	}
	return m.At(t.paths[0])
}

// Single tells whether it is one article, of that kind.
func (t *Thing) Single(kind manual.Kind) bool { return t.Kind() == kind && len(t.paths) == 1 }

// Called tells whether one of its articles has a name, as headers and the shop file have it.
func (t *Thing) Called(name string) bool { return t != nil && slices.Contains(t.names, name) }

// Includes tells whether an article is one of its articles.
func (t *Thing) Includes(a *manual.Article) bool {
	return t != nil && slices.Contains(t.paths, a.Path)
}

func (t *Thing) add(a *manual.Article) {
	t.kind, t.paths, t.names = a.Kind, append(t.paths, a.Path), append(t.names, a.Name)
}

func thingOf(a *manual.Article) *Thing {
	t := &Thing{}
	t.add(a)
	return t
}

// Bath tells whether it is a tank or a chemistry.
func (t *Thing) Bath() bool { return t != nil && (t.Tank != nil || t.Kind() == manual.Chemistry) }

// Names knows the things of a manual by the words for them.
type Names struct {
	byFirst map[string][]named
	byPath  map[string]*Thing
	key     string
	exact   map[string]*Thing // by the whole name, as a cell has it: “Rinse” means a rinse there
	numbers map[string]bool   // names of one word and a number
}

type named struct {
	words  []string // lower case
	thing  *Thing
	before bool // it names something before a noun alone: “galvanised clips”
}

// commonWords are titles and substances that mean something else in most sentences.
var commonWords = set("glass lead tin paint painted rinse smut tarnish wax tank bath wash gold epoxy load dry water soap detergent fresh rust foam dip titration")

// NewNames learns the names of tanks, rinses, the dryer, chemistries, materials and parts.
func NewNames(m *manual.Manual) *Names {
	n := &Names{byFirst: map[string][]named{}, byPath: map[string]*Thing{}, numbers: map[string]bool{}, exact: map[string]*Thing{}}
	for i := range m.Shop.Tanks {
		t := &m.Shop.Tanks[i]
		thing := &Thing{Tank: t}
		n.add(t.Name, thing)
		n.add(strings.ReplaceAll(t.ID, "-", " "), thing)
		n.addShort(t.Name, thing)
	}
	for i := range m.Shop.Rinses {
		r := &m.Shop.Rinses[i]
		thing := &Thing{Rinse: r}
		n.add(r.Name, thing)
		n.exact[strings.ToLower(r.Name)] = thing
		n.add(strings.ReplaceAll(r.ID, "-", " "), thing)
		for _, name := range rinseNames(m.Shop.Rinses, i) {
			n.add(name, thing)
		}
	}
	if d := &m.Shop.Dryer; d.ID != "" {
		thing := &Thing{Dryer: d}
		n.add(d.Name, thing)
		n.add(d.ID, thing)
	}
	sum := fnv.New64a()
	substances := map[string]*Thing{}
	for _, a := range m.Articles {
		switch a.Kind {
		case manual.Chemistry, manual.Material, manual.Part:
		default:
			continue
		}
		thing := thingOf(a)
		n.byPath[a.Path] = thing
		fmt.Fprintln(sum, a.Path, a.Head.Title)
		for _, name := range titles(a) {
			n.add(name, thing)
		}
		for _, w := range finishes(a) {
			fmt.Fprintln(sum, w)
			n.addBefore(w, thing)
		}
		if a.Material != nil {
			for _, s := range a.Material.MadeOf {
				word := strings.ReplaceAll(s.Name, "-", " ")
				fmt.Fprintln(sum, word)
				if substances[word] == nil {
					substances[word] = &Thing{}
				}
				substances[word].add(a)
			}
		}
	}
	for _, word := range slices.Sorted(maps.Keys(substances)) { // in the same order each time: the first to have a name keeps it
		thing := substances[word]
		n.add(word, thing)
		if word == "aluminium" {
			n.add("aluminum", thing)
		}
	}
	n.key = fmt.Sprint(sum.Sum64())
	for first := range n.byFirst {
		slices.SortStableFunc(n.byFirst[first], func(a, b named) int { return len(b.words) - len(a.words) })
	}
	return n
}

// rinseNames are the ways in which a rinse is said by its place or its water: “the final rinse”, “the deionised rinse”.
func rinseNames(all []manual.Rinse, i int) []string {
	r := &all[i]
	var list []string
	if strings.EqualFold(r.Name, "rinse") {
		list = append(list, "rinse tank")
	}
	if len(all) > 1 {
		if i == 0 {
			list = append(list, "first rinse")
		}
		if i == len(all)-1 {
			list = append(list, "final rinse")
		}
		if r.Water != "" && !slices.ContainsFunc(all, func(o manual.Rinse) bool { return o.ID != r.ID && o.Water == r.Water }) {
			list = append(list, r.Water+" rinse")
		}
	}
	return list
}

// titles are the ways in which an article's title is said: in full, its file's name, and without the general word at its end.
func titles(a *manual.Article) []string {
	title := strings.ToLower(a.Head.Title)
	list := []string{title, strings.ReplaceAll(a.Name, "-", " ")}
	if before, _, ok := strings.Cut(title, " ("); ok {
		list = append(list, before)
	}
	if a.Kind == manual.Chemistry {
		for _, name := range slices.Clone(list) {
			for _, end := range []string{" cleaner", " semi aqueous", " semi-aqueous cleaner", " pre-cleaner"} {
				if short, ok := strings.CutSuffix(name, end); ok {
					list = append(list, short)
				}
			}
			list = append(list, strings.ReplaceAll(name, " acid descaler", " acid"), strings.ReplaceAll(name, " acid descaler", " descaler"))
		}
	}
	if head, rest, ok := strings.Cut(title, ", "); ok {
		if a.Kind == manual.Part {
			list = append(list, head, rest+" "+head)
		}
		if a.Kind == manual.Material && !strings.Contains(rest, " and ") {
			list = append(list, rest+" "+head)
		}
	}
	return append(list, sharedNouns(a.Kind, title)...)
}

// sharedNouns are the names of a material whose title has two words before or behind one noun: “Carbon and low-alloy steel” is carbon steel and low-alloy
// steel, “Cast iron, grey and ductile” is grey iron and ductile iron.
func sharedNouns(kind manual.Kind, title string) []string {
	if kind != manual.Material {
		return nil
	}
	head, rest, behind := strings.Cut(title, ", ")
	noun := head[strings.LastIndexByte(head, ' ')+1:]
	if !behind {
		rest, noun = "", ""
		if i := strings.LastIndexByte(head, ' '); i > 0 {
			rest, noun = head[:i], head[i+1:]
		}
	}
	one, two, both := strings.Cut(rest, " and ")
	if !both || strings.ContainsAny(one+two, " (,") || two == "its" {
		return nil
	}
	return []string{one + " " + noun, two + " " + noun}
}

func (n *Names) add(name string, thing *Thing) {
	var words []string
	for _, t := range tokens(name, 0, nil) {
		words = append(words, t.text)
	}
	if len(words) == 2 && words[1][0] >= '0' && words[1][0] <= '9' {
		n.numbers[words[0]+" "+words[1]] = true
	}
	if len(words) == 0 || len(words) == 1 && (commonWords[words[0]] || len(words[0]) < 3) {
		return
	}
	for _, other := range n.byFirst[words[0]] {
		if slices.Equal(other.words, words) {
			return // the first to have a name keeps it
		}
	}
	n.byFirst[words[0]] = append(n.byFirst[words[0]], named{words: words, thing: thing})
	if len(words) == 1 {
		n.byFirst[words[0]+"s"] = append(n.byFirst[words[0]+"s"], named{words: []string{words[0] + "s"}, thing: thing})
	}
}

// at gives the thing whose name begins at a token, and how many tokens it has.
func (n *Names) at(list []token, i int) (*Thing, int) {
	if list[i].kind == amount {
		return nil, 0
	}
candidates:
	for _, c := range n.byFirst[list[i].text] {
		if i+len(c.words) > len(list) {
			continue
		}
		for j, w := range c.words {
			if t := list[i+j]; t.kind == amount || t.text != w && !(j == len(c.words)-1 && t.text == w+"s") {
				continue candidates
			}
		}
		if c.before && !n.describes(list, i) {
			continue
		}
		return c.thing, len(c.words)
	}
	return nil, 0
}

// addShort adds the name of a tank as notes have it: “W1” for “Wash 1”.
func (n *Names) addShort(name string, thing *Thing) {
	word, number, ok := strings.Cut(strings.ToLower(name), " ")
	if !ok || word == "" || word[0] < 'a' || word[0] > 'z' || number == "" || strings.Trim(number, "0123456789") != "" {
		return
	}
	if short := word[:1] + number; n.byFirst[short] == nil {
		n.byFirst[short] = []named{{words: []string{short}, thing: thing}}
	}
}

// capital gives the rinse that is called by a common word, where it stands behind “the” with a capital: “The Rinse runs at 4 L/min”.
func (n *Names) capital(text string, list []token, i int) *Thing {
	if i == 0 || list[i-1].text != "the" || !commonWords[list[i].text] || text[list[i].from] < 'A' || text[list[i].from] > 'Z' {
		return nil
	}
	return n.exact[list[i].text]
}

// finishes are the words for what was done to a material, by which its parts are called: “anodised”, “galvanised”, “painted”. They stand among its other
// names, or begin its title before a comma.
func finishes(a *manual.Article) []string {
	if a.Kind != manual.Material {
		return nil
	}
	var list []string
	first, _, _ := strings.Cut(a.Head.Title, ", ")
	for _, name := range append(slices.Clone(a.Head.AlsoCalled), first) {
		if name = strings.ToLower(name); len(name) > 5 && strings.HasSuffix(name, "ed") && !strings.ContainsAny(name, " -") && !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	return list
}

// addBefore adds a word that names something where it stands before a noun.
func (n *Names) addBefore(word string, thing *Thing) {
	for _, other := range n.byFirst[word] {
		if other.before {
			return // the first to have a word keeps it
		}
	}
	n.byFirst[word] = append(n.byFirst[word], named{words: []string{word}, thing: thing, before: true})
}

// describes tells whether a word stands before a noun that is no name itself: “anodised lids”, not “anodised in”, nor “chromed brass”.
func (n *Names) describes(list []token, i int) bool {
	if i+1 >= len(list) || list[i+1].kind != word || notNouns[list[i+1].text] {
		return false
	}
	other, _ := n.at(list, i+1)
	return other == nil
}

// notNouns are words that may stand behind a participle and are no noun.
var notNouns = set(`in by with at for to and or is are was were be when after before as on off it they then the a an of from again until till if so too but than that which who not no more less first once twice well by-hand last
	may can must should will has have had does do goes go comes come`)

// Key changes where the names do.
func (n *Names) Key() string { return n.key }

// numbered tells whether a word and a number are a name.
func (n *Names) numbered(word, number string) bool { return n != nil && n.numbers[word+" "+number] }
