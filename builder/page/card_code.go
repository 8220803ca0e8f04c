package page

import (
	"fmt"
	"html/template"
	"strings"

	qr "github.com/piglig/go-qr"

	"tankside/builder/handout"
	"tankside/builder/ledger"
)

// codeOfCard is the code of a card: two cards of a place share it only if they say the same, as good as certainly.
//
// It stands for the words on the card, not for how they are laid out, and not for what says nothing about the bath: who answers for its articles and until when, the
// edition, when the record was last written in, where its words stand in the manual. So an article more in the book, a review that is overdue or has been
// made, or a program that lays the card out otherwise, leaves a card good that hangs already; each would otherwise have every card of the shop laminated anew, and people
// who do that without seeing a difference stop doing it. Who has a card say something more need do nothing for it.
func codeOfCard(of *handout.Sheet) string {
	var said strings.Builder
	fmt.Fprintf(&said, "%s\n%s\n%s\n", of.Kind, of.Name, of.Holds)
	heads := map[string]bool{} // one that is said again on the next side says nothing new
	for i := range of.Sides {
		for j := range of.Sides[i].Blocks {
			b := &of.Sides[i].Blocks[j]
			if head := string(b.Sort) + b.Head; b.Head != "" && (b.Sort != handout.Heading && b.Sort != handout.Message || !heads[head]) {
				heads[head] = true
				fmt.Fprintf(&said, "%q\n", b.Head)
			}
			if b.Text != (handout.Text{}) {
				fmt.Fprintf(&said, "%q %q\n", b.Text.SI, b.Text.US)
			}
			for _, r := range b.Rows {
				fmt.Fprintf(&said, "%q %q %q\n", r.Name, r.Value.SI, r.Value.US)
			}
		}
	}
	return ledger.CardCode([]byte(said.String()), of.ID)
}

// The measures of a printed QR code. ISO/IEC 18004:2015, 9.1, wants four modules free on every side; half a millimetre a module is read by a phone from a
// hand's breadth (common practice, no source).
const (
	free     = 4   // modules
	ofModule = 0.5 // mm
)

// square draws a QR code (ISO/IEC 18004:2015) of an address, black on white whatever the page's colours. At level M, or a higher one where that makes it no
// larger, at least 15 % of it may be unreadable: it hangs where it splashes.
func square(address string) (template.HTML, error) {
	code, err := qr.EncodeText(address, qr.Medium)
	if err != nil {
		return "", fmt.Errorf("the QR code of %s: %w", address, err)
	}
	side := code.Size() + 2*free
	var b strings.Builder
	for y := range code.Size() {
		for x := 0; x < code.Size(); x++ {
			from := x
			for code.Module(x, y) {
				x++
			}
			if x > from {
				fmt.Fprintf(&b, "M%d %dh%dv1h-%dz", from+free, y+free, x-from, x-from)
			}
		}
	}
	return template.HTML(fmt.Sprintf(`<svg class="qr" viewBox="0 0 %d %d" width="%gmm" height="%gmm" shape-rendering="crispEdges" aria-hidden="true" focusable="false">`+
		`<path fill="#fff" d="M0 0h%dv%dH0z"/><path fill="#000" d="%s"/></svg>`, side, side, ofModule*float64(side), ofModule*float64(side), side, side, &b)), nil
}
