package manual

import "strings"

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
