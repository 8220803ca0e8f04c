package manual

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
	"golang.org/x/text/unicode/norm"
)

// GlossaryFile is the name of the file that explains the trade's words.
const GlossaryFile = "glossary.yaml"

var termKeys = []field[Term]{
	text("means", "what it means, in plain words", "tiny bubbles collapsing", 400, func(t *Term) *string { return &t.Means }).must(),
	texts("also-called", "other words that people use or type", "[bubbles, implosion]", func(t *Term) *[]string { return &t.AlsoCalled }),
	text("article", "path of the article that says more", "lessons/how-cavitation-cleans.md", 200, func(t *Term) *string { return &t.Article }),
}

// GlossaryKeys are the keys of each term of the glossary.
func GlossaryKeys() []Key { return keysOf(termKeys) }

// readGlossary reads the glossary: a mapping from each term to its keys.
func readGlossary(d *decoder, data []byte) []Term {
	mapping := d.mapping(data, "glossary")
	if mapping == nil {
		return nil
	}
	var terms []Term
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		key, value := mapping.Content[i], mapping.Content[i+1]
		term := Term{Term: strings.TrimSpace(key.Value), At: d.at(key)}
		if key.Kind != yaml.ScalarNode || term.Term == "" || value.Kind != yaml.MappingNode {
			d.report(ruleWrongValue, d.at(key), "The glossary's entry “"+clip(key.Value, 40)+"” is not a term with keys of its own.", "Write for example: cavitation: {means: tiny bubbles collapsing}")
			continue
		}
		decode(d, &term, value, termKeys, "glossary's entry", nil)
		terms = append(terms, term)
	}
	slices.SortStableFunc(terms, func(a, b Term) int { return strings.Compare(fold(a.Term), fold(b.Term)) })
	for i := 1; i < len(terms); i++ {
		if fold(terms[i].Term) == fold(terms[i-1].Term) {
			d.report(ruleDuplicateKey, terms[i].At, "The term “"+clip(terms[i].Term, 40)+"” is explained twice.", "Make one entry of the two.", terms[i-1].At)
		}
	}
	return terms
}

// fold writes a name as it is compared where capitals do not count, nor in which of its two spellings a letter with an accent is written.
func fold(s string) string { return strings.ToLower(norm.NFC.String(s)) }
