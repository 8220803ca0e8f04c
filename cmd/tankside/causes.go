package main

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"tankside/builder"
	"tankside/builder/decide/causes"
	"tankside/builder/decide/relate"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

var causesCommand = command{
	name: "causes",
	args: "[MANUAL]",
	does: "the smallest sets of causes that explain all that is seen, and what to look at next",
	more: `Says which causes together explain what is seen, and which of it each explains; what to look at next, how long that takes and what each
answer would mean. What was looked for and is not seen counts against the causes that would show it. Observations are given in the manual's words,
several of them parted by semicolons: --seen "foam; white spots or rings" --not "white film or haze". --all lists them. Causes that can hurt people
are told however unlikely they are. The answers are those of the page “Several things at once”.`,
	setUp: func(o *options) action {
		seen := o.texts("seen", "LIST", "what is seen; may be given several times")
		not := o.texts("not", "LIST", "what was looked for and is not seen; may be given several times")
		all := o.yes("all", "lists every observation by symptom, with the way to look and its minutes")
		asJSON := o.yes("json", "the answer for programs: sets with causes and what each explains, hurting, apart, else, next; with --all the observations")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err != nil {
				return err
			}
			if len(*seen) == 0 && len(*not) == 0 && !*all {
				return errors.New(`say what is seen, for example: tankside causes --seen "white spots or rings"; tankside causes --all lists what can be said`)
			}
			k, err := c.knowledge(ctx, folder)
			if err != nil {
				return err
			}
			if *all {
				if *asJSON {
					return c.json(observationsOf(k))
				}
				c.listObservations(k)
				return nil
			}
			looks := make([]causes.Look, len(k.Observations))
			if err := errors.Join(take(k, looks, *seen, causes.Seen), take(k, looks, *not, causes.NotSeen)); err != nil {
				return err
			}
			answer := explained{k, k.Model.Explain(looks)}
			if *asJSON {
				return c.json(answer.forPrograms())
			}
			c.tellCauses(answer)
			return nil
		}
	},
}

// knowledge reads what the manual says of causes, if nothing in it stops publication.
func (c *console) knowledge(ctx context.Context, folder string) (k relate.Knowledge, err error) {
	now, err := c.now()
	if err != nil {
		return k, err
	}
	m, findings, err := builder.Read(ctx, folder, now)
	if err != nil {
		return k, err
	}
	if n := finding.Stopping(findings); n > 0 {
		return k, fmt.Errorf("the manual has %s publication, so its answers are not to be relied on; see tankside proof %s",
			count(n, "finding that stops", "findings that stop"), quoted(folder))
	}
	if k = relate.Causes(m); len(k.Observations) == 0 {
		return k, errors.New("no symptom of the manual declares observations, so nothing can be said of causes")
	}
	return k, nil
}

// take notes looks by the words of observations, parted by semicolons.
func take(k relate.Knowledge, looks []causes.Look, lists []string, look causes.Look) error {
	for _, given := range lists {
		for words := range strings.SplitSeq(given, ";") {
			if words = strings.TrimSpace(words); words == "" {
				continue
			}
			o, err := observationMeant(k, words)
			if err != nil {
				return err
			}
			if looks[o] != causes.NotLooked && looks[o] != look {
				return fmt.Errorf("“%s” cannot be seen and not seen at once", k.Observations[o].Seen)
			}
			looks[o] = look
		}
	}
	return nil
}

// observationMeant finds an observation by its words, by its address on the page, or by some of its words that no other has in a row.
func observationMeant(k relate.Knowledge, words string) (int, error) {
	given := manual.SameObservation(words)
	var near []int
	names := make([]string, len(k.Observations))
	for i, o := range k.Observations {
		names[i] = manual.SameObservation(o.Seen)
		if names[i] == given || manual.Anchor(o.Seen) == given {
			return i, nil
		}
		if strings.Contains(" "+names[i], " "+given) {
			near = append(near, i)
		}
	}
	switch {
	case len(near) == 1:
		return near[0], nil
	case len(near) > 1:
		var list []string
		for _, i := range near[:min(len(near), 8)] {
			list = append(list, "“"+k.Observations[i].Seen+"”")
		}
		return 0, fmt.Errorf("%d observations have the words “%s”: %s; give one of them whole", len(near), words, strings.Join(list, ", "))
	}
	return 0, fmt.Errorf("there is no observation “%s”%s; tankside causes --all lists them", words, didYouMean(given, names))
}

// explained is an answer with what it is about.
type explained struct {
	relate.Knowledge
	causes.Answer
}

// title is the heading of a cause's remedy.
func (a explained) title(cause int) string {
	if cause == len(a.Knowledge.Causes) {
		return "something that this manual does not know"
	}
	return a.Knowledge.Causes[cause].Remedy.Heading
}

func (a explained) titles(list []int) string {
	names := make([]string, len(list))
	for i, cause := range list {
		names[i] = a.title(cause)
	}
	return strings.Join(names, " + ")
}

func (a explained) words(list []int) []string {
	words := []string{}
	for _, o := range list {
		words = append(words, a.Observations[o].Seen)
	}
	return words
}

func (a explained) hurts(cause int) bool {
	return cause < len(a.Model.Causes) && a.Model.Causes[cause].Hurts
}

// sentence says a set: A (explains spots; rings), B (explains foam).
func (a explained) sentence(s causes.Set) string {
	parts := make([]string, len(s.Parts))
	for i, p := range s.Parts {
		parts[i] = a.title(p.Cause)
		if len(p.Explains) > 0 {
			parts[i] += " (explains " + strings.Join(a.words(p.Explains), "; ") + ")"
		}
	}
	return strings.Join(parts, ", ")
}

// opening says how many causes a set has, and whether they explain all that is seen.
func opening(s causes.Set) string {
	if len(s.Rest) > 0 {
		return causes.Partly
	}
	for _, p := range s.Parts {
		if len(p.Explains) > 0 {
			return causes.Together[len(s.Parts)]
		}
	}
	return causes.Together[0]
}

func percent(p float64) string {
	if p < 0.01 {
		return "under 1 %"
	}
	return fmt.Sprintf("%.0f %%", 100*p)
}

func (c *console) tellCauses(a explained) {
	for i, s := range a.Sets {
		switch i {
		case 0:
			fmt.Fprintf(c.out, "%s\n", c.strong(opening(s)+": "+a.sentence(s)+". "+percent(s.Probability)))
		case 1:
			fmt.Fprintf(c.out, "\nOther sets of causes\n")
			fallthrough
		default:
			fmt.Fprintf(c.out, "- %s. %s\n", a.sentence(s), percent(s.Probability))
		}
		c.tellParts(a, s)
	}
	if len(a.Next) > 0 {
		fmt.Fprintf(c.out, "\nLook at this next\n")
	}
	for _, n := range a.Next {
		o := a.Observations[n.Observation]
		fmt.Fprintf(c.out, "- %s (%s, %s)\n    seen: %s\n    not seen: %s\n", o.Seen, o.By, minutes(n.Minutes), a.titles(n.IfSeen), a.titles(n.IfNotSeen))
	}
	fmt.Fprintf(c.out, "\nSomething that this manual does not know: %s\n", percent(a.Else))
	if len(a.Hurting)+len(a.Apart) > 0 {
		fmt.Fprintf(c.out, "\nCan hurt people, and is not ruled out\n")
	}
	for _, s := range a.Hurting {
		fmt.Fprintf(c.out, "- %s. %s\n", a.sentence(s), percent(s.Probability))
		c.tellParts(a, s)
	}
	for _, cause := range a.Apart {
		fmt.Fprintf(c.out, "- %s (%s)\n", a.title(cause), a.Knowledge.Causes[cause].Of.Path)
	}
}

// tellParts says of each cause of a set where its remedy stands, whether it can hurt, and what speaks against it.
func (c *console) tellParts(a explained, s causes.Set) {
	for _, p := range s.Parts {
		if p.Cause == len(a.Model.Causes) {
			continue
		}
		line := a.title(p.Cause) + ": " + a.Knowledge.Causes[p.Cause].Of.Path
		if a.hurts(p.Cause) {
			line += "; CAN HURT PEOPLE"
		}
		if len(p.Missed) > 0 {
			line += "; against it: " + strings.Join(a.words(p.Missed), "; ") + " (not seen)"
		}
		fmt.Fprintf(c.out, "    %s\n", line)
	}
	if len(s.Rest) > 0 {
		fmt.Fprintf(c.out, "    not explained: %s\n", strings.Join(a.words(s.Rest), "; "))
	}
}

// minutes says how long a look takes.
func minutes(m float64) string {
	if m < 60 {
		return strconv.FormatFloat(m, 'f', -1, 64) + " min"
	}
	return strconv.FormatFloat(math.Round(m/60), 'f', -1, 64) + " h"
}

func (c *console) listObservations(k relate.Knowledge) {
	symptom := ""
	for _, o := range k.Observations {
		if o.Of.Path != symptom {
			symptom = o.Of.Path
			fmt.Fprintf(c.out, "%s (%s)\n", c.strong(o.Of.Head.Title), symptom)
		}
		fmt.Fprintf(c.out, "  %s (%s, %s)\n", o.Seen, o.By, minutes(o.Minutes()))
	}
}

// What programs get.
type (
	jsonObservation struct {
		Seen    string  `json:"seen"`
		By      string  `json:"by"`
		Minutes float64 `json:"minutes"`
		Article string  `json:"article"`
	}
	jsonCause struct {
		Cause    string   `json:"cause"`
		Article  string   `json:"article"`
		Hurts    bool     `json:"hurts"`
		Explains []string `json:"explains"`
		Missed   []string `json:"missed"`
	}
	jsonSet struct {
		Probability float64     `json:"probability"`
		Causes      []jsonCause `json:"causes"`
		Rest        []string    `json:"rest"`
	}
	jsonNext struct {
		Seen      string   `json:"seen"`
		By        string   `json:"by"`
		Minutes   float64  `json:"minutes"`
		Bits      float64  `json:"bits"`
		IfSeen    []string `json:"if-seen"`
		IfNotSeen []string `json:"if-not-seen"`
	}
	jsonCauses struct {
		Sets    []jsonSet   `json:"sets"`
		Hurting []jsonSet   `json:"hurting"`
		Apart   []jsonCause `json:"apart"`
		Else    float64     `json:"else"`
		Next    []jsonNext  `json:"next"`
	}
)

func observationsOf(k relate.Knowledge) []jsonObservation {
	var list []jsonObservation
	for _, o := range k.Observations {
		list = append(list, jsonObservation{o.Seen, o.By, o.Minutes(), o.Of.Path})
	}
	return list
}

func (a explained) cause(p causes.Part) jsonCause {
	j := jsonCause{Cause: a.title(p.Cause), Hurts: a.hurts(p.Cause), Explains: a.words(p.Explains), Missed: a.words(p.Missed)}
	if p.Cause < len(a.Model.Causes) {
		j.Article = a.Model.Causes[p.Cause].Name
	}
	return j
}

func (a explained) sets(list []causes.Set) []jsonSet {
	sets := []jsonSet{}
	for _, s := range list {
		j := jsonSet{Probability: s.Probability, Rest: a.words(s.Rest)}
		for _, p := range s.Parts {
			j.Causes = append(j.Causes, a.cause(p))
		}
		sets = append(sets, j)
	}
	return sets
}

func (a explained) forPrograms() jsonCauses {
	j := jsonCauses{Sets: a.sets(a.Sets), Hurting: a.sets(a.Hurting), Apart: []jsonCause{}, Else: a.Else, Next: []jsonNext{}}
	for _, cause := range a.Apart {
		j.Apart = append(j.Apart, a.cause(causes.Part{Cause: cause}))
	}
	each := func(list []int) (names []string) {
		for _, cause := range list {
			names = append(names, a.title(cause))
		}
		return names
	}
	for _, n := range a.Next {
		o := a.Observations[n.Observation]
		j.Next = append(j.Next, jsonNext{o.Seen, o.By, n.Minutes, n.Bits, each(n.IfSeen), each(n.IfNotSeen)})
	}
	return j
}
