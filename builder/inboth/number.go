package inboth

import "strings"

// number is a number of a text.
type number struct {
	from, to int
	value    float64
	digits   int  // significant ones, noughts at the end included
	decimals bool // it has a decimal point
	signed   bool // + or ±
	spread   bool // it stands behind ±, in a row
}

// numberAt reads the number that begins at a place: 4, 4.8, −18, 1 200, 1,200, 1/2, ½, 1½.
func numberAt(text string, at int) (n number, ok bool) {
	n.from = at
	if at >= len(text) {
		return n, false
	}
	sign := 1.
	switch { // a sign with a blank behind it subtracts
	case text[at] == '+':
		n.signed = true
		at++
	case text[at] == '-':
		sign = -1
		at++
	case strings.HasPrefix(text[at:], "−"):
		sign = -1
		at += len("−")
	}
	start := at
	for at < len(text) {
		if digitByte(text[at]) {
			n.value = n.value*10 + float64(text[at]-'0')
			if n.value > 0 {
				n.digits++
			}
			at++
			continue
		}
		w := blankWidth(text[at:])
		if w == 0 && text[at] == ',' {
			w = 1
		}
		if w > 0 && text[at] != '\n' && at > start && at-start <= 3 && threeDigits(text[at+w:]) {
			at += w
			continue
		}
		break
	}
	if at == start {
		f, w := half(text[at:])
		n.value, n.digits, n.to = sign*f, 2, at+w
		return n, w > 0
	}
	switch {
	case at+1 < len(text) && text[at] == '.' && digitByte(text[at+1]):
		n.decimals = true
		at++
		part := 1.
		for ; at < len(text) && digitByte(text[at]); at++ {
			part *= 10
			n.value = n.value*10 + float64(text[at]-'0')
			if n.value > 0 {
				n.digits++
			}
		}
		n.value /= part
	case at-start <= 2 && at+1 < len(text) && text[at] == '/' && digitByte(text[at+1]):
		under := 0.
		for at++; at < len(text) && digitByte(text[at]); at++ {
			under = under*10 + float64(text[at]-'0')
		}
		if under == 0 {
			return n, false
		}
		n.value, n.digits = n.value/under, 2
	default:
		if f, w := half(text[at:]); w > 0 {
			n.value += f
			n.digits++
			at += w
		}
	}
	n.value *= sign
	n.to = at
	return n, true
}

func threeDigits(s string) bool {
	return len(s) >= 3 && digitByte(s[0]) && digitByte(s[1]) && digitByte(s[2]) && (len(s) == 3 || !digitByte(s[3]))
}

func half(s string) (float64, int) {
	if len(s) < 2 || s[0] != 0xc2 {
		return 0, 0
	}
	switch s[:2] {
	case "½":
		return .5, 2
	case "¼":
		return .25, 2
	case "¾":
		return .75, 2
	}
	return 0, 0
}
