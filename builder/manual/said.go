package manual

import (
	"cmp"
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"
)

// Said is a key of a YAML text with its value as it is written. What does not change what is read does not change it: the order of keys, comments,
// quotation marks. Where the value is a list or a mapping, each item has a line, those inside it are indented.
type Said struct{ Key, Value string }

// saidOf gives the keys of a mapping in the order of their names.
func saidOf(mapping *yaml.Node) []Said {
	list := make([]Said, 0, len(mapping.Content)/2)
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		list = append(list, Said{mapping.Content[i].Value, valueOf(mapping.Content[i+1])})
	}
	slices.SortStableFunc(list, func(a, b Said) int { return cmp.Compare(a.Key, b.Key) })
	return list
}

// SaidIn gives what a YAML text of a manual says. Under a top key that holds a mapping, each of its keys is one of its own, “water: hardness”; so is each
// key of each item in a list of mappings that have an id, a name or a word, “tanks: wash-1: temperature”, and the order of such a list has a line of
// its own, “tanks”. What lies deeper is one value. The order of the keys is that of their names.
func SaidIn(text []byte) ([]Said, error) {
	var doc yaml.Node
	if err := yaml.Unmarshal(text, &doc); err != nil {
		return nil, err
	}
	if len(doc.Content) == 0 {
		return nil, nil
	}
	root := doc.Content[0]
	if root.Kind != yaml.MappingNode {
		return []Said{{"", valueOf(root)}}, nil
	}
	var list []Said
	for i := 0; i+1 < len(root.Content); i += 2 {
		list = append(list, spread(root.Content[i].Value, root.Content[i+1])...)
	}
	slices.SortStableFunc(list, func(a, b Said) int { return cmp.Compare(a.Key, b.Key) })
	return list, nil
}

// parted stands between the keys of a path.
const parted = ": "

func spread(key string, n *yaml.Node) []Said {
	if n.Kind == yaml.MappingNode && len(n.Content) > 0 {
		var list []Said
		for _, s := range saidOf(n) {
			list = append(list, Said{key + parted + s.Key, s.Value})
		}
		return list
	}
	if n.Kind != yaml.SequenceNode || len(n.Content) == 0 || slices.ContainsFunc(n.Content, func(c *yaml.Node) bool { return nameOf(c) == "" }) {
		return []Said{{key, valueOf(n)}}
	}
	var names []string
	var list []Said
	for _, c := range n.Content {
		names = append(names, nameOf(c))
		list = append(list, spread(key+parted+nameOf(c), c)...)
	}
	return append([]Said{{key, strings.Join(names, "\n")}}, list...)
}

// nameOf is what an item of a list is called, or "".
func nameOf(n *yaml.Node) string {
	if n.Kind != yaml.MappingNode {
		return ""
	}
	for _, key := range []string{"id", "word", "name"} {
		for i := 0; i+1 < len(n.Content); i += 2 {
			if n.Content[i].Value == key && n.Content[i+1].Kind == yaml.ScalarNode {
				return n.Content[i+1].Value
			}
		}
	}
	return ""
}

// valueOf writes a value: of a list and of a mapping a line for each item.
func valueOf(n *yaml.Node) string {
	var b strings.Builder
	writeValue(&b, n, "")
	return strings.TrimPrefix(b.String(), "\n")
}

func writeValue(b *strings.Builder, n *yaml.Node, indent string) {
	switch {
	case n.Kind == yaml.ScalarNode:
		b.WriteString(strings.ReplaceAll(n.Value, "\n", "\n"+indent))
	case n.Kind == yaml.AliasNode:
		b.WriteString("*" + n.Value)
	case n.Kind == yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			b.WriteString("\n" + indent + n.Content[i].Value + parted)
			writeValue(b, n.Content[i+1], indent+"  ")
		}
	case n.Kind == yaml.SequenceNode:
		for _, c := range n.Content {
			b.WriteString("\n" + indent + "- ")
			writeValue(b, c, indent+"  ")
		}
	}
}
