package languageserver

import (
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/calculators"
)

// kindModule is that of a calculator: LSP 3.17, CompletionItemKind.
const kindModule = 9

// calculatorWord begins what stands behind the fence of a calculator.
const calculatorWord = "calculator"

// sumSpot is where in the block of a calculator a position is.
type sumSpot struct {
	calculator *calculators.Calculator // nil on the line that names it, and where there is none of that name
	naming     bool                    // the position is in the calculator's name
	input      string                  // whose value it is in; "" in the name of one
	have       map[string]bool         // inputs that the block gives already
	from, to   int                     // of the word or value, in bytes
}

// sumAt reads where in the block of a calculator a byte of a line is; in is false outside one. The lines are read as they stand, since the block of
// somebody who types may have no end yet.
func sumAt(text []string, line, column int) (at sumSpot, in bool) {
	begin := -1
	for i, fence := 0, ""; i <= line; i++ {
		content := strings.TrimLeft(text[i], " ")
		switch {
		case fence != "" && i < line && strings.HasPrefix(content, fence) && strings.Trim(content, "` ~") == "":
			fence, begin = "", -1
		case fence == "" && (strings.HasPrefix(content, "```") || strings.HasPrefix(content, "~~~")):
			fence = content[:3]
			if strings.HasPrefix(strings.TrimLeft(content[3:], "`~ "), calculatorWord+" ") {
				begin = i
			}
		}
	}
	if begin < 0 {
		return sumSpot{}, false
	}
	name := strings.Fields(text[begin][strings.Index(text[begin], calculatorWord)+len(calculatorWord):])
	if begin == line {
		before := text[line][:column]
		at.naming, at.from, at.to = true, strings.LastIndexByte(before, ' ')+1, wordEnd(text[line], column)
		return at, strings.Contains(before, calculatorWord+" ")
	}
	if len(name) > 0 {
		at.calculator, _ = calculators.Named(name[0])
	}
	at.have = map[string]bool{}
	for i := begin + 1; i < len(text) && !strings.HasPrefix(strings.TrimLeft(text[i], " "), "```"); i++ {
		if input, _, given := strings.Cut(text[i], ":"); given && i != line {
			at.have[strings.TrimSpace(input)] = true
		}
	}
	before := text[line][:column]
	at.from = len(before) - len(strings.TrimLeft(before, " \t"))
	at.to = wordEnd(text[line], column)
	if input, _, value := strings.Cut(before, ":"); value {
		at.input = strings.TrimSpace(input)
		rest := before[len(input)+1:]
		at.from, at.to = len(before)-len(strings.TrimLeft(rest, " \t")), max(column, len(strings.TrimRight(text[line], " \t")))
	}
	return at, true
}

// wordEnd is where the word ends that a column is in or behind.
func wordEnd(line string, column int) int {
	for column < len(line) && !strings.ContainsRune(" \t:", rune(line[column])) {
		column++
	}
	return column
}

// ofSum proposes calculators, what they are to be given, and what of the shop or of the calculator's choices may stand there.
func (o *proposals) ofSum(m *manual.Manual, at sumSpot) {
	switch {
	case at.naming:
		for _, c := range calculators.All() {
			o.add(kindModule, c.Name, c.Title, c.Summary)
		}
	case at.input == "tank":
		o.fromShop(m, "tank")
	case at.calculator == nil:
	case at.input == "":
		if !at.have["tank"] {
			o.add(kindKey, "tank: ", "tank of the shop file, which gives what is not written here", "")
		}
		for _, in := range at.calculator.Inputs {
			if !at.have[in.Name] {
				o.add(kindKey, in.Name+": ", in.Label, in.Help)
			}
		}
	default:
		for _, in := range at.calculator.Inputs {
			if in.Name == at.input {
				o.ofInput(in)
			}
		}
	}
}

// ofInput proposes what an input may be given: a choice, or behind a number a unit; before there is a number, what stands for none of it.
func (o *proposals) ofInput(in *calculators.Input) {
	for _, c := range in.Choices {
		o.add(kindWord, c.Value, in.Label, c.Label)
	}
	if in.Default != "" && o.typed == "" && len(in.Choices) == 0 {
		o.add(kindUnit, in.Default, in.Label+": taken where nothing is written", in.Help)
	}
	if in.None {
		o.add(kindWord, "none", in.Label, "")
	}
	number := numberAndUnit.FindStringSubmatch(o.typed)
	if number == nil {
		return
	}
	for _, measure := range in.Measures {
		for _, u := range quantity.UnitsOf(measure.Kind) {
			if u.Symbol != "" && strings.HasPrefix(u.Symbol, strings.TrimSpace(number[2])) {
				o.add(kindUnit, number[1]+" "+u.Symbol, measure.Kind.String(), "")
			}
		}
	}
	o.typed = number[1]
}
