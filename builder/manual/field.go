package manual

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// Key is the declaration of one key of the manual's YAML, as the printed reference shows it.
type Key struct {
	Name     string
	Form     string // how the value is written
	Example  string // a value that would be accepted
	Means    string // what it says, in half a sentence
	Required bool
	Harm     bool   // the value decides whether a person or a part is hurt
	Under    []Key  // the keys of a mapping that the value holds, or of each mapping in its list
	Refers   []Kind // the kinds of article that the value names; "where it is used" shows on their pages

	// What else a value can be: words, the ids or roles of a list of the shop file ("tank", "rinse", "dryer", "role"), a quantity of a kind.
	Words   []string
	Shop    []string
	Amounts []quantity.Kind
}

// field is a key together with what reads its value into the model.
type field[T any] struct {
	Key
	read func(d *decoder, into *T, value *yaml.Node)
}

// must makes a field required.
func (f field[T]) must() field[T] { f.Required = true; return f }

// harm says that the value decides whether a person or a part is hurt.
func (f field[T]) harm() field[T] { f.Harm = true; return f }

func find[T any](fields []field[T], name string) *field[T] {
	for i := range fields {
		if fields[i].Name == name {
			return &fields[i]
		}
	}
	return nil
}

func keyNames[T any](fields []field[T]) []string {
	names := make([]string, len(fields))
	for i, f := range fields {
		names[i] = f.Name
	}
	return names
}

func keysOf[T any](fields []field[T]) []Key {
	keys := make([]Key, len(fields))
	for i, f := range fields {
		keys[i] = f.Key
	}
	return keys
}

// The sorts of value. Each takes the key's name, what it says, an example and where the value goes.

// text is a text of at most so many characters; 0 for any number.
func text[T any](name, means, example string, limit int, to func(*T) *string) field[T] {
	key := Key{Name: name, Form: "text", Example: example, Means: means}
	if limit > 0 {
		key.Form = fmt.Sprintf("text of at most %d characters", limit)
	}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		value, ok := d.scalar(n, key)
		if !ok {
			return
		}
		if limit > 0 && tooLong(value, limit) {
			d.report(ruleWrongValue, d.at(n), fmt.Sprintf("“%s” has more than %d characters.", name, limit), "Say it shorter; the rest belongs in the text.")
		}
		*to(into) = value
	}}
}

// texts is a list of texts.
func texts[T any](name, means, example string, to func(*T) *[]string) field[T] {
	key := Key{Name: name, Form: "list of texts", Example: example, Means: means}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		for _, ref := range d.texts(n, key) {
			*to(into) = append(*to(into), ref.Name)
		}
	}}
}

// word is one word of a vocabulary.
func word[T any](name, means string, vocabulary Vocabulary, to func(*T) *string) field[T] {
	key := Key{Name: name, Form: "one of: " + strings.Join(vocabulary.Words, ", "), Example: vocabulary.Words[0], Means: means, Words: vocabulary.Words}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		if value, ok := d.scalar(n, key); ok && d.word(value, d.at(n), vocabulary, name) {
			*to(into) = value
		}
	}}
}

// words is a list of words of a vocabulary.
func words[T any](name, means string, vocabulary Vocabulary, to func(*T) *[]Ref) field[T] {
	key := Key{
		Name: name, Form: "list of: " + strings.Join(vocabulary.Words, ", "),
		Example: "[" + vocabulary.Words[0] + ", " + vocabulary.Words[1] + "]", Means: means, Words: vocabulary.Words,
	}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		for _, ref := range d.texts(n, key) {
			if known, is := d.ref(ref, vocabulary, name); is {
				*to(into) = append(*to(into), known)
			}
		}
	}}
}

// hazards is a list of hazard statement codes.
func hazards[T any](to func(*T) *[]Ref) field[T] {
	key := Key{Name: "hazards", Form: "list of GHS hazard statement codes", Example: "[H290, H314]", Means: "its hazards by the safety data sheet", Words: slices.Sorted(maps.Keys(HazardStatements))}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		for _, ref := range d.texts(n, key) {
			if own, is := d.own(hazardWords, ref); is {
				*to(into) = append(*to(into), own)
				continue
			}
			if _, known := HazardStatements[ref.Name]; !known {
				d.report(ruleUnknownWord, ref.At, fmt.Sprintf("“%s” is no GHS hazard statement code.", clip(ref.Name, 40)),
					"Write the codes of section 2 of the safety data sheet, such as H314."+declare(hazardWords))
				continue
			}
			*to(into) = append(*to(into), ref)
		}
	}}
}

// whose says what a name refers to.
type whose struct {
	kinds []Kind
	shop  []shopList
	words []string
	form  string // where the kinds alone do not say it
}

// said is what a name is the name of, in a sentence.
func (w whose) said() string {
	if w.form != "" {
		return w.form
	}
	kinds := make([]string, len(w.kinds))
	for i, k := range w.kinds {
		kinds[i] = string(k)
	}
	return strings.Join(kinds, " or ")
}

// lists are the lists of the shop file that have such names.
func (w whose) lists() []string {
	var lists []string
	for _, l := range w.shop {
		lists = append(lists, string(l))
	}
	return lists
}

var (
	aSoil       = whose{kinds: []Kind{Soil}}
	aChemistry  = whose{kinds: []Kind{Chemistry}}
	aMaterial   = whose{kinds: []Kind{Material}}
	aSymptom    = whose{kinds: []Kind{Symptom}}
	aProcedure  = whose{kinds: []Kind{Procedure}}
	aLearnable  = whose{kinds: []Kind{Lesson, Procedure}}
	aTank       = whose{shop: []shopList{tankIDs}, form: "tank of the shop file"}
	aPlace      = whose{shop: []shopList{tankIDs, rinseIDs, dryerIDs}, form: "tank, rinse or dryer of the shop file"}
	aRinse      = whose{shop: []shopList{rinseIDs}, form: "rinse of the shop file"}
	aDryer      = whose{shop: []shopList{dryerIDs}, form: "dryer of the shop file"}
	aRole       = whose{shop: []shopList{roleList}, form: "role of the shop file"}
	aNeverMeets = whose{kinds: []Kind{Chemistry}, words: append(neverWithExtra, ContainsWords.Words...), form: "chemistry, constituent, acid or alkali"}
)

// name is the name of one article, or an id of the shop file.
func name[T any](key, means, example string, of whose, to func(*T) *Ref) field[T] {
	k := Key{Name: key, Form: "name of a " + of.said(), Example: example, Means: means, Refers: of.kinds, Words: of.words, Shop: of.lists()}
	return field[T]{k, func(d *decoder, into *T, n *yaml.Node) {
		if value, ok := d.scalar(n, k); ok {
			*to(into) = d.named(Ref{Name: value, At: d.at(n)}, key, of)
		}
	}}
}

// names is a list of them.
func names[T any](key, means, example string, of whose, to func(*T) *[]Ref) field[T] {
	k := Key{Name: key, Form: "list of names, each of a " + of.said(), Example: example, Means: means, Refers: of.kinds, Words: of.words, Shop: of.lists()}
	return field[T]{k, func(d *decoder, into *T, n *yaml.Node) {
		for _, ref := range d.texts(n, k) {
			*to(into) = append(*to(into), d.named(ref, key, of))
		}
	}}
}

// named leaves a name to be looked up when everything has been read.
func (d *decoder) named(ref Ref, key string, of whose) Ref {
	if len(of.words) > len(neverWithExtra) {
		if own, is := d.own(ContainsWords, ref); is {
			return own
		}
	}
	d.names = append(d.names, pending{ref: ref, key: key, kinds: of.kinds, shop: of.shop, words: of.words})
	return ref
}

// limit is a quantity, a value or a range.
func limit[T any](name, means, example string, to func(*T) *Limit, kinds ...quantity.Kind) field[T] {
	key := Key{Name: name, Form: "value or range", Example: example, Means: means, Amounts: kinds}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		if l, ok := d.limit(n, key, kinds); ok {
			*to(into) = l
		}
	}}
}

// value is a quantity that is one value.
func value[T any](name, means, example string, to func(*T) *Limit, kinds ...quantity.Kind) field[T] {
	key := Key{Name: name, Form: "value", Example: example, Means: means, Amounts: kinds}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		l, ok := d.limit(n, key, kinds)
		if !ok {
			return
		}
		if l.Low != l.High {
			d.report(ruleWrongValue, l.At, fmt.Sprintf("“%s” takes one value, and “%s” is a range.", name, clip(n.Value, 40)), "Write for example: "+name+": "+example)
			return
		}
		*to(into) = l
	}}
}

// whole is a whole number, not below 0.
func whole[T any](name, means, example string, to func(*T) *int) field[T] {
	key := Key{Name: name, Form: "whole number", Example: example, Means: means}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		number, err := strconv.Atoi(text)
		if err != nil || number < 0 || number > 100_000 {
			d.report(ruleWrongValue, d.at(n), fmt.Sprintf("“%s” of “%s” is no whole number from 0.", clip(text, 40), name), "Write for example: "+name+": "+example)
			return
		}
		*to(into) = number
	}}
}

// yesNo is yes or no.
func yesNo[T any](name, means string, to func(*T) *bool) field[T] {
	key := Key{Name: name, Form: "yes or no", Example: "yes", Means: means, Words: []string{"yes", "no"}}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		switch text {
		case "yes", "true":
			*to(into) = true
		case "no", "false":
			*to(into) = false
		default:
			d.report(ruleWrongValue, d.at(n), fmt.Sprintf("“%s” takes yes or no, not “%s”.", name, clip(text, 40)), "Write "+name+": yes, or "+name+": no")
		}
	}}
}

// day is a date.
func day[T any](name, means, example string, to func(*T) *time.Time) field[T] {
	key := Key{Name: name, Form: "date, year-month-day", Example: example, Means: means}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		text, ok := d.scalar(n, key)
		if !ok {
			return
		}
		if t, ok := d.date(text, d.at(n), key); ok {
			*to(into) = t
		}
	}}
}

// inside is a mapping with keys of its own.
func inside[T, U any](name, means string, fields []field[U], to func(*T) *U) field[T] {
	key := Key{Name: name, Form: "keys of its own", Means: means, Under: keysOf(fields)}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		if n.Kind != yaml.MappingNode {
			d.report(ruleWrongValue, d.at(n), "“"+name+"” takes keys of its own, one per line, indented below it.", "Its keys are: "+strings.Join(keyNames(fields), ", ")+".")
			return
		}
		decode(d, to(into), n, fields, "“"+name+"”", noting(to(into)))
	}}
}

// each is a list of mappings. A single mapping counts as a list of one. placed sets where an item begins; it may be nil.
func each[T, U any](name, means string, fields []field[U], to func(*T) *[]U, placed func(*U, finding.Place)) field[T] {
	key := Key{Name: name, Form: "list, each item with keys of its own", Means: means, Under: keysOf(fields)}
	return field[T]{key, func(d *decoder, into *T, n *yaml.Node) {
		items := []*yaml.Node{n}
		if n.Kind == yaml.SequenceNode {
			items = n.Content
		}
		for _, item := range items {
			if item.Kind != yaml.MappingNode {
				d.report(ruleWrongValue, d.at(item), "“"+name+"” takes a list whose items have keys of their own.", "The keys of an item are: "+strings.Join(keyNames(fields), ", ")+".")
				continue
			}
			var u U
			if placed != nil {
				placed(&u, d.at(item))
			}
			decode(d, &u, item, fields, "item of “"+name+"”", noting(&u))
			*to(into) = append(*to(into), u)
		}
	}}
}

// noting notes the keys of what keeps them.
func noting[T any](into *T) func(string, finding.Place) {
	if k, keeps := any(into).(interface{ Given() *Keyed }); keeps {
		return k.Given().Note
	}
	return nil
}
