package bring

import (
	"strings"

	"golang.org/x/net/html"
)

// all lists the nodes below one that are wanted, in their order.
func all(root *html.Node, wanted func(*html.Node) bool) []*html.Node {
	var list []*html.Node
	for n := range root.Descendants() {
		if wanted(n) {
			list = append(list, n)
		}
	}
	return list
}

func find(root *html.Node, wanted func(*html.Node) bool) *html.Node {
	for n := range root.Descendants() {
		if wanted(n) {
			return n
		}
	}
	return nil
}

func has(root *html.Node, wanted func(*html.Node) bool) bool { return find(root, wanted) != nil }

// textOf is all the text below a node.
func textOf(root *html.Node) string {
	if root.Type == html.TextNode {
		return root.Data
	}
	var b strings.Builder
	for n := range root.Descendants() {
		switch {
		case n.Type == html.TextNode:
			b.WriteString(n.Data)
		case n.Data == "br" || n.Data == "p":
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// identity is the value of an attribute, or "".
func identity(n *html.Node, key string) string {
	for _, a := range n.Attr {
		if a.Key == key {
			return a.Val
		}
	}
	return ""
}

// keep leaves attributes of one name alone.
func keep(list []html.Attribute, key string) []html.Attribute {
	for _, a := range list {
		if a.Key == key {
			return []html.Attribute{a}
		}
	}
	return nil
}

// lift puts what is in an element in its place.
func lift(n *html.Node) {
	for c := n.FirstChild; c != nil; c = n.FirstChild {
		n.RemoveChild(c)
		n.Parent.InsertBefore(c, n)
	}
	n.Parent.RemoveChild(n)
}

// set has an element hold a text alone.
func set(n *html.Node, text string) {
	for c := n.FirstChild; c != nil; c = n.FirstChild {
		n.RemoveChild(c)
	}
	n.AppendChild(&html.Node{Type: html.TextNode, Data: text})
}

// join makes one text of those that stand side by side.
func join(root *html.Node) {
	for _, n := range all(root, func(n *html.Node) bool { return n.Type == html.TextNode }) {
		if before := n.PrevSibling; before != nil && before.Type == html.TextNode && n.Parent != nil {
			n.Data = before.Data + n.Data
			n.Parent.RemoveChild(before)
		}
	}
}
