package rules

import (
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
)

// edit is one change of a file of testdata/mistakes/manual: old becomes new. Without old, the file is new, or replaced.
type edit struct{ file, old, new string }

func e(file, old, new string) edit { return edit{file, old, new} }

// head is the beginning of a new article of station wash; more is the rest of its header.
func head(title, more string) string {
	return "---\ntitle: " + title + "\nsummary: Made up for a test.\nstation: wash\nrevision: A\napproved: 2026-09-14, process engineer\nreview-by: 2027-09-14\nsources: [common practice, no source]\n" + more + "---\n"
}

// longWinded is one sentence of some 60 words that reads at grade 23; parted at its commas it reads at a child's grade.
const longWinded = "The bath lifts the oil from the part, and the oil floats to the top of the bath, and the pump moves the water to the weir, which takes the oil away, and the part comes up through a clean bath, and the next part goes in, and the sound starts again, and so the work goes on all day until the bath is full of soil. "

const (
	fillSpanish = "---\ntitle: Llenar el tanque\nsummary: Llenar, dosificar y mezclar.\ntranslates: A\napproved: 2026-09-15, operator\nequipment: [jarra]\nprotective-equipment: [gafas, guantes químicos]\n---\n" +
		"> **ADVERTENCIA** El concentrado puede dejar ciego. Gafas herméticas y guantes. Siga la ficha de datos de seguridad y las normas locales.\n\n1. Llene hasta la marca.\n2. Agregue el [limpiador alcalino](../chemistries/alkaline.md) al 4 % v/v.\n"
	pipe = "\x00pipe"
	gone = "\x00gone" // of a file that is removed
)

var withInputs = regexp.MustCompile("```calculator (\\S+)\n[^`]*```")

// allInSpanish declares that a manual is translated and gives each article but one a translation, in which only the header is.
func allInSpanish(manual, except string) []edit {
	edits := []edit{e("shop.yaml", "units: SI\n", "translations: [es]\nunits: SI\n")}
	files, err := filepath.Glob(manual + "/*/*.md")
	if err != nil || len(files) == 0 {
		panic("there is no " + manual)
	}
	for _, file := range files {
		name := path.Join(filepath.Base(filepath.Dir(file)), filepath.Base(file))
		if name == except || strings.HasSuffix(name, ".es.md") {
			continue
		}
		data, err := os.ReadFile(file)
		if err != nil {
			panic(err)
		}
		header, body, _ := strings.Cut(strings.TrimPrefix(string(data), "---\n"), "\n---\n")
		_, revision, _ := strings.Cut(header, "\nrevision: ")
		revision, _, _ = strings.Cut(revision, "\n")
		text := "---\ntitle: T\nsummary: R.\ntranslates: " + revision + "\napproved: 2026-09-15, operator\n"
		for line := range strings.SplitSeq(header, "\n") {
			key, _, _ := strings.Cut(line, ":")
			switch {
			case key == "equipment" || key == "protective-equipment" || key == "damage" || key == "observations":
				text += line + "\n"
			case strings.HasPrefix(line, "  - {seen:"):
				text += "  - " + strings.TrimSuffix(strings.TrimPrefix(line[:strings.LastIndex(line, ", by:")], "  - {seen: "), "}") + "\n"
			}
		}
		body = withInputs.ReplaceAllString(body, "```calculator $1\n```")
		edits = append(edits, e(strings.TrimSuffix(name, ".md")+".es.md", "", text+"---\n"+body))
	}
	return edits
}
