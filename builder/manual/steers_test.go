package manual

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"
)

// A character that steers is found with its place, in text and in headers, written or named by its number; those that text has are not.
func TestCharactersThatSteer(t *testing.T) {
	for _, r := range []rune{0x00, 0x01, 0x07, 0x08, 0x0b, 0x1b, 0x1f, 0x7f, 0x80, 0x9b} {
		list := readBodyOf(t, "Café.\n\nWax"+string(r)+".\n")
		if len(list) != 1 || list[0].Rule != "unreadable-file" || list[0].Line != 12 || list[0].Column != 4 {
			t.Errorf("U+%04X in the text: %v", r, list)
		}
		if r == 0 {
			continue
		}
		head := strings.Replace(headOfTest, "title: T", fmt.Sprintf("title: \"T\\u%04x\"", r), 1)
		_, list, err := Read(t.Context(), fstest.MapFS{"shop.yaml": {Data: []byte("name: S\nroles: [operator]\n")}, "procedures/fill.md": {Data: []byte(head + "A.\n")}})
		if err != nil || len(list) == 0 || list[0].Rule != "unreadable-yaml" || list[0].Line != 2 {
			t.Errorf("U+%04X in a header: %v, %v", r, list, err)
		}
	}
	if list := readBodyOf(t, "Café\tof\u00a0wax.\r\nÅ\u2009—\fμ\u200b\n"); len(list) > 0 {
		t.Errorf("text: %v", list)
	}
	for text, want := range map[string]string{"a&#31;b": "a\ufffdb", "a&#x1b;b": "a\ufffdb", "a&#38;b": "a&b", "a&#9;b": "a\tb"} {
		var b strings.Builder
		if writeUnescaped(&b, []byte(text)); b.String() != want {
			t.Errorf("%q is shown as %q, want %q", text, b.String(), want)
		}
	}
}
