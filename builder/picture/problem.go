package picture

import "strconv"

// Problem is why a picture cannot be shown, and what to do about it. It is an error.
type Problem struct {
	Line, Column int    // in a drawing, from 1, Column in characters; 0 when the file as a whole is meant
	Message      string // a sentence
	Remedy       string // a sentence
}

// Error gives the message, after line and column where there are any.
func (p *Problem) Error() string {
	if p.Line == 0 {
		return p.Message
	}
	return strconv.Itoa(p.Line) + ":" + strconv.Itoa(p.Column) + ": " + p.Message
}

const (
	saveAgain  = "Open the original and save it again as PNG or JPEG."
	copyAgain  = "Copy it again from where it came, or save it again from the program that made it."
	savePlain  = "Take it out, or save the drawing as plain SVG."
	saveAsSRGB = "Save it again in the colour space sRGB."
)

// brokenOff is the problem of a file that ends too early.
func brokenOff(what string) *Problem {
	return &Problem{Message: "The picture breaks off before its end: " + what + ".", Remedy: copyAgain}
}

// damaged is the problem of a file that does not follow its format.
func damaged(what string) *Problem {
	return &Problem{Message: "The picture is damaged: " + what + ".", Remedy: copyAgain}
}

// clip shortens a text of the file for a message.
func clip(s string, most int) string {
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
