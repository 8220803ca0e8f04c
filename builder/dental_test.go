package builder

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"tankside/builder/finding"
)

// dental is a manual of an invented shop that cleans for dental technicians. It was written by README.md, FORMAT.md and the findings alone, with five moments of not
// knowing, none of which would have led to harm.
const dental = "../testdata/dental/manual"

// The manual of a further trade has no findings, and publishes.
func TestDentalManualPublishes(t *testing.T) {
	t.Parallel()
	to, articles := publishesClean(t, dental)
	if articles != 25 {
		t.Errorf("%d articles", articles)
	}
	page, err := os.ReadFile(filepath.Join(to, "chemistries", "orange-solvent.html"))
	if err != nil || !strings.Contains(string(page), "there is no water in it") {
		t.Error(err, "the page of a solvent does not say that it has no pH")
	}
}

// Slips of an author that gave a wrong yes are found, and stop publication.
func TestSlipsThatGaveAWrongYes(t *testing.T) {
	t.Parallel()
	const solvent, acrylic, film = "chemistries/orange-solvent.md", "materials/denture-acrylic.md", "soils/mouth-film.md"
	for _, test := range []struct {
		rule    finding.RuleName
		changes []string // file, old and new, three by three
	}{
		{"undeclared-content", []string{film, "may-contain: [biological]\n", "", film, "Worn work can carry germs of blood and saliva that", "It may contain biological matter that"}},
		{"undeclared-constituent", []string{solvent, "ph: none", "ph: 6–8", solvent, "contains: [terpene]", "contains: [surfactant]"}},
		{"undeclared-hazard", []string{solvent, "flash-point: 48 °C", "flash-point: 148 °C", solvent, "H226, ", ""}},
		{"undeclared-hazard", []string{solvent, "flash-point: 48 °C\n", "", solvent, "H226, ", ""}},
		{"undeclared-hazard", []string{solvent, "H304, ", ""}},
		{"undeclared-constituent", []string{"chemistries/citric-acid.md", "contains: [acid", "contains: [surfactant"}},
		{"undeclared-substance", []string{acrylic, "made-of: [acrylic]", "made-of: [ptfe]"}},
		{"undeclared-substance", []string{acrylic, "made-of: [acrylic]", "made-of: [polyolefin]"}},
		{"undeclared-substance", []string{"parts/cast-framework.md", "title: Cast framework", "title: Acrylic denture on a cast framework"}},
		{"ph-without-water", []string{"chemistries/mild-alkaline-cleaner.md", "\nph: ", "\nph: none # "}},
	} {
		dir := t.TempDir()
		if err := os.CopyFS(dir, os.DirFS(dental)); err != nil {
			t.Fatal(err)
		}
		for change := range slices.Chunk(test.changes, 3) {
			file := filepath.Join(dir, filepath.FromSlash(change[0]))
			data, err := os.ReadFile(file)
			if err != nil || strings.Count(string(data), change[1]) != 1 {
				t.Fatalf("%s has %q %d times: %v", change[0], change[1], strings.Count(string(data), change[1]), err)
			}
			if err := os.WriteFile(file, []byte(strings.Replace(string(data), change[1], change[2], 1)), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		_, findings, err := Read(t.Context(), dir, day)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.ContainsFunc(findings, func(f finding.Finding) bool { return f.Rule == test.rule && f.Severity.Stops() }) {
			t.Errorf("%q: no %s among %v", test.changes, test.rule, findings)
		}
	}
}
