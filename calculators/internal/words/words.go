// Package words holds the few functions on strings that the calculators need.
// They do what those of the same names in package strings do. That package
// would bring Unicode's tables along, 12 kB of the 500 kB that the calculators'
// module may have in a page; blanks and letters are those of ASCII here.
package words

// Builder gathers text. The zero Builder is empty.
type Builder struct{ bytes []byte }

// Add adds text.
func (b *Builder) Add(s string) { b.bytes = append(b.bytes, s...) }

// AddByte adds one byte.
func (b *Builder) AddByte(c byte) { b.bytes = append(b.bytes, c) }

// String is what was gathered.
func (b *Builder) String() string { return string(b.bytes) }

// Index of the first separator in s, or -1. An empty separator is nowhere.
func Index(s, separator string) int {
	for i := 0; i+len(separator) <= len(s) && separator != ""; i++ {
		if s[i:i+len(separator)] == separator {
			return i
		}
	}
	return -1
}

// Cut gives what stands before and after the first separator.
func Cut(s, separator string) (before, after string, found bool) {
	if i := Index(s, separator); i >= 0 {
		return s[:i], s[i+len(separator):], true
	}
	return s, "", false
}

// Split gives what stands between separators.
func Split(s, separator string) []string {
	var parts []string
	for {
		before, after, found := Cut(s, separator)
		parts = append(parts, before)
		if !found {
			return parts
		}
		s = after
	}
}

// Join puts a separator between texts.
func Join(texts []string, separator string) string {
	var b Builder
	for i, t := range texts {
		if i > 0 {
			b.Add(separator)
		}
		b.Add(t)
	}
	return b.String()
}

// Replace puts one text in place of every other.
func Replace(s, old, new string) string { return Join(Split(s, old), new) }

// Trim takes blanks, tabs and line ends off both ends.
func Trim(s string) string {
	for s != "" && s[0] <= ' ' {
		s = s[1:]
	}
	for s != "" && s[len(s)-1] <= ' ' {
		s = s[:len(s)-1]
	}
	return s
}

// Lower turns the letters A to Z small.
func Lower(s string) string {
	b := []byte(s)
	for i, c := range b {
		if c >= 'A' && c <= 'Z' {
			b[i] = c + 'a' - 'A'
		}
	}
	return string(b)
}

// Valid puts a replacement character in place of each byte that is not UTF-8.
func Valid(s string) string {
	var b []rune
	for _, r := range s {
		b = append(b, r)
	}
	return string(b)
}
