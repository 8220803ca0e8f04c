package rename_test

import (
	"testing"
	"testing/fstest"
)

// A heading that was numbered because of another of its name takes its links with it, and its old address leads to it; the address that is in use again leads to
// whoever has it now.
func TestNumberedHeadingsFollow(t *testing.T) {
	t.Parallel()
	files := fstest.MapFS{
		"shop.yaml":    {Data: []byte("name: S\n")},
		"soils/a.md":   {Data: []byte("---\ntitle: A\n---\n## Use\n\n## Use\n\nSee [the second](#use-2), [b][b] and [it](b.md#use).\n\n[b]: b.md#use\n")},
		"soils/b.md":   {Data: []byte("---\ntitle: B\nsee-also: [a.md#use-2, ../soils/a.md]\n---\n## Use\n\n[a](a.md#use)\n")},
		"lessons/c.md": {Data: []byte("---\ntitle: C\n---\n[a](<../soils/a.md#use-2> \"title\")\n")},
	}
	after := apply(t, files, "soils/a.md#use", "First")
	for file, want := range map[string]string{
		"soils/a.md":   "---\ntitle: A\n---\n## First\n\n## Use\n\nSee [the second](#use), [b][b] and [it](b.md#use).\n\n[b]: b.md#use\n",
		"soils/b.md":   "---\ntitle: B\nsee-also: [a.md#use, ../soils/a.md]\n---\n## Use\n\n[a](a.md#first)\n",
		"lessons/c.md": "---\ntitle: C\n---\n[a](<../soils/a.md#use> \"title\")\n",
	} {
		if got := string(after[file].Data); got != want {
			t.Errorf("%s:\n%s", file, got)
		}
	}
	holds(t, after, "moved.yaml", []string{"\nsoils/a.md#use-2: soils/a.md#use\n"})
}
