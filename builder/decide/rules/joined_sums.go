package rules

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/builder/sentence"
)

// Sums that a sentence tells in their order: what is reckoned, a verb such as “is”, and what comes of it, with nothing between but words that
// join the two. What the sentence says besides does not matter: nobody has to know what it is about.

// wrongJoined gives the first such sum of a sentence that does not come out.
func (p *proof) wrongJoined(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Has(noWords) || len(s.Quantities) < 2 || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	for i := range s.Quantities {
		for _, check := range []func(*sentence.Sentence, int) (int, string){wrongTimes, wrongHourly, wrongPercentOf, wrongTotal, wrongRest, wrongHalf, wrongFills} {
			if from, says := check(s, i); says != "" {
				return from, says
			}
		}
	}
	return 0, ""
}

// wrongPieces checks “Three trays with 50 nuts each make 150 nuts” and “5 trays × 50 nuts = 250 nuts”.
func (p *proof) wrongPieces(_ *manual.Article, s *sentence.Sentence) (int, string) {
	if s.Has(noWords) || s.Question || s.Block.Kind == sentence.Cell {
		return 0, ""
	}
	list := strings.Fields(strings.TrimRight(strings.ToLower(s.Text()), ".!"))
	if len(list) < 7 || len(list) > 9 || numberOf(list[0]) < 2 || !ofOnes[list[2]] || numberOf(list[3]) < 2 {
		return 0, ""
	}
	piece, n := list[4], len(list)
	at := 5
	if list[at] == "each" {
		at++
	}
	if !tells[list[at]] || at+3 != n || numberOf(list[at+1]) == 0 || list[n-1] != piece || !strings.HasSuffix(piece, "s") {
		return 0, ""
	}
	if want := numberOf(list[0]) * numberOf(list[3]); want != numberOf(list[at+1]) {
		return s.From + leading(s), fmt.Sprintf("%s times %s are %g, not %s.", list[0], list[3], want, list[at+1])
	}
	return 0, ""
}

// toldAs tells whether the text between two amounts says that the second is what comes of the first: “are”, “of bath is about”, “in it make”.
func toldAs(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	if two.Span || two.Relation != sentence.At && two.Relation != sentence.To {
		return false
	}
	list := words(s, one.To, two.From)
	for len(list) > 0 && tellFillers[list[len(list)-1]] {
		list = list[:len(list)-1]
	}
	if n := len(list); n > 1 && list[n-1] == "be" && (list[n-2] == "would" || list[n-2] == "will") {
		list = append(list[:n-2:n-2], "is") // “4 % of 28 L would be 1.12 L”
	}
	if n := len(list); n > 0 && list[n-1] == "to" && n > 1 && (list[n-2] == "comes" || list[n-2] == "come") {
		list = list[:n-1]
	}
	n := len(list)
	if n == 0 || n > 5 {
		return false
	}
	if last := list[n-1]; !tells[last] && !(strings.HasSuffix(last, ":") && n <= 4) {
		return false
	}
	for _, w := range list[:n-1] {
		if parted[w] || strings.ContainsAny(w, ",;:()") {
			return false
		}
	}
	return true
}

var (
	tells       = sentence.Set("is are = ≈ makes make gives give equals equal comes come means carry carries hold holds need needs fill fills leave leaves use uses weigh weighs yield yields require requires amount")
	tellFillers = sentence.Set("about roughly a some only together just in all up total of exactly nearly almost the")
	parted      = sentence.Set("and but or which while where than if for on with per at to from minus plus less half")
	joinsTwo    = sentence.Set("on of for over in during through times × x at per ,")
	ofTwo       = sentence.Set("the a an its bath surface area parts part liquid film steel hot cold")
)

// plain tells whether an amount is one number that a thing has.
func plain(q *sentence.Quantity) bool {
	return !q.Span && (q.Relation == sentence.At || q.Relation == sentence.To) && q.Range.Low > 0
}

// wrongTimes checks “16 mL/m² on 2 m² is 32 mL”, “2 kW over 3 h are 6 kWh”.
func wrongTimes(s *sentence.Sentence, i int) (int, string) {
	if i+2 >= len(s.Quantities) {
		return 0, ""
	}
	one, two, sum := &s.Quantities[i], &s.Quantities[i+1], &s.Quantities[i+2]
	if one.Span || two.Span || !joined(s, one, two) || !toldAs(s, two, sum) || better[sum.Near] || hotter[sum.Near] || sum.Near == "more" || sum.Near == "less" {
		return 0, ""
	}
	for _, x := range slices.Concat(products, [][3]quantity.Kind{{quantity.Film, quantity.Area, quantity.Volume}, {quantity.Speed, quantity.Time, quantity.Length}}) {
		if sum.Kind != x[2] || !(one.Kind == x[0] && two.Kind == x[1] || one.Kind == x[1] && two.Kind == x[0]) {
			continue
		}
		want, says := one.Range.Low*two.Range.Low, fmt.Sprintf("%s × %s is", one.Text, two.Text)
		if off(want, sum.Range.Low) <= slackOf(sum, one, two) || hasShare(words(s, sum.To, s.To)) {
			return 0, ""
		}
		for k := i - 2; k >= 0 && s.Quantities[k].Kind == one.Kind && s.Quantities[k+1].Kind == two.Kind && !s.Quantities[k].Span; k -= 2 {
			want, says = want+s.Quantities[k].Range.Low*s.Quantities[k+1].Range.Low, "Together these are"
		}
		if off(want, sum.Range.Low) > slackOf(sum, one, two) {
			return sum.From, fmt.Sprintf("%s %s, not %s.", says, quantity.ShowIn(want, sum.Unit), sum.Text)
		}
	}
	return 0, ""
}

// joined tells whether two amounts are joined as the two of a product.
func joined(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	list := words(s, one.To, two.From)
	if len(list) == 0 || len(list) > 4 {
		return false
	}
	link := false
	for _, w := range list {
		if !joinsTwo[w] && !ofTwo[w] {
			return false
		}
		link = link || joinsTwo[w]
	}
	return link
}

// wrongHourly checks “4 L/min makes 240 L an hour”.
func wrongHourly(s *sentence.Sentence, i int) (int, string) {
	if i+1 >= len(s.Quantities) {
		return 0, ""
	}
	rate, sum := &s.Quantities[i], &s.Quantities[i+1]
	if rate.Kind != quantity.Flow || sum.Kind != quantity.Volume || !plain(rate) || !toldAs(s, rate, sum) && !takesAt(s, rate, sum) {
		return 0, ""
	}
	behind := words(s, sum.To, s.To)
	if len(behind) > 0 && behind[0] == "in" {
		behind = behind[1:]
	}
	if s.Has(offAtTimes) || slices.ContainsFunc(s.Quantities, func(q sentence.Quantity) bool { return q.Kind == quantity.Time }) {
		return 0, "" // it does not run all the time
	}
	if len(behind) < 2 || behind[0] != "an" && behind[0] != "per" && behind[0] != "each" && behind[0] != "every" && behind[0] != "a" && behind[0] != "one" {
		return 0, ""
	}
	seconds := lengths[strings.Trim(behind[1], ".,;:")]
	if want := rate.Range.Low * seconds; want > 0 && off(want, sum.Range.Low) > slackOf(sum, rate) {
		return sum.From, fmt.Sprintf("%s are %s in that time, not %s.", rate.Text, quantity.ShowIn(want, sum.Unit), sum.Text)
	}
	return 0, ""
}

// offAtTimes are words of what runs for a part of the time.
var offAtTimes = sentence.Set("half third quarter shut off closed pulsed sometimes")

// takesAt tells whether a rate is followed by what it takes: “At 4 L/min the rinse takes 240 L”.
func takesAt(s *sentence.Sentence, rate, sum *sentence.Quantity) bool {
	list := words(s, rate.To, sum.From)
	return precededBy(s, rate, "at") && len(list) == 3 && list[0] == "the" && (list[2] == "takes" || list[2] == "uses" || list[2] == "needs") && plain(sum)
}

// lengths are times in seconds by their words.
var lengths = map[string]float64{"hour": 3600, "minute": 60}

// wrongPercentOf checks “90 % of 200 L is 180 L”, “25 % of a 200 L drum are 50 L”.
func wrongPercentOf(s *sentence.Sentence, i int) (int, string) {
	if i+2 >= len(s.Quantities) {
		return 0, ""
	}
	share, whole, part := &s.Quantities[i], &s.Quantities[i+1], &s.Quantities[i+2]
	filled := false
	if whole.Kind == quantity.Fraction && share.Kind == quantity.Volume { // “A drum of 200 L filled to 90 % holds 190 L”
		share, whole = whole, share
		list := words(s, whole.To, share.From)
		filled = len(list) == 2 && (list[0] == "filled" || list[0] == "full") && list[1] == "to"
	}
	if share.Kind != quantity.Fraction && share.Kind != quantity.VolumeFraction || !plain(share) && !filled || !plain(whole) || whole.Kind != part.Kind || whole.Kind == quantity.Temperature || whole.Kind == share.Kind {
		return 0, ""
	}
	list := words(s, share.To, whole.From)
	if !filled && (len(list) == 0 || len(list) > 2 || list[0] != "of" && list[0] != "in" || len(list) == 2 && list[1] != "a" && list[1] != "the") {
		return 0, ""
	}
	if !toldAs(s, &s.Quantities[i+1], part) {
		return 0, ""
	}
	if want := share.Range.Low * whole.Range.Low; off(want, part.Range.Low) > slackOf(part, share, whole) && off(want/(1-share.Range.Low), part.Range.Low) > slackOf(part, share, whole) {
		return part.From, fmt.Sprintf("%s of %s is %s, not %s.", share.Text, whole.Text, quantity.ShowIn(want, part.Unit), part.Text)
	}
	return 0, ""
}

// wrongTotal checks “25 L and 10 L make 35 L”, “80 L of water and 4.8 L of concentrate make 84.8 L”, “two cans of 25 L and one of 10 L are 60 L”.
func wrongTotal(s *sentence.Sentence, i int) (int, string) {
	sum, bare, n := 0.0, 0.0, i
	for ; n < len(s.Quantities); n++ {
		q := &s.Quantities[n]
		if !plain(q) || q.Kind != s.Quantities[i].Kind || !addable[q.Kind] {
			return 0, ""
		}
		sum += q.Range.Low * max(1, countOf(s, q))
		bare += q.Range.Low
		if n+1 >= len(s.Quantities) {
			return 0, ""
		}
		if !adjoined(s, q, &s.Quantities[n+1]) {
			break
		}
	}
	if n == i || i > 0 && adjoined(s, &s.Quantities[i-1], &s.Quantities[i]) || strings.HasPrefix(strings.TrimSpace(s.Block.Text[s.Quantities[n-1].To:]), ",") {
		return 0, ""
	}
	total := &s.Quantities[n+1]
	if vesselHolds(words(s, s.Quantities[n].To, total.From)) {
		return 0, ""
	}
	if total.Kind != s.Quantities[i].Kind || !toldAs(s, &s.Quantities[n], total) && !fillsTo(s, &s.Quantities[n], total) || compared[total.Near] || s.Has(leavesWords) || n+2 < len(s.Quantities) && adjoined(s, total, &s.Quantities[n+2]) {
		return 0, ""
	}
	if countOf(s, &s.Quantities[i]) == float64(n-i+1) && onlyListed(s, s.Quantities[i:n+1]) {
		sum = bare // “Two rinses of 90 L and 40 L”: one amount for each
	}
	if off(sum, total.Range.Low) > max(0.02, slackOf(total)/4) && math.Abs(sum-total.Range.Low) > 0.55*total.Unit.ToSI(math.Pow(10, -float64(total.Low.Decimals))) {
		return total.From, fmt.Sprintf("Together these are %s, not %s.", quantity.ShowIn(sum, total.Unit), total.Text)
	}
	return 0, ""
}

// vesselHolds tells whether what stands between two amounts says what a vessel of the first holds: “baskets hold”, “drum takes”.
func vesselHolds(between []string) bool {
	for i := 1; i < len(between); i++ {
		if sized[between[i-1]] && holds[between[i]] || between[i-1] == "that" && holds[between[i]] {
			return true
		}
	}
	return false
}

var (
	sized = sentence.Set("basket baskets tray trays can cans jug jugs drum drums tank tanks bottle bottles bucket buckets cup cups cylinder cylinders box boxes container containers measure beaker bag bags sack sacks scoop scoops vessel vessels")
	holds = sentence.Set("hold holds carry carries take takes need needs lift lifts")
)

// onlyListed tells whether nothing but “and” and commas stands between amounts.
func onlyListed(s *sentence.Sentence, list []sentence.Quantity) bool {
	for k := 1; k < len(list); k++ {
		for _, w := range words(s, list[k-1].To, list[k].From) {
			if w != "and" && w != "," {
				return false
			}
		}
	}
	return true
}

// fillsTo tells whether what is added fills a vessel to an amount: “of water fill Wash 1 to 120 L”.
func fillsTo(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	list := words(s, one.To, two.From)
	n := len(list)
	return n > 2 && n < 8 && list[n-1] == "to" && slices.Contains(list, "fill") && !strings.ContainsAny(strings.Join(list, " "), ",;:")
}

var (
	addable     = map[quantity.Kind]bool{quantity.Volume: true, quantity.Mass: true, quantity.Time: true, quantity.Flow: true, quantity.Power: true, quantity.Energy: true, quantity.Length: true}
	compared    = sentence.Set("more less apart each longer shorter better too off away apiece higher lower a an per every")
	leavesWords = sentence.Set("leave leaves left remain remains missing each every")
)

// adjoined tells whether two amounts are added: “of water and”, “plus”, “of bath,”.
func adjoined(s *sentence.Sentence, one, two *sentence.Quantity) bool {
	text := strings.ToLower(s.Block.Text[one.To:max(one.To, two.From)])
	list := strings.Fields(strings.ReplaceAll(text, ",", " ,"))
	at := slices.IndexFunc(list, func(w string) bool { return addsUp[w] })
	if at < 0 || at > 3 || at == 1 || at > 0 && list[0] != "of" {
		return false
	}
	nouns := 0
	for _, w := range list[at:] {
		if !addsUp[w] && !vesselsOf[w] && numberOf(w) == 0 {
			nouns++
		}
	}
	return nouns == 0 || nouns < 3 && list[len(list)-1] == "of" && !slices.ContainsFunc(list[at+1:], func(w string) bool { return tells[w] || parted[w] || addsUp[w] })
}

var (
	addsUp    = sentence.Set("and plus ,")
	vesselsOf = sentence.Set("of a another further can cans drum drums jug jugs bottle bottles")
)

// countOf is how many of an amount there are: 2 of “two cans of 25 L”, 1 of “one of 10 L”, 150 of “three trays of 50 nuts at 40 g”, 0 where nothing
// is counted.
func countOf(s *sentence.Sentence, q *sentence.Quantity) float64 {
	list := words(s, s.From, q.From)
	count := 0.0
	for n := len(list); n > 1 && ofOnes[list[n-1]]; {
		n--
		nouns := 0
		for n > 0 && nouns < 3 && numberOf(list[n-1]) == 0 && list[n-1] != "%" && sharesOf[list[n-1]] == 0 && !ofOnes[list[n-1]] && !parted[list[n-1]] && !strings.ContainsAny(list[n-1], ",;:") {
			n--
			nouns++
		}
		if n == 0 || numberOf(list[n-1]) == 0 || strings.ContainsAny(list[n-1], ",;:") {
			break
		}
		n--
		count = max(1, count) * numberOf(list[n])
	}
	return count
}

var ofOnes = sentence.Set("of at à with ×")

// numberOf is a whole number in figures or as a word, or 0.
func numberOf(w string) float64 {
	if v := counts[strings.ToLower(w)]; v > 0 {
		return v
	}
	if w == "" || w[0] < '0' || w[0] > '9' {
		return 0 // as nearly every word: an error of Atoi is dear
	}
	v, err := strconv.Atoi(w)
	if err != nil || v < 1 || v > 5000 {
		return 0
	}
	return float64(v)
}

var counts = map[string]float64{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90}

// wrongRest checks “28 L less 0.56 L of concentrate leaves 27.44 L” and “80 L of water and 4.8 L of concentrate leave 35.2 L to the line of 120 L”.
func wrongRest(s *sentence.Sentence, i int) (int, string) {
	q := s.Quantities
	if i+2 >= len(q) || !plain(&q[i]) && q[i].Kind != quantity.Temperature || !plain(&q[i+1]) && q[i+1].Relation != sentence.Difference || q[i].Kind != q[i+1].Kind || q[i+2].Kind != q[i].Kind {
		return 0, ""
	}
	if q[i].Kind == quantity.Temperature && q[i].Unit == q[i+1].Unit && q[i].Unit == q[i+2].Unit && toldAs(s, &q[i+1], &q[i+2]) && reckoned[strings.Join(words(s, q[i].To, q[i+1].From), " ")] && !compared[q[i+2].Near] {
		return wrongHeatLess(&q[i], &q[i+1], &q[i+2], words(s, q[i].To, q[i+1].From)[0])
	}
	if !addable[q[i].Kind] {
		return 0, ""
	}
	one, two, rest := &q[i], &q[i+1], &q[i+2]
	want := one.Range.Low - two.Range.Low
	between := words(s, one.To, two.From)
	switch {
	case len(between) > 2 && len(between) < 5 && (between[0] == "less" || between[0] == "minus") && between[len(between)-1] == "of" && eachWords[between[1]]: // “12 kg less a basket of 2.5 kg”
	case len(between) > 0 && len(between) < 5 && (between[len(between)-1] == "less" || between[len(between)-1] == "minus") && (len(between) == 1 || between[0] == "of" || between[0] == "on" || between[0] == "in"):
	case adjoined(s, one, two) && i+3 < len(q) && q[i+3].Kind == one.Kind && (s.Has(leavesWords) && upToLine(s, rest, &q[i+3])):
		want = q[i+3].Range.Low - one.Range.Low - two.Range.Low
	default:
		return 0, ""
	}
	if !toldAs(s, two, rest) || compared[rest.Near] || want <= 0 {
		return 0, ""
	}
	if off(want, rest.Range.Low) > max(0.02, slackOf(rest)/4) {
		return rest.From, fmt.Sprintf("What is left is %s, not %s.", quantity.ShowIn(want, rest.Unit), rest.Text)
	}
	return 0, ""
}

// wrongHeatLess checks “62 °C less 12 °C is 50 °C”, in one unit.
func wrongHeatLess(one, two, rest *sentence.Quantity, sign string) (int, string) {
	want := one.Low.Value - two.Low.Value
	if sign == "plus" || sign == "+" {
		want = one.Low.Value + two.Low.Value
	}
	if sign != "less" && sign != "minus" && sign != "plus" && sign != "−" && sign != "+" || math.Abs(want-rest.Low.Value) <= 1 {
		return 0, ""
	}
	return rest.From, fmt.Sprintf("That is %s %s, not %s.", plainFigure(want), rest.Unit.Symbol, rest.Text)
}

// upToLine tells whether an amount is what is wanting up to another: “of water to the line of”.
func upToLine(s *sentence.Sentence, rest, whole *sentence.Quantity) bool {
	list := words(s, rest.To, whole.From)
	return len(list) > 0 && len(list) < 8 && (slices.Contains(list, "to") || slices.Contains(list, "of")) && !strings.ContainsAny(strings.Join(list, " "), ",;:.")
}
