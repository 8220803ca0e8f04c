package main

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"tankside/builder"
	"tankside/builder/decide/admit"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

var admitCommand = command{
	name: "admit",
	args: "--material M",
	does: "may it go in? a material, a soil and a tank; or a part by its process sheet",
	more: `Says whether a part may go into a tank: yes, yes with conditions, or no, with the reasons and their places in the manual, and, unless it
is no, with the recipe. Names are those of the articles' files without .md; give --material once for everything the part is made of. Without
a tank it looks for the tank of the shop that suits best. With --part it decides about a part's process sheet: every wash as it is run, the
rinses and the dryer. The answer is where a trial begins, not a release: law and permits, the safety data
sheet, the supplier's sheet and the customer's drawing come first. Exit status 1 where the answer is no.`,
	setUp: func(o *options) action {
		materials := o.texts("material", "M", "what the part is made of; may be given several times")
		soil := o.text("soil", "S", "what is on it", "")
		tank := o.text("tank", "T", "id of a tank, as this edition has it, or name of a chemistry by itself", "")
		part := o.text("part", "P", "name of a part, whose process sheet is asked about instead", "")
		in := o.text("in", "MANUAL", "folder of the manual; without it “"+usualManual+"”", usualManual)
		asJSON := o.yes("json", "the answer for programs: verdict, reasons with text, article and line, recipe, after, cautions, protect, instead")
		return func(ctx context.Context, c *console, args []string) error {
			switch {
			case len(args) > 0:
				return fmt.Errorf("admit takes its question in options, so %q says nothing here; for example: tankside admit --material brass --tank wash-1", args[0])
			case *part != "" && (len(*materials) > 0 || *soil != "" || *tank != ""):
				return errors.New("a part's sheet names its materials, soils and tanks itself: give --part alone, for example: tankside admit --part gland-nut-brass")
			case *part == "" && len(*materials) == 0:
				return errors.New("say what the part is made of, for example: tankside admit --material brass --tank wash-1")
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			m, findings, err := builder.Read(ctx, *in, now)
			if err != nil {
				return err
			}
			if n := finding.Stopping(findings); n > 0 {
				return fmt.Errorf("the manual has %s publication, so its answers are not to be relied on; see tankside proof %s",
					count(n, "finding that stops", "findings that stop"), quoted(*in))
			}
			table := relate.Table(m)
			answer, err := answered(table, *part, *materials, *soil, *tank)
			if err != nil {
				return err
			}
			if *asJSON {
				err = c.json(answer.forPrograms())
			} else {
				c.tellAnswer(answer)
			}
			if err == nil && answer.Verdict == admit.No {
				err = status(exitFindings)
			}
			return err
		}
	},
}

// answered answers about a part's sheet, or about materials in a bath.
func answered(t *admit.Table, part string, materials []string, soil, tank string) (admission, error) {
	if part != "" {
		name, err := meant("part", part, t.PartItems())
		if err != nil {
			return admission{}, err
		}
		answer, err := t.Sheet(name)
		if err != nil {
			return admission{}, err
		}
		return admission{Answer: answer, bath: titleOf(t.PartItems(), name), after: t.After(name)}, nil
	}
	question, err := theQuestion(t, materials, soil, tank)
	if err != nil {
		return admission{}, err
	}
	return answerTo(t, question)
}

func titleOf(items []admit.Item, name string) string {
	i := slices.IndexFunc(items, func(x admit.Item) bool { return x.Name == name })
	return items[i].Title
}

// theQuestion finds the names that are meant: file names, or titles.
func theQuestion(t *admit.Table, materials []string, soil, tank string) (q admit.Question, err error) {
	for _, given := range materials {
		name, err := meant("material", given, t.MaterialItems())
		if err != nil {
			return q, err
		}
		if !slices.Contains(q.Materials, name) {
			q.Materials = append(q.Materials, name)
		}
	}
	if soil != "" {
		if q.Soil, err = meant("soil", soil, t.SoilItems()); err != nil {
			return q, err
		}
	}
	if tank != "" {
		q.Bath, err = meant("tank or chemistry", tank, t.BathItems())
	}
	return q, err
}

// meant gives the name of what is given by its name or title. Where there is none, the error offers what comes near.
func meant(what, given string, items []admit.Item) (string, error) {
	names := make([]string, len(items))
	for i, item := range items {
		names[i] = item.Name
		if item.Name == given {
			return given, nil
		}
	}
	var near []string
	for _, item := range items {
		if strings.EqualFold(item.Title, given) {
			return item.Name, nil
		}
		if slices.Contains(strings.Split(item.Name, "-"), strings.ToLower(given)) {
			near = append(near, item.Name)
		}
	}
	problem := fmt.Sprintf("there is no %s %q", what, given)
	switch {
	case len(near) > 1:
		return "", fmt.Errorf("%s; with that word there are %s", problem, strings.Join(near, ", "))
	case len(near) == 1:
		return "", fmt.Errorf("%s; did you mean %s?", problem, near[0])
	case len(items) == 0:
		return "", fmt.Errorf("%s; the manual has none", problem)
	}
	if suggestion := didYouMean(given, names); suggestion != "" {
		return "", errors.New(problem + suggestion)
	}
	return "", fmt.Errorf("%s; there are %s", problem, strings.Join(names, ", "))
}

// admission is an answer with what it is about.
type admission struct {
	admit.Answer
	bath    string // title of the bath; empty where every tank says no
	instead []admit.Alternative
	after   []admit.Stop // of a part's sheet
}

// answerTo answers for the bath that is named. Without one it answers for the tank that suits best; where none does, the reasons of all
// tanks stand against it.
func answerTo(t *admit.Table, q admit.Question) (admission, error) {
	if q.Bath != "" {
		return answerFor(t, q)
	}
	var refused admission
	refused.Verdict = admit.No
	var best *admission
	for _, b := range t.Baths() {
		if b.Tank == nil {
			continue
		}
		one, err := answerFor(t, admit.Question{Materials: q.Materials, Soil: q.Soil, Bath: b.Name})
		switch {
		case err != nil:
			return admission{}, err
		case one.Verdict == admit.Yes:
			return one, nil
		case one.Verdict == admit.Conditions && best == nil:
			best = &one
		case one.Verdict == admit.No:
			refused.Reasons = append(refused.Reasons, one.Reasons...)
			refused.instead = one.instead // tanks that take it would have been the answer, so these are the same chemistries each time
			refused.addCautions(one.Cautions)
		}
	}
	if best != nil {
		return *best, nil
	}
	if len(refused.Reasons) == 0 {
		return admission{}, errors.New("the shop file has no tank with a chemistry; name a chemistry with --tank")
	}
	return refused, nil
}

// addCautions adds the safety messages that are not there yet, and keeps the gravest first.
func (a *admission) addCautions(list []admit.Caution) {
	for _, x := range list {
		if !slices.ContainsFunc(a.Cautions, func(y admit.Caution) bool { return y.Text == x.Text }) {
			a.Cautions = append(a.Cautions, x)
		}
	}
	slices.SortStableFunc(a.Cautions, func(x, y admit.Caution) int {
		return slices.Index(manual.SignalWords, x.Signal) - slices.Index(manual.SignalWords, y.Signal)
	})
}

func answerFor(t *admit.Table, q admit.Question) (admission, error) {
	a, err := t.Answer(q)
	if err != nil {
		return admission{}, err
	}
	instead, err := t.Instead(q)
	return admission{Answer: a, bath: t.Bath(q.Bath).Title, instead: instead}, err
}

// forPrograms is the answer in the form of --json.
func (a admission) forPrograms() any {
	type reason struct {
		Verdict    admit.Verdict `json:"verdict"`
		Text       string        `json:"text"`
		Article    string        `json:"article"`
		Line       int           `json:"line"`
		Rule       string        `json:"rule,omitempty"`
		NotChecked bool          `json:"not-checked,omitempty"`
	}
	var reasons []reason
	for _, r := range a.Reasons {
		reasons = append(reasons, reason{r.Verdict, ofWash(r) + r.Text, r.Article, r.Line, string(r.Rule), r.NotChecked})
	}
	type span struct {
		What admit.What `json:"what"`
		Text string     `json:"text"`
		Low  *float64   `json:"low"` // SI; null where it is open
		High *float64   `json:"high"`
	}
	type recipe struct {
		Bath      string `json:"bath"`
		Chemistry string `json:"chemistry"`
		Article   string `json:"article"`
		Method    string `json:"method,omitempty"` // how, where that is not under ultrasonics
		Spans     []span `json:"spans"`
	}
	told := func(from *admit.Recipe) recipe {
		r := recipe{from.Bath, from.Chemistry, from.Path, from.Method, []span{}}
		for _, s := range from.Spans {
			r.Spans = append(r.Spans, span{s.What, s.Text, s.Low, s.High})
		}
		return r
	}
	var r *recipe
	if a.Recipe != nil {
		one := told(a.Recipe)
		r = &one
	}
	var steps []recipe
	for i := range a.Steps {
		steps = append(steps, told(&a.Steps[i]))
	}
	return struct {
		Verdict  admit.Verdict       `json:"verdict"`
		Reasons  []reason            `json:"reasons"`
		Keep     string              `json:"keep"` // what to keep to, in a few words; "" where the answer is no
		Recipe   *recipe             `json:"recipe"`
		Steps    []recipe            `json:"steps,omitempty"` // of a part's sheet: its washes
		After    []admit.Stop        `json:"after,omitempty"` // of a part's sheet: its rinses and the dryer
		Cautions []admit.Caution     `json:"cautions"`
		Protect  []string            `json:"protect"`
		Instead  []admit.Alternative `json:"instead"`
	}{a.Verdict, orEmpty(reasons), a.Brief(nil, a.System), r, steps, a.after, orEmpty(a.Cautions), orEmpty(a.Protect), orEmpty(a.instead)}
}

// verdictWords are the verdicts as they are told.
var verdictWords = map[admit.Verdict]string{admit.Yes: "Yes", admit.Conditions: "Yes, with conditions", admit.No: "No"}

func (c *console) tellAnswer(a admission) {
	into := ""
	if a.bath != "" {
		into = ": " + a.bath
	}
	fmt.Fprintf(c.out, "%s%s\n", c.strong(verdictWords[a.Verdict]), into)
	for _, r := range a.Reasons {
		fmt.Fprintf(c.out, "  %s%s\n    %s, line %d\n", ofWash(r), r.Text, r.Article, r.Line)
	}
	if a.Recipe != nil {
		c.tellRecipe("Recipe", a.Recipe)
	}
	for i := range a.Steps {
		c.tellRecipe(admit.WashName(i+1, nil)+", "+a.Steps[i].Bath, &a.Steps[i])
	}
	for _, x := range a.after {
		fmt.Fprintf(c.out, "%s: %s\n", c.strong("Then"), strings.TrimSuffix(x.Name+", "+x.Meets, ", "))
	}
	if a.Verdict == admit.No && len(a.instead) > 0 {
		fmt.Fprintf(c.out, "%s\n", c.strong("These would take it"))
		for _, alt := range a.instead {
			signal := ""
			if alt.Signal != "" {
				signal = " (" + alt.Signal + ": ask about it before you use it)"
			}
			fmt.Fprintf(c.out, "  %s: %s%s\n", alt.Title, strings.ToLower(verdictWords[alt.Verdict]), signal)
		}
	}
	for _, x := range a.Cautions {
		fmt.Fprintf(c.out, "%s: %s (%s)\n", c.strong(x.Signal), x.Text, x.Article)
	}
	if len(a.Protect) > 0 {
		fmt.Fprintf(c.out, "Wear: %s.\n", strings.Join(a.Protect, ", "))
	}
}

func (c *console) tellRecipe(heading string, r *admit.Recipe) {
	fmt.Fprintf(c.out, "%s: %s\n", c.strong(heading), r.Chemistry)
	if r.Method != "" {
		fmt.Fprintf(c.out, "  %s %s\n", padded("how", len(admit.Temperature)), r.Method)
	}
	for _, s := range r.Spans {
		fmt.Fprintf(c.out, "  %s %s\n", padded(string(s.What), len(admit.Temperature)), s.Text)
	}
}

// ofWash begins what is said of a sheet with several washes.
func ofWash(r admit.Reason) string {
	if r.Wash == 0 {
		return ""
	}
	return admit.WashName(r.Wash, nil) + ": "
}
