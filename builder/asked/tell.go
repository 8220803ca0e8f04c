//go:build !wasip1

package asked

import (
	"maps"
	"net/url"
	"strings"

	"tankside/builder/decide/admit"
	"tankside/builder/decide/admit/markup"
	"tankside/builder/language"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// Answer is one way to read a question, answered, for a terminal and for programs. A page shows the same from what its module answers.
type Answer struct {
	Title   string   `json:"title"`             // the sum and what it is for; what goes into which bath; the amount that is converted
	Verdict string   `json:"verdict,omitempty"` // of a load: yes, conditions, no
	Says    string   `json:"says"`              // the verdict in words, or what comes out
	Lines   []string `json:"lines,omitempty"`   // reasons and conditions; further results
	Signal  string   `json:"signal,omitempty"`  // the gravest signal word: DANGER, WARNING, CAUTION, NOTICE
	Caution string   `json:"caution,omitempty"` // what it warns of
	More    int      `json:"more,omitempty"`    // safety messages beside it, which stand on the page
	Path    string   `json:"path,omitempty"`    // page with this question filled in, from the edition's root
}

// Result is all that was read in a question.
type Result struct {
	Answers []Answer `json:"answers,omitempty"`
	Asks    []string `json:"asks,omitempty"` // what has to be said so that one answer is left
}

// Tell reads a text and answers it in English and a family of units, by the decision's sheet where there is one. Nothing comes of words to look for.
func (n *Names) Tell(sheet *markup.Sheet, text string, units quantity.System) Result {
	var r Result
	for line := range strings.SplitSeq(n.Read(nil, text), part) {
		f := strings.Split(line, between)
		switch f[0] {
		case isSum:
			if a, ok := n.sum(f[1], f[2], f[3:], units); ok {
				r.Answers = append(r.Answers, a)
			}
		case isLoad:
			if sheet != nil {
				if a, ok := load(sheet, admit.Question{Soil: f[1], Bath: f[2], Materials: f[3:]}, units); ok {
					r.Answers = append(r.Answers, a)
				}
			}
		case isSame:
			r.Answers = append(r.Answers, Answer{Title: f[1], Says: f[2]})
		case asks:
			r.Asks = append(r.Asks, n.told("?"+f[1]))
		case says:
			r.Asks = append(r.Asks, f[1])
		}
	}
	return r
}

// mostReasons is how many reasons of a no are told; its page has all.
const mostReasons = 3

// sum asks a calculator. like is the tank whose heater is taken.
func (n *Names) sum(like, calculator string, fields []string, units quantity.System) (Answer, bool) {
	c, known := calculators.Named(calculator)
	if !known {
		return Answer{}, false
	}
	given := map[string]string{}
	for i := 0; i+1 < len(fields); i += 2 {
		given[fields[i]] = fields[i+1]
	}
	a := Answer{Title: c.Title, Path: n.address(c, given)}
	done, err := c.Run(given, units)
	if wrong, is := err.(calculators.Errors); is {
		for _, e := range wrong {
			a.Lines = append(a.Lines, e.Label+": "+e.Problem)
		}
		a.Says = "With these figures there is no answer."
		return a, true
	}
	var shown []string
	for _, g := range done.Given {
		if !g.Defaulted {
			shown = append(shown, g.Label+" "+g.Text)
		}
	}
	a.Title += ": " + strings.Join(shown, "; ")
	if like != "" {
		a.Title += " (heated as " + like + " is)"
	}
	a.Says = done.Verdict
	for _, reading := range done.Readings {
		text := reading.Label + " " + reading.String()
		if b := reading.Bounds(); b != "" {
			text += " (" + b + ")"
		}
		if a.Says == "" {
			a.Says = text
		} else {
			a.Lines = append(a.Lines, text)
		}
	}
	if len(done.Cautions) > 0 { // the gravest comes first
		a.Signal, a.Caution, a.More = done.Cautions[0].Signal.String(), done.Cautions[0].Text, len(done.Cautions)-1
	}
	return a, true
}

// load asks the decision. False stands for a name that it does not have, which cannot be: names and facts are of one publication.
func load(sheet *markup.Sheet, q admit.Question, units quantity.System) (Answer, bool) {
	done, err := sheet.Table.Answer(q)
	if err != nil {
		return Answer{}, false
	}
	w := language.Words(nil)
	a := Answer{Title: (&markup.Sheet{Table: sheet.Table}).Asked(q), Verdict: string(done.Verdict), Says: markup.Verdict(done.Verdict), Path: markup.Ask(q)}
	for i := range done.Reasons {
		r := &done.Reasons[i]
		if r.Verdict == admit.Conditions && done.Verdict == admit.Conditions || r.Verdict == admit.No && len(a.Lines) < mostReasons {
			a.Lines = append(a.Lines, r.Says.In(w, units))
		}
	}
	switch {
	case len(done.Cautions) > 0: // the gravest comes first
		a.Signal, a.Caution, a.More = done.Cautions[0].Signal, done.Cautions[0].Text, len(done.Cautions)-1
	case done.Verdict == admit.No: // ANSI Z535.6: what can only damage is a NOTICE
		a.Signal = "NOTICE"
	}
	return a, true
}

// address is where a sum can be done, with inputs; "" where the manual has no such place.
func (n *Names) address(c *calculators.Calculator, given map[string]string) string {
	at := n.told("=" + c.Name)
	if at == "" {
		return ""
	}
	q := url.Values{}
	for name := range maps.Keys(given) {
		q.Set(name, given[name])
	}
	return at + "?" + q.Encode()
}
