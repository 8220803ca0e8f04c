package manual_test

import (
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"tankside/builder/decide/rules"
	"tankside/builder/finding"
	"tankside/builder/manual"
)

// exampleHeader writes those keys that are wanted with the examples that FORMAT.md shows.
func exampleHeader(keys []manual.Key, indent string, wanted func(manual.Key) bool) string {
	var b strings.Builder
	for _, k := range keys {
		switch {
		case !wanted(k):
		case k.Example != "":
			b.WriteString(indent + k.Name + ": " + k.Example + "\n")
		case len(k.Under) > 0:
			under := exampleHeader(k.Under, indent+"    ", func(manual.Key) bool { return true })
			if strings.Contains(k.Form, "list, each") {
				under = indent + "  - " + strings.TrimLeft(under, " ")
			}
			b.WriteString(indent + k.Name + ":\n" + under)
		}
	}
	return b.String()
}

// exampleNeeds are rules by which an example needs something beside it, which is no mistake in the example.
var exampleNeeds = map[finding.RuleName]string{
	"replaces-nothing":          "a base below the manual",
	"not-approved":              "“not yet” is the example",
	"soil-needs-clearance":      "what a soil may contain needs a safety message",
	"near-flash-point":          "a flash point without its bath",
	"hazard-without-message":    "a hazard needs a safety message",
	"hazard-without-protection": "a hazard needs protective equipment",
	"undeclared-hazard":         "what hurts needs its hazard in the header",
	"first-aid-without-measure": "first aid needs its measures in the text",
	"wash-without-rinse":        "a wash needs a rinse",
	"hard-last-rinse":           "what must not spot needs a rinse",
	"unbounded-article":         "one key alone",
	"duplicate-title":           "every example has the one title",
	"orphan":                    "nothing leads to an example",
	"unknown-source":            "a listing shows what rests on what, with its sources",
	"removal-disagrees":         "a soil and its chemistry name each other",
}

// Each example of the tables of keys is accepted by the reader, in an article of its kind with what it must have and in the demo manual, where the names are; and no
// rule says of its line that it is wrong.
func TestExamplesOfKeysPass(t *testing.T) {
	t.Parallel()
	files := demoFiles(t)
	mine := map[string]string{}
	for _, k := range manual.Kinds {
		for _, key := range slices.Concat(manual.HeadKeys(), manual.Keys(k)) {
			all := slices.Concat(manual.HeadKeys(), manual.Keys(k))
			wanted := func(o manual.Key) bool {
				return o.Name == key.Name || o.Required || k == manual.Part && key.Name != "steps" && (o.Name == "tank" || o.Name == "chemistry") // a wash has both
			}
			file := k.Folder() + "/example-of-" + key.Name + ".md"
			text := "---\n" + exampleHeader(all, "", wanted) + "---\nText.\n"
			files[file] = &fstest.MapFile{Data: []byte(text)}
			mine[file] = text
		}
	}
	m, found, err := manual.Read(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	if len(mine) < 80 {
		t.Errorf("only %d examples", len(mine))
	}
	ofReader := len(found)
	found = append(found, rules.Proof(m, time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC))...)
	for i, f := range found {
		text, is := mine[f.File]
		line := ""
		if lines := strings.Split(text, "\n"); is && f.Line > 0 && f.Line < len(lines) {
			line, _, _ = strings.Cut(lines[f.Line-1], ":")
		}
		if is && (i < ofReader || exampleNeeds[f.Rule] == "" && f.File == m.At(f.File).Kind.Folder()+"/example-of-"+line+".md") {
			t.Errorf("%s: %s: %s %s\n%s", f.Place, f.Rule, f.Message, f.Remedy, text)
		}
	}
}

// The examples of the shop file's keys make a shop file.
func TestExamplesOfTheShopFilePass(t *testing.T) {
	t.Parallel()
	files := demoFiles(t)
	text := exampleHeader(manual.ShopKeys(), "", func(manual.Key) bool { return true })
	text = strings.Replace(text, "dryer:\n", "  - {id: rinse-2, name: Second rinse, volume: 90 L}\ndryer:\n", 1)
	files[manual.ShopFile] = &fstest.MapFile{Data: []byte(text)}
	_, found, err := manual.Read(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range found {
		if f.File == manual.ShopFile && len(f.Also) == 0 { // else it is about articles that name other tanks and people
			t.Errorf("%s: %s: %s %s\n%s", f.Place, f.Rule, f.Message, f.Remedy, text)
		}
	}
}

func demoFiles(t *testing.T) fstest.MapFS {
	t.Helper()
	files := fstest.MapFS{}
	from := os.DirFS("../../content")
	err := fs.WalkDir(from, ".", func(p string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(from, p)
		files[p] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

var listing = regexp.MustCompile("(?ms)^(````?)(text|yaml)\n(.*?)^(````?)$")

// Each listing passes proof where it belongs: an article, a step of a tree, what is seen with a cause, a translation, what rests on what, a safety message, a
// calculator, a record, words of the shop's own, old addresses, the glossary.
func TestListingsPass(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile("FORMAT.md")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	today := time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)
	count := 0
	before, err := proofOf(t, demoFiles(t), today)
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range listing.FindAllStringSubmatchIndex(text, -1) {
		body := text[at[6]:at[7]]
		heading := text[:at[0]]
		heading = heading[strings.LastIndex(heading, "\n## ")+4:]
		heading, _, _ = strings.Cut(heading, "\n")
		heading = strings.TrimPrefix(heading, "# ")
		files := demoFiles(t)
		place, known := listingPlace(t, files, heading, body)
		if !known {
			t.Errorf("nothing says where the listing under “%s” belongs:\n%s", heading, body)
			continue
		}
		if place == "" {
			continue
		}
		count++
		after, err := proofOf(t, files, today)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range after {
			if slices.ContainsFunc(before, func(b finding.Finding) bool { return b.Rule == f.Rule && b.Place == f.Place }) || exampleNeeds[f.Rule] != "" || f.Rule == "changed-since-approval" ||
				place == manual.MovedFile && f.File != place { // of a manual that has nothing else
				continue
			}
			t.Errorf("%s, put into %s: %s: %s: %s", heading, place, f.Place, f.Rule, f.Message)
		}
	}
	if count < 9 {
		t.Errorf("only %d listings", count)
	}
}

func proofOf(t *testing.T, files fstest.MapFS, today time.Time) ([]finding.Finding, error) {
	m, found, err := manual.Read(t.Context(), files)
	if err != nil {
		return nil, err
	}
	return append(found, rules.Proof(m, today)...), nil
}

// listingPlace puts a listing into the demo manual where it belongs, and says where; "" where it is no text of a manual.
func listingPlace(t *testing.T, files fstest.MapFS, heading, body string) (place string, known bool) {
	t.Helper()
	write := func(file, text string) string {
		files[file] = &fstest.MapFile{Data: []byte(text)}
		return file
	}
	head := func(more string) string {
		return "---\ntitle: Example\nsummary: An example.\nstation: wash\nrevision: A\napproved: not yet\nreview-by: 2027-09-14\n" + more + "---\n"
	}
	switch {
	case strings.HasPrefix(body, "---\ntitle: Hard wax"):
		return write("soils/format-example.md", body), true
	case strings.HasPrefix(body, "a.renner@shop"): // of OpenSSH, with a key that is shortened
		return "", true
	case strings.HasPrefix(body, "## Does it wipe off dry?"):
		return write("symptoms/format-example.md", head("sources: [common practice, no source]\nseen-on: part\n")+body+
			"\n## Hard-water salts\n\nThey stay behind.\n\n**Recheck.** Look again.\n"), true
	case strings.HasPrefix(body, "**Seen with.**"):
		return write("symptoms/format-example.md", head("sources: [common practice, no source]\nseen-on: part\n")+
			"## Is it so?\n\n**How to look.** Look.\n\n- Yes: [Salts](#salts)\n- No: [Salts](#salts)\n\n## Salts\n\nThey stay behind.\n\n"+body+"\n**Recheck.** Look again.\n"), true
	case strings.HasPrefix(body, "---\ntitle: Cera dura"):
		write("soils/format-example.md", strings.Replace(head("sources: [common practice, no source]\nalso-called: [a, b]\nnature: wax\n"), "revision: A", "revision: C", 1)+"Wax.\n")
		return write("soils/format-example.es.md", body), true
	case strings.HasPrefix(body, "sources:"):
		return write("materials/format-example.md", head(body+"made-of: [carbon-steel]\nph: 7–12\ntemperature: ≤ 80 °C\nfrequency: 25–80 kHz\ntime: ≤ 10 min\nattacked-by: [acid]\n")+"Steel.\n"), true
	case strings.HasPrefix(body, "Begin the bake"):
		return write("materials/format-example.md", head("sources: [\"ASTM B850, post-coating treatments of steel\", common practice]\nmade-of: [carbon-steel]\n")+body), true
	case strings.HasPrefix(body, "> **WARNING**"):
		return write("lessons/format-example.md", head("sources: [common practice, no source]\n")+body), true
	case strings.HasPrefix(body, "```calculator"):
		return write("procedures/format-example.md", head("sources: [common practice, no source]\n")+body), true
	case strings.HasPrefix(body, "when,"):
		return write("records/wash-1.csv", body), true
	case strings.HasPrefix(body, "# ---- page of a tank"): // the beginning of a file of words, which package wording tries whole
		return "", true
	case strings.HasPrefix(body, "constituents:"):
		return write("vocabulary.yaml", body), true
	case strings.HasPrefix(body, "soils/wax.md:"):
		clear(files)
		write(manual.ShopFile, "name: S\ntanks:\n  - {id: big-wash, name: Big wash, volume: 90 L}\nroles: [operator]\n")
		write("soils/hard-wax.md", head("sources: [common practice, no source]\nnature: wax\n")+"## Melt it first\n\nWax.\n")
		return write(manual.MovedFile, body), true
	}
	return "", false
}
