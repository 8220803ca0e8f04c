package admit

import "strconv"

// WashNames are what the washes of a sheet with several are called: tanks are called Wash 1 and Wash 2, and texts number what people do.
var WashNames = []string{"First wash", "Second wash", "Third wash"}

// FurtherWash is what a wash behind those is called, before its number.
const FurtherWash = "Wash no."

// WashName names a wash of a sheet, from 1, by the words of a language; nil is English.
func WashName(number int, say func(string) string) string {
	if say == nil {
		say = func(phrase string) string { return phrase }
	}
	if number <= len(WashNames) {
		return say(WashNames[number-1])
	}
	return say(FurtherWash) + " " + strconv.Itoa(number)
}
