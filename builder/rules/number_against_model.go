package rules

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/calculators/quantity"
)

// numberAgainstModel finds numbers in the text that contradict the model: a strength, temperature or frequency given right beside the name
// of a tank or the link to a chemistry, or in the same row of a table.
// It prevents that the operator reads one number in the procedure and another in the table, and has to guess.
// The limit is what the header or the shop file says. It reads a number only where text and name leave no doubt that they belong
// together, and no number in a sentence that speaks of what is wrong, of a limit, or of a condition.
var numberAgainstModel = finding.Rule{
	Name: "number-against-model", Severity: finding.Result,
	Finds:  "a strength, temperature or frequency in the text that contradicts the tank or the chemistry it is said of",
	Why:    "The reader finds two numbers for one thing and has to guess which is right.",
	Source: "the shop file, and the chemistry's article",
}

const numberText = `\d+(?:\.\d+)?(?:\s*[–-]\s*\d+(?:\.\d+)?)?\s?(?:% v/v|% w/v|%|g/L|°C|°F|kHz)`

var (
	number = regexp.MustCompile(numberText)

	// What may stand between a name and its number, and between one number and the next.
	between = regexp.MustCompile(`^[\s*,:(=|]*(?:(?:is|at|runs|holds|works|stands|set to|with|has|of|today|now)[\s*,:(=]+)*$`)
	next    = regexp.MustCompile(`^[\s*,·]*(?:and[\s*]+)?(?:at[\s*]+)?$`)

	// A strength right before the link to its chemistry: “5 % of [Mild alkaline](…)”.
	strengthOf = regexp.MustCompile(numberText + `\*{0,2} (?:of )?\*{0,2}$`)

	// A number followed by one of the first, or in a sentence with one of the others, is not what the thing has.
	doubtAfter  = regexp.MustCompile(`^[\s*)]*(?:too|more|less|stronger|weaker|hotter|cooler|above|below|higher|lower|for|in|of|on|from|per|or)\b`)
	doubtBefore = regexp.MustCompile(`(?i)\b(?:not|never|no|nor|if|when|until|unless|instead|above|below|over|under|than|from|rather|should|would|could|suppose|say|example|before|after|during|while|once|was|were|used to|old|new|weak|strong|reads?|reading|falls?|drops?|rises?|raise[sd]?|raising|lower(?:s|ed)?|heat(?:s|ed|ing)?|cool(?:s|ed|ing)?|warm|start|trial|max|min)\b|[≤≥<>±?→]`)
	linkTarget  = regexp.MustCompile(`\[[^\]\n]*\]\(([^)\s#]+)[^)]*\)`)
)

// thing is a tank or chemistry with the numbers that the model has of it.
type thing struct {
	name                             string
	strength, temperature, frequency manual.Limit
	exact                            bool // a tank has its numbers, a chemistry has windows
}

func tankThing(t *manual.Tank) thing {
	return thing{t.Name, t.Strength, t.Temperature, t.Frequency, true}
}

func findNumbersAgainstModel(p *proof, a *manual.Article) []finding.Finding {
	var list []finding.Finding
	fenced := false
	line := a.Start - 1
	for text := range bytes.Lines(a.Body) {
		line++
		text = bytes.TrimRight(text, "\n")
		if trimmed := bytes.TrimLeft(text, " >"); bytes.HasPrefix(trimmed, []byte("```")) || bytes.HasPrefix(trimmed, []byte("~~~")) {
			fenced = !fenced
			continue
		}
		if fenced || !p.mayContradict(text) || !number.Match(text) {
			continue
		}
		s := string(text)
		for _, hit := range p.spoken(a, s) {
			place := finding.Place{File: a.Path, Line: line, Column: 1 + utf8.RuneCountInString(s[:hit.offset])}
			list = append(list, numberAgainstModel.At(place, fmt.Sprintf("The text says %s of %s, which has %s.", hit.text, hit.of.name, hit.limit.In(p.Shop.System())),
				"Correct the number here, or in the shop file or article that it is said of.", hit.limit.At))
		}
	}
	return list
}

// mayContradict tells quickly of most lines that they hold no number with a unit, or nothing that it could be said of.
func (p *proof) mayContradict(line []byte) bool {
	if bytes.IndexByte(line, '%') < 0 && !bytes.Contains(line, []byte("°")) && !bytes.Contains(line, []byte("kHz")) && !bytes.Contains(line, []byte("g/L")) {
		return false
	}
	if bytes.Contains(line, []byte(".md")) {
		return true
	}
	for i := range p.Shop.Tanks {
		if name := p.Shop.Tanks[i].Name; name != "" && bytes.Contains(line, []byte(name)) {
			return true
		}
	}
	return false
}

// contradiction is a number in a line that is not what the model has.
type contradiction struct {
	offset int
	text   string
	of     thing
	limit  manual.Limit
}

// spoken finds the contradictions in a line.
func (p *proof) spoken(a *manual.Article, line string) []contradiction {
	var list []contradiction
	add := func(of thing, after int) {
		for _, c := range numbersAfter(line, after, of) {
			if !slices.ContainsFunc(list, func(d contradiction) bool { return d.offset == c.offset }) {
				list = append(list, c)
			}
		}
	}
	for i := range p.Shop.Tanks {
		t := &p.Shop.Tanks[i]
		for from := 0; t.Name != ""; {
			at := strings.Index(line[from:], t.Name)
			if at < 0 {
				break
			}
			from += at + len(t.Name)
			if wordEnds(line, from) {
				add(tankThing(t), from)
			}
		}
	}
	for _, m := range linkTarget.FindAllStringSubmatchIndex(line, -1) {
		to, problem := p.Resolve(a, line[m[2]:m[3]])
		if problem == nil && to.Article != nil && to.Article.Chemistry != nil {
			c := to.Article.Chemistry
			of := thing{to.Article.Head.Title, c.Strength, c.Temperature, c.Frequency, false}
			add(of, m[1])
			if before := strengthOf.FindStringIndex(line[:m[0]]); before != nil && !doubtBefore.MatchString(sentenceAround(line, m[0])) {
				text := number.FindString(line[before[0]:])
				if l, wrong := of.denies(text); wrong && l == of.strength {
					list = append(list, contradiction{before[0], text, of, l})
				}
			}
		}
	}
	return list
}

func wordEnds(line string, at int) bool {
	if at >= len(line) {
		return true
	}
	c := line[at]
	return !(c >= '0' && c <= '9' || c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z')
}

// numbersAfter reads the numbers that follow a name directly.
func numbersAfter(line string, at int, of thing) []contradiction {
	var list []contradiction
	glue := between
	for {
		m := number.FindStringIndex(line[at:])
		if m == nil {
			return list
		}
		start, end := at+m[0], at+m[1]
		if !glue.MatchString(line[at:start]) || doubtAfter.MatchString(line[end:]) || doubtBefore.MatchString(sentenceAround(line, start)) {
			return list
		}
		if l, wrong := of.denies(line[start:end]); wrong {
			list = append(list, contradiction{start, line[start:end], of, l})
		}
		at, glue = end, next
	}
}

// sentenceAround is the sentence of a line, or the row of a table, in which an offset stands.
func sentenceAround(line string, at int) string {
	from := strings.LastIndex(line[:at], ". ") + 1
	to := len(line)
	if i := strings.Index(line[at:], ". "); i >= 0 {
		to = at + i
	}
	return line[from:to]
}

// denies tells whether a number cannot be said of a thing, and by which limit of the model.
func (t thing) denies(text string) (manual.Limit, bool) {
	if strings.HasSuffix(text, "%") && t.strength.Set && strings.HasPrefix(t.strength.Unit.Symbol, "%") {
		text = strings.TrimSuffix(text, "%") + t.strength.Unit.Symbol
	}
	r, err := quantity.ParseRange(text, quantity.VolumeFraction, quantity.MassConcentration, quantity.Temperature, quantity.Frequency)
	if err != nil {
		return manual.Limit{}, false
	}
	l := t.strength
	switch r.Kind {
	case quantity.Temperature:
		l = t.temperature
	case quantity.Frequency:
		l = t.frequency
	}
	if !l.Set || l.Kind != r.Kind {
		return manual.Limit{}, false
	}
	if t.exact {
		// The text may give the tank's number, or a range around it.
		return l, !l.Within(r) && !near(r.Low, l.Low, r.High)
	}
	return l, !r.Within(l.Range)
}

// near tells whether a single number is the tank's but for rounding.
func near(text, model, high float64) bool {
	return text == high && text >= model*0.98 && text <= model*1.02
}
