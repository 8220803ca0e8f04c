package manual

import (
	"fmt"
	"slices"
	"strings"
)

// Reference prints keys as a table in markdown, the keys of mappings below their own.
func Reference(keys []Key) string {
	var b strings.Builder
	b.WriteString("| key | what it says | value | example |\n| --- | --- | --- | --- |\n")
	writeKeys(&b, keys, "")
	return b.String()
}

func writeKeys(b *strings.Builder, keys []Key, under string) {
	for _, k := range keys {
		means := k.Means
		if k.Required {
			means += " (required)"
		}
		example := ""
		if k.Example != "" {
			example = "`" + k.Name + ": " + k.Example + "`"
		}
		b.WriteString("| `" + under + k.Name + "` | " + means + " | " + k.Form + " | " + example + " |\n")
		writeKeys(b, k.Under, under+k.Name+" → ")
	}
}

// KindReference prints the kinds of article as a table in markdown.
func KindReference() string {
	var b strings.Builder
	b.WriteString("| kind | folder | heading of its list and chapter | place in the book | named by headers under | stands alone | title names a thing |\n")
	b.WriteString("| --- | --- | --- | --- | --- | --- | --- |\n")
	for _, k := range Kinds {
		d := k.declared()
		fmt.Fprintf(&b, "| %s | `%s` | %s | %d | %s | %s | %s |\n", k, d.Folder, d.Heading, d.Chapter, strings.Join(k.namedUnder(), ", "), yesOrNot(d.Alone), yesOrNot(d.Thing))
	}
	return b.String()
}

func yesOrNot(is bool) string {
	if is {
		return "yes"
	}
	return ""
}

// namedUnder lists the keys under which headers name articles of a kind, in the order of the kinds that have them.
func (k Kind) namedUnder() []string {
	var list []string
	for _, of := range Kinds {
		var keys []string
		for _, name := range naming(k, Keys(of), "") {
			keys = append(keys, "`"+name+"`")
		}
		if len(keys) > 0 {
			list = append(list, string(of)+" "+strings.Join(keys, " "))
		}
	}
	return list
}

// naming lists the keys that refer to a kind.
func naming(k Kind, keys []Key, under string) []string {
	var list []string
	for _, key := range keys {
		if slices.Contains(key.Refers, k) {
			list = append(list, under+key.Name)
		}
		list = append(list, naming(k, key.Under, under+key.Name+" → ")...)
	}
	return list
}
