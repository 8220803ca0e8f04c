package builder

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// What drifts in a German translation is found in its file and line: a number, one end of a range in words, a number as a word, a prohibition, goggles that have become
// spectacles, a signal word, a unit. The translation as it stands has no findings, which TestWoodwindsManualPublishes shows.
func TestDriftInGermanIsFound(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS(woodwinds)); err != nil {
		t.Fatal(err)
	}
	drifts := []struct{ file, old, new, rule string }{
		{"procedures/fill-the-bench-bath.de.md", "den Schall 10 Minuten", "den Schall 5 bis 10 Minuten", "number-not-in-original"},
		{"procedures/rinse-and-dry.de.md", "bei 45 °C", "bei 54 °C", "number-not-in-original"},
		{"procedures/first-aid.de.md", "GEFAHR", "WARNUNG", "lost-message"},
		{"lessons/what-never-goes-in.de.md", "dichtet nie wieder", "dichtet wieder", "weaker-translation"},
		{"lessons/what-the-sound-does.de.md", "30 s in das", "30 Minuten in das", "number-not-in-original"},
		{"symptoms/spots-on-keys.de.md", "noch dreimal in", "noch in", ""}, // “three times” has no unit: not compared
		{"symptoms/rods-bind.de.md", "innerhalb von zehn Minuten", "bald", "weaker-translation"},
		{"chemistries/citric-dip.de.md", "reizt die Augen. Korbbrille und Handschuhe", "reizt die Augen. Schutzbrille und Handschuhe", "weaker-translation"},
		{"chemistries/mild-soap.de.md", "180 mL Konzentrat", "180 g Konzentrat", "number-not-in-original"},
		{"soils/breath-lime.de.md", "anhalten und die", "die", ""},
	}
	for _, d := range drifts {
		file := filepath.Join(dir, filepath.FromSlash(d.file))
		data, err := os.ReadFile(file)
		if err != nil || strings.Count(string(data), d.old) != 1 {
			t.Fatalf("%s has %q %d times: %v", d.file, d.old, strings.Count(string(data), d.old), err)
		}
		if err := os.WriteFile(file, []byte(strings.Replace(string(data), d.old, d.new, 1)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	_, findings, err := Read(t.Context(), dir, day)
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]string{}
	for _, f := range findings {
		if f.Rule != "changed-since-approval" && f.Line > 0 {
			found[f.File] += " " + string(f.Rule)
		}
	}
	for _, d := range drifts {
		if !strings.Contains(found[d.file], d.rule) || d.rule == "" && found[d.file] != "" {
			t.Errorf("%s: %q for %q: found%s, want %s", d.file, d.new, d.old, found[d.file], d.rule)
		}
	}
}
