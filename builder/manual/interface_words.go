package manual

import "go.yaml.in/yaml/v3"

// readWords looks whether a file of the interface's words can be read: a list of phrases, each with what is shown for it. What it holds is
// package page's affair.
func (r *result) readWords(data []byte) {
	text, ok := r.d.clean(data)
	if !ok {
		return
	}
	if r.conflict = r.d.conflict(text); r.conflict {
		return
	}
	mapping := r.d.mapping(text, "list of words")
	if mapping == nil {
		return
	}
	first := make(map[string]*yaml.Node, len(mapping.Content)/2)
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		phrase, shown := mapping.Content[i], mapping.Content[i+1]
		switch before := first[phrase.Value]; {
		case phrase.Kind != yaml.ScalarNode || shown.Kind != yaml.ScalarNode:
			r.d.report(ruleWrongValue, r.d.at(phrase), "A list of words has phrases, and behind each a colon and what is shown for it.", `Write for example: "Edition": "Ausgabe"`)
		case before != nil:
			r.d.report(ruleDuplicateKey, r.d.at(phrase), "The phrase “"+clip(phrase.Value, 40)+"” is written twice.", "Keep one of the two.", r.d.at(before))
		}
		first[phrase.Value] = phrase
	}
}
