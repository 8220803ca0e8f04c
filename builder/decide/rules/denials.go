package rules

import (
	"regexp"
	"strings"
)

// denials are the words with which a language forbids or denies.
type denials struct {
	words   map[string]bool
	begins  []string       // what a word begins with
	clipped *regexp.Regexp // words with an apostrophe, or nil
}

// newDenials reads words that are parted by strokes: “no”, “kein\pL*” for each word that begins so, “viet\pL+” where at least a letter follows, and regular
// expressions of words with an apostrophe.
func newDenials(list string) *denials {
	d := &denials{words: map[string]bool{}}
	var clipped []string
	for w := range strings.SplitSeq(list, "|") {
		switch {
		case strings.Contains(w, "’"):
			clipped = append(clipped, w)
		case strings.HasSuffix(w, `\pL*`):
			w = strings.TrimSuffix(w, `\pL*`)
			d.words[w], d.begins = true, append(d.begins, w)
		case strings.HasSuffix(w, `\pL+`):
			d.begins = append(d.begins, strings.TrimSuffix(w, `\pL+`))
		default:
			d.words[w] = true
		}
	}
	if clipped != nil {
		d.clipped = regexp.MustCompile(`(?i)(?:^|[^\pL])(?:` + strings.Join(clipped, "|") + `)(?:$|[^\pL])`)
	}
	return d
}

// in tells whether a text forbids or denies.
func (d *denials) in(text string) bool {
	for start, end := range letterRuns(text) {
		word := strings.ToLower(text[start:end])
		if d.words[word] {
			return true
		}
		for _, b := range d.begins {
			if len(word) > len(b) && strings.HasPrefix(word, b) {
				return true
			}
		}
	}
	return d.clipped != nil && strings.ContainsAny(text, "'’") && d.clipped.MatchString(text)
}
