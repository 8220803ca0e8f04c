package manual

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"tankside/builder/expression"
	"tankside/builder/finding"
	"tankside/builder/quantity"
)

// Limits of one YAML document. A header that needs more is not a header.
const (
	maxDepth = 8
	maxNodes = 20_000
)

// decoder turns the YAML of one file into the model and collects what it has to say about it.
type decoder struct {
	file     string
	offset   int // line of the file before the document's first
	indent   int // columns before the document's first, for a document inside a listing
	findings []finding.Finding
	names    []pending
	words    *ownWords  // of the shop; nil where it has none
	signals  ownSignals // that the manual's own words declare; nil where they declare none
	language string     // of the manual, where signals are declared
	single   *Step      // of a part whose header gives its one wash directly
	gallons  []gallon
	told     map[told]int
	before   calledBefore // of what was renamed
}

// told counts the findings of a rule in a file.
type told struct {
	rule finding.RuleName
	file string
}

// pending is a name whose article, tank or role can only be looked up when everything has been read.
type pending struct {
	ref   Ref
	key   string
	kinds []Kind     // kinds of article that may have the name
	shop  []shopList // or the lists of the shop file that may have it
	words []string   // words that do as well
}

// shopList is a list of the shop file that articles refer to.
type shopList string

const (
	tankIDs  shopList = "tank"
	rinseIDs shopList = "rinse"
	dryerIDs shopList = "dryer"
	roleList shopList = "role"
)

func (d *decoder) report(r finding.Rule, at finding.Place, message, remedy string, also ...finding.Place) {
	if d.told == nil {
		d.told = map[told]int{}
	}
	key := told{r.Name, at.File}
	d.told[key]++
	switch n := d.told[key]; {
	case n > finding.Most:
		return
	case n == finding.Most:
		message += " Further findings of this rule in this file are not told."
	}
	d.findings = append(d.findings, r.At(at, message, remedy, also...))
}

func (d *decoder) at(n *yaml.Node) finding.Place {
	if n.Line == 0 {
		return finding.Place{File: d.file}
	}
	return finding.Place{File: d.file, Line: n.Line + d.offset, Column: n.Column + d.indent}
}

// mapping parses a document that has to be a mapping and gives its node, or nil after a finding.
// An empty document is an empty mapping.
func (d *decoder) mapping(text []byte, what string) *yaml.Node {
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		d.syntax(err, what, 1+bytes.Count(bytes.TrimRight(text, "\n"), []byte("\n")))
		return nil
	}
	if len(doc.Content) == 0 {
		return &yaml.Node{Kind: yaml.MappingNode}
	}
	root := doc.Content[0]
	left := maxNodes
	if !d.plainYAML(root, 0, &left) {
		return nil
	}
	if root.Kind != yaml.MappingNode {
		d.report(ruleYAML, d.at(root), "The "+what+" is not a list of keys with values.", "Write one key per line, a colon and a blank after it: title: Wax")
		return nil
	}
	return root
}

// plainYAML refuses what a manual has no use for and what could be used to exhaust the machine.
func (d *decoder) plainYAML(n *yaml.Node, depth int, left *int) bool {
	*left--
	switch {
	case *left < 0:
		d.report(ruleYAML, d.at(n), "There are more than "+strconv.Itoa(maxNodes)+" values here.", "Divide the file.")
		return false
	case depth > maxDepth:
		d.report(ruleYAML, d.at(n), "Values are nested more than "+strconv.Itoa(maxDepth)+" deep.", "Nothing in a manual needs this: write keys, values and lists.")
		return false
	case n.Kind == yaml.AliasNode || n.Anchor != "":
		d.report(ruleYAML, d.at(n), "A YAML anchor or alias (& or *) is used.", "Write the value out, or put it in quotes if it begins with & or *.")
		return false
	case n.Style&yaml.TaggedStyle != 0:
		d.report(ruleYAML, d.at(n), "A YAML tag ("+clip(n.Tag, 30)+") is used.", "Leave the tag out, or put the value in quotes if it begins with an exclamation mark.")
		return false
	}
	if i := strings.IndexFunc(n.Value, steers); i >= 0 { // written as \x1f, \e and so on
		r, _ := utf8.DecodeRuneInString(n.Value[i:])
		d.report(ruleYAML, d.at(n), fmt.Sprintf("A value has a character in it that nobody sees, U+%04X, which steers printers and terminals.", r), "Take it out.")
		return false
	}
	for _, c := range n.Content {
		if !d.plainYAML(c, depth+1, left) {
			return false
		}
	}
	return true
}

var yamlLine = expression.Of(`^yaml: (?:line (\d+): )?`)

// syntax words a YAML syntax error in a document of so many lines for somebody who does not know YAML.
func (d *decoder) syntax(err error, what string, lines int) {
	message := err.Error()
	line := 1 // the library leaves the number out for the first line
	if m := yamlLine.FindStringSubmatch(message); m != nil {
		message = message[len(m[0]):]
		if n, err := strconv.Atoi(m[1]); err == nil {
			line = n
			if strings.HasPrefix(message, "did not find") { // and counts from 0 in what its parser, not its scanner, reports
				line++
			}
		}
	}
	at := finding.Place{File: d.file, Line: min(line, lines) + d.offset, Column: 1 + d.indent}
	remedy := "Each line is a key, a colon, a blank and a value. Put the value in quotes if it has a colon or begins with a special character."
	for _, known := range []struct{ part, remedy string }{
		{"mapping values are not allowed", "A value has a colon followed by a blank in it, or a line is indented too far: put the value in quotes, or align the keys."},
		{"cannot start any token", "A value begins with a character that YAML keeps for itself, such as @, `, % or a tab: put it in quotes, and indent with blanks, not tabs."},
		{"found a tab", "Indent with blanks, not tabs."},
		{"did not find expected key", "A line is not aligned with the others, or a quotation mark is not closed, in this line or one before it."},
		{"could not find expected ':'", "A line has no colon after its key, or a value of several lines is not indented."},
		{"found unexpected end of stream", "A quotation mark is opened and not closed."},
		{"block scalar", "A value that begins with > or | has to be in quotes: write ≥ instead of >=, or put it in quotes."},
		{"did not find expected ',' or ']'", "A list in square brackets is not closed, or a comma is missing."},
		{"did not find expected ',' or '}'", "A brace is not closed, or a comma is missing."},
		{"unknown anchor", "A value that begins with * has to be in quotes."},
		{"alphabetic or numeric character", "A value that begins with & or * has to be in quotes."},
	} {
		if strings.Contains(message, known.part) {
			remedy = known.remedy
			break
		}
	}
	d.report(ruleYAML, at, "The "+what+" cannot be read: "+message+".", remedy)
}

// decode fills into from a mapping by the declared fields.
func decode[T any](d *decoder, into *T, mapping *yaml.Node, fields []field[T], what string, seen func(key string, at finding.Place)) {
	have := make(map[string]*yaml.Node, len(mapping.Content)/2)
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		key, value := mapping.Content[i], mapping.Content[i+1]
		if first, twice := have[key.Value]; twice {
			d.report(ruleDuplicateKey, d.at(key), fmt.Sprintf("The key “%s” of the %s is written twice.", clip(key.Value, 40), what),
				"Keep one of the two.", d.at(first))
			continue
		}
		have[key.Value] = key
		f := find(fields, key.Value)
		if key.Kind != yaml.ScalarNode || f == nil {
			d.unknownKey(key, keyNames(fields), what)
			continue
		}
		if seen != nil {
			seen(f.Name, d.at(key))
		}
		if value.Kind == yaml.ScalarNode && value.Value == "" && value.Style == 0 {
			remedy := "Write " + f.Form + ", or take the line out."
			if f.Required {
				remedy = "Write " + f.Form + ", for example: " + f.Name + ": " + f.Example
			}
			d.report(ruleWrongValue, d.at(key), "The key “"+f.Name+"” has no value.", remedy)
			continue
		}
		f.read(d, into, value)
	}
	for _, f := range fields {
		if _, ok := have[f.Name]; f.Required && !ok {
			at := finding.Place{File: d.file, Line: 1}
			if mapping.Line > 0 {
				at = d.at(mapping)
			}
			d.report(ruleMissingKey, at, fmt.Sprintf("The %s has no “%s”: %s.", what, f.Name, f.Means), "Add a line: "+f.Name+": "+f.Example)
		}
	}
}

func (d *decoder) unknownKey(key *yaml.Node, known []string, what string) {
	d.report(ruleUnknownKey, d.at(key), fmt.Sprintf("“%s” is not a key of %s%s", clip(key.Value, 40), article(what), stop(didYouMean(key.Value, known))),
		"The keys are: "+strings.Join(known, ", ")+".")
}

// article puts “a” or “an” before what a key belongs to.
func article(what string) string {
	if strings.HasPrefix(what, "item") {
		return "an " + what
	}
	if strings.HasPrefix(what, "“") {
		return what
	}
	return "a " + what
}

// stop ends a sentence that has a suggestion or none.
func stop(suggestion string) string {
	if suggestion == "" {
		return "."
	}
	return suggestion
}

// scalar gives the text of a single value; the second result is false after a finding.
func (d *decoder) scalar(n *yaml.Node, key Key) (string, bool) {
	if n.Kind != yaml.ScalarNode {
		is := "a list"
		if n.Kind == yaml.MappingNode {
			is = "keys with values"
		}
		d.report(ruleWrongValue, d.at(n), fmt.Sprintf("“%s” takes %s, but here is %s.", key.Name, key.Form, is), "Write for example: "+key.Name+": "+key.Example)
		return "", false
	}
	return strings.TrimSpace(n.Value), true
}

// items gives the values of a list; a single value counts as a list of one.
func (d *decoder) items(n *yaml.Node, key Key) []*yaml.Node {
	switch n.Kind {
	case yaml.ScalarNode:
		return []*yaml.Node{n}
	case yaml.SequenceNode:
		return n.Content
	}
	d.report(ruleWrongValue, d.at(n), fmt.Sprintf("“%s” takes %s, but here are keys with values.", key.Name, key.Form), "Write for example: "+key.Name+": "+key.Example)
	return nil
}

// texts gives the non-empty single values of a list.
func (d *decoder) texts(n *yaml.Node, key Key) []Ref {
	var refs []Ref
	for _, item := range d.items(n, key) {
		value, ok := d.scalar(item, Key{Name: key.Name, Form: "single values in its list", Example: key.Example})
		if !ok {
			continue
		}
		if value == "" {
			d.report(ruleWrongValue, d.at(item), "The list “"+key.Name+"” has an empty item.", "Take it out.")
			continue
		}
		refs = append(refs, Ref{Name: value, At: d.at(item)})
	}
	return refs
}

// word checks a value against a closed list.
func (d *decoder) word(value string, at finding.Place, vocabulary Vocabulary, key string) bool {
	_, is := d.ref(Ref{Name: value, At: at}, vocabulary, key)
	return is
}

// ref checks a word against a closed list and the shop's own words.
func (d *decoder) ref(ref Ref, vocabulary Vocabulary, key string) (Ref, bool) {
	if vocabulary.Has(ref.Name) {
		return ref, true
	}
	if own, is := d.own(vocabulary, ref); is {
		return own, true
	}
	value, at := ref.Name, ref.At
	d.report(ruleUnknownWord, at, fmt.Sprintf("“%s” knows no %s “%s”, so nothing would be checked for it%s", key, vocabulary.Name, clip(value, 40), stop(didYouMean(value, vocabulary.Words))),
		"The words that it knows are: "+strings.Join(vocabulary.Words, ", ")+"."+vocabulary.Missing+declare(vocabulary))
	return ref, false
}

// limit reads a quantity, a value or a range, of one of the kinds.
func (d *decoder) limit(n *yaml.Node, key Key, kinds []quantity.Kind) (Limit, bool) {
	text, ok := d.scalar(n, key)
	if !ok {
		return Limit{}, false
	}
	r, err := quantity.ParseRange(text, kinds...)
	if err != nil {
		at, problem, accepted := d.at(n), err.Error(), key.Form
		var q *quantity.Error
		if errors.As(err, &q) {
			problem, accepted = q.Problem(nil), q.Accepted(nil)
			if n.Style == 0 && strings.HasPrefix(n.Value, text) {
				at.Column += utf8.RuneCountInString(text[:min(max(q.Offset, 0), len(text))])
			}
		}
		remedy := "Write " + accepted + "."
		if text == "none" && !key.Required {
			remedy = "Leave the line out where there is none; otherwise write " + accepted + "."
		}
		if meant := repaired(text, kinds); len(meant) > 0 {
			remedy = "Write " + key.Name + ": " + strings.Join(meant, ", or ") + "."
			if len(meant) > 1 {
				remedy = strings.TrimSuffix(remedy, ".") + ", whichever is meant; the source says it."
			}
		}
		d.report(ruleWrongQuantity, at, fmt.Sprintf("“%s: %s” cannot be read: %s.", key.Name, clip(text, 40), problem), remedy)
		return Limit{}, false
	}
	if r.Loose {
		d.gallons = append(d.gallons, gallon{key.Name, text, r, d.at(n)})
	}
	return Limit{Range: r, At: d.at(n), Set: true}, true
}

const dateForm = "2006-01-02"

// date reads a date as the standard ISO 8601 writes it.
func (d *decoder) date(text string, at finding.Place, key Key) (time.Time, bool) {
	t, err := time.Parse(dateForm, text)
	if err != nil {
		d.report(ruleWrongValue, at, fmt.Sprintf("“%s” of “%s” is no date: dates are year-month-day.", clip(text, 40), key.Name), "Write for example: "+key.Name+": "+key.Example)
		return time.Time{}, false
	}
	return t, true
}

// inputs reads the input values in a calculator's listing, which begins at a place of the file.
func (d *decoder) inputs(text []byte, first finding.Place) []Input {
	inner := &decoder{file: d.file, offset: first.Line - 1, indent: first.Column - 1}
	root := inner.mapping(text, "calculator's input")
	defer func() { d.findings = append(d.findings, inner.findings...) }()
	if root == nil {
		return nil
	}
	var inputs []Input
	for i := 0; i+1 < len(root.Content); i += 2 {
		name, value := root.Content[i], root.Content[i+1]
		if name.Kind != yaml.ScalarNode || value.Kind != yaml.ScalarNode {
			inner.report(ruleCalculatorText, inner.at(name), "An input of the calculator is not a name and a value.", "Write one input per line: target: 62 °C")
			continue
		}
		in := Input{Name: name.Value, Value: strings.TrimSpace(value.Value), At: inner.at(name)}
		for _, before := range inputs {
			if before.Name == in.Name {
				inner.report(ruleDuplicateKey, in.At, fmt.Sprintf("The input “%s” of the calculator is written twice.", clip(in.Name, 40)), "Keep one of the two.", before.At)
			}
		}
		inputs = append(inputs, in)
	}
	return inputs
}

// tooLong tells whether a text has more than so many characters.
func tooLong(text string, limit int) bool { return utf8.RuneCountInString(text) > limit }
