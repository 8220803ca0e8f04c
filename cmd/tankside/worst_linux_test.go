package main

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/klauspost/compress/zlib"
)

// megabyte is how much of one kind of input somebody brings.
const megabyte = 1 << 20

// worst is the worst that a megabyte of one kind of input can do. says is in the finding that refuses it, or "" where it is an input like another, which
// takes its time and no more.
type worst struct {
	files map[string]string
	says  string
}

// filled repeats a text until it fills a megabyte; § in it becomes the number of the repetition.
func filled(text string) string {
	var b strings.Builder
	for i := 0; b.Len()+len(text)+6 < megabyte-4096; i++ {
		b.WriteString(strings.ReplaceAll(text, "§", strconv.Itoa(i)))
	}
	return b.String()
}

// worstInputs are the kinds of input, each with the megabyte that takes most. shop is the text of a shop file.
func worstInputs(shop string) map[string]worst {
	soil := func(body string) map[string]string {
		return map[string]string{"soils/wax.md": strings.ReplaceAll(wax, "%s", "Wax.") + "\n" + body}
	}
	symptom := func(body string) map[string]string {
		return map[string]string{"symptoms/wax.md": worstSymptom + body}
	}
	header := func(text string) map[string]string {
		return map[string]string{"soils/wax.md": strings.Replace(strings.ReplaceAll(wax, "%s", "Wax."), "nature: wax\n", "nature: wax\n"+text, 1)}
	}
	inShop := func(text string) map[string]string { return map[string]string{"shop.yaml": shop + text} }
	tanks := func(one string) map[string]string {
		return map[string]string{"shop.yaml": strings.Replace(shop, "tanks:\n", "tanks:\n"+filled(one), 1)}
	}
	many := func(name, text string, n int) map[string]string {
		files := map[string]string{}
		for i := range n {
			number := strconv.Itoa(i)
			files[strings.ReplaceAll(name, "§", number)] = strings.ReplaceAll(text, "§", number)
		}
		return files
	}
	return map[string]worst{
		"columns":                {soil("|" + strings.Repeat("a|", 300_000) + "\n|" + strings.Repeat("-|", 200_000) + "\n"), "more than 32 KiB"},
		"columns of a block":     {soil("|" + strings.Repeat("a|", 3000) + "\n|" + strings.Repeat("-|", 3000) + "\n" + strings.Repeat("|\n", 3000)), "columns; more than 64 are not read"},
		"cells":                  {soil("|" + strings.Repeat("a|", 64) + "\n|" + strings.Repeat("-|", 64) + "\n" + strings.Repeat("|\n", 500_000)), "more than 20000 cells"},
		"cells of many tables":   {soil(filled("|" + strings.Repeat("a|", 64) + "\n|" + strings.Repeat("-|", 64) + "\n|\n\n")), "more than 20000 cells"},
		"quotes within quotes":   {soil(filled("> ")), "more than 32 KiB"},
		"lists within lists":     {soil(strings.Repeat(strings.Repeat("- ", 5000)+"x\n\n", 100)), "stand within each other"},
		"lists by indentation":   {soil(deepening(1400)), "stand within each other"},
		"block of text":          {soil(filled("word ")), "more than 32 KiB"},
		"emphasis":               {soil(filled("*a **b ")), "more than 32 KiB"},
		"emphasis in blocks":     {soil(filled(strings.Repeat("*a **b _c ", 3000) + "\n\n")), ""},
		"brackets in blocks":     {soil(filled(strings.Repeat("[", 30_000) + "\n\n")), "opening brackets"},
		"links open in blocks":   {soil(filled(strings.Repeat("[a](", 8000) + "\n\n")), "opening brackets"},
		"backticks in blocks":    {soil(filled(risingBackticks(240) + "\n\n")), "more than 2000 backticks"},
		"entities in blocks":     {soil(filled(strings.Repeat("&#x26;", 5000) + "\n\n")), ""},
		"angles in blocks":       {soil(filled(strings.Repeat("< <a ", 6000) + "\n\n")), ""},
		"definitions of links":   {soil(filled("[a§]: ../soils/wax.md\n\n")), "more than 3000 texts"},
		"headings":               {soil(filled("## H§\n\n")), "1000 headings"},
		"headings of one name":   {soil(filled("## H\n\n")), "1000 headings"},
		"steps":                  {symptom(filled("## Is it wet (§)?\n\n- Yes: [End](#end)\n- No: [End](#end)\n\n")), "more than 1000 headings"},
		"steps, few headings":    {symptom(strings.Repeat("## Is it wet?\n\n- Yes: [End](#end)\n\n", 900)), "more than 200 steps"},
		"answers":                {symptom("## Is it wet?\n\n" + filled("- Yes §: [End](#end)\n\n") + "\n\n## End\n\n**Recheck.** Look.\n"), "more than 3000 texts"},
		"calculators":            {soil(filled("```calculator heat-up\n```\n\n")), "more than 100 listings"},
		"calculators, 100":       {soil(strings.Repeat("```calculator heat-up\n```\n\n", 100)), "more than 50 calculators"},
		"answers, 2900":          {symptom("## Is it wet?\n\n" + strings.Repeat("- Yes: [End](#end)\n", 1500) + "\n## End\n\n**Recheck.** Look.\n"), "more than 600 answers"},
		"findings, 2900 blocks":  {soil(strings.Repeat(strings.Repeat("[x](y.md) ", 3)+"\n\n", 2900)), "not told"},
		"sentences, 2900":        {soil(strings.Repeat(strings.Repeat("Heat the bath to 60 °C and add some wax before you lift. ", 3)+"\n\n", 2900)), ""},
		"listings, 100":          {soil(strings.Repeat("```python\n"+strings.Repeat("if x: pass # 1\n", 99)+"```\n\n", 100)), ""},
		"warnings, 2900":         {soil(strings.Repeat("> **WARNING** Burns. "+strings.Repeat("Goggles. ", 4)+"\n\n", 2900)), "more than 300 safety messages"},
		"short sentences":        {soil(filled("> **WARNING** Burns. " + strings.Repeat("Goggles. ", 30) + "\n\n")), "more than 15000 sentences"},
		"warnings, 300":          {soil(strings.Repeat("> **WARNING** Burns. "+strings.Repeat("Goggles in here. ", 48)+"\n\n", 300)), ""},
		"inputs of a calculator": {soil("```calculator heat-up\n" + filled("a§: 1 L\n") + "```\n"), "more than"},
		"listing":                {soil("```yaml\n" + filled("a§: [\"b\", {c: 1}] # d\n") + "```\n"), "more than 400 KiB"},
		"listing of one line":    {soil("```go\n" + filled("func(\"") + "\n```\n"), "more than 400 KiB"},
		"listings":               {soil(filled("```python\nif x:\n  pass # 1\n```\n\n")), "more than 100 listings"},
		"lines without text":     {soil(strings.Repeat("\n", megabyte-4096)), ""},
		"findings":               {soil(filled("[x](y§.md)\n\n")), "more than 3000 texts"},
		"findings of HTML":       {soil(filled("<b>\n\n")), "more than 3000 texts"},
		"ranges":                 {soil(filled("1–2 °C, 3–4 mm, 50–60 % v/v, 10–20 min. ") + "\n"), "more than 10000 numbers"},
		"ranges in blocks":       {soil(filled(strings.Repeat("1–2 °C, 3–4 mm, 50–60 % v/v, 10–20 min. ", 600) + "\n\n")), "more than 10000 numbers"},
		"amounts in sentences":   {soil(filled("Heat the bath to 60 °C and add 30 g/L of wax, at most 5 min.\n\n")), "more than 3000 texts"},
		"sentences without end":  {soil(filled(strings.Repeat("heat it and do not mix acid with bleach or wear gloves and ", 500) + "\n\n")), "more than 500 words"},
		"long sentences":         {soil(filled(strings.Repeat(strings.Repeat("heat it and do not mix acid with bleach or wear gloves and ", 35)+"lift it. ", 14) + "\n\n")), ""},
		"warnings":               {soil(filled("> **WARNING** Burns §. Goggles.\n\n")), "more than 3000 texts"},
		"one word":               {soil(filled(strings.Repeat("x", 30_000) + "\n\n")), ""},
		"marks above letters":    {soil(filled(strings.Repeat("a"+strings.Repeat("\u0301", 100), 150) + "\n\n")), ""},
		"header":                 {header("also-called: [" + filled("n§, ") + "x]\n"), "header"},
		"names":                  {header("also-called: [" + strings.Repeat("n, ", 15_000) + "x]\n"), ""},
		"values of the shop":     {inShop("roles: [" + filled("r§, ") + "x]\n"), "more than 20000 values"},
		"shop file, nesting":     {inShop("x: " + strings.Repeat("[", 400_000) + "\n"), "unreadable-yaml"},
		"tanks":                  {tanks("  - {id: t§, name: T§, volume: 1 L, heater: 1 W, ultrasonic-power: 1 W, frequency: 40 kHz}\n"), "values"},
		"tanks, few values":      {map[string]string{"shop.yaml": strings.Replace(shop, "tanks:\n", "tanks:\n"+tankLines(1200), 1)}, "100 are read"},
		"glossary":               {map[string]string{"glossary.yaml": filled("t§: {means: m}\n")}, "more than 20000 values"},
		"terms":                  {map[string]string{"glossary.yaml": termLines(4800)}, ""},
		"ledger":                 {map[string]string{"ledger.txt": filled("§ | 2026-11-29 | 8AT-MAM-5AP | P | x | - | - | 00\n")}, "urther findings of this rule"},
		"words":                  {map[string]string{"theme/words/en.yaml": filled("\"w§\": x\n")}, "values"},
		"a style":                {map[string]string{"theme/styles/zz.css": filled(".a§{color:#000}\n")}, ""},
		"theme files":            {many("theme/styles/s§.css", ".a{color:#000}\n", 5000), "more than 1000 files"},
		"drawing":                {map[string]string{"pictures/x.svg": `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">` + filled(`<path d="M0 0h§"/>`) + "</svg>"}, ""},
		"drawing of copies":      {map[string]string{"pictures/x.svg": copiesOfCopies(18)}, "more than 200,000 elements"},
		"picture":                {map[string]string{"pictures/x.png": emptyPNG(20_000, 20_000)}, "up to 50 million"},
		"picture just allowed":   {map[string]string{"pictures/x.png": emptyPNG(7000, 7000)}, ""},
		"picture as JPEG":        {map[string]string{"pictures/x.jpg": emptyJPEG(7000, 7000)}, ""},
		"picture as GIF":         {map[string]string{"pictures/x.gif": emptyGIF(7000, 7000)}, ""},
		"picture of passes":      {map[string]string{"pictures/x.jpg": passesJPEG(7000, 7000, 98)}, "more than 10 passes"},
		"picture, 10 passes":     {map[string]string{"pictures/x.jpg": passesJPEG(7000, 7000, 9)}, ""},
		"rows of a record":       {map[string]string{"records/wash-1.csv": "when,temperature (°C),id\n" + recordLines(27_000)}, ""},
		"columns of a record":    {map[string]string{"records/wash-1.csv": "when" + filled(",ph") + "\n"}, "columns"},
		"cell of a record":       {map[string]string{"records/wash-1.csv": "when,temperature (°C),note,id\n2026-09-07T06:55,60,\"" + filled("x") + "\",a\n"}, "2000 characters"},
		"findings of a record":   {map[string]string{"records/wash-1.csv": "when,temperature (°C),id\n" + filled("x,y,§\n")}, "unreadable"},
		"stray files":            {many("soils/s§.txt", "x", 3000), "stray-file"},
	}
}

const worstSymptom = "---\ntitle: Wax stays\nsummary: Wax stays on.\nstation: wash\nrevision: A\napproved: not yet\nreview-by: 2027-09-14\nsources: [\"common practice, no source\"]\nobservations: [wax]\n---\nWax.\n\n"

// deepening is a list within a list and so on.
func deepening(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat("  ", i) + "- a\n")
	}
	return b.String()[:min(b.Len(), megabyte-4096)]
}

// risingBackticks are runs of backticks, each longer than the one before, so that none closes another.
func risingBackticks(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat("`", i+1) + " ")
	}
	return b.String()
}

func tankLines(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "  - {id: t%d, name: T%d, volume: 1 L, heater: 1 W, frequency: 40 kHz}\n", i, i)
	}
	return b.String()
}

func termLines(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "term number %d: {means: \"%s\"}\n", i, strings.Repeat("means something ", 10))
	}
	return b.String()
}

func recordLines(n int) string {
	var b strings.Builder
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		fmt.Fprintf(&b, "%s,60.%d,a%d\n", at.Add(time.Duration(i)*10*time.Minute).Format("2006-01-02T15:04"), i%10, i)
	}
	return b.String()
}

// copiesOfCopies is a drawing of a few lines that is drawn 2 to the power of n times.
func copiesOfCopies(n int) string {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><g id="g0"><path d="M0 0h1"/></g>`)
	for i := range n {
		fmt.Fprintf(&b, `<g id="g%d"><use href="#g%d"/><use href="#g%d"/></g>`, i+1, i, i)
	}
	return b.String() + "</svg>"
}

// emptyPNG is a picture without anything on it, in a few kilobytes however large it is.
func emptyPNG(width, height int) string {
	var b bytes.Buffer
	b.WriteString("\x89PNG\r\n\x1a\n")
	chunk := func(name string, data []byte) {
		body := append([]byte(name), data...)
		b.Write(binary.BigEndian.AppendUint32(nil, uint32(len(data))))
		b.Write(body)
		b.Write(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE(body)))
	}
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(width)), uint32(height))
	chunk("IHDR", append(head, 8, 6, 0, 0, 0))
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	line := make([]byte, 1+4*width)
	for range height {
		z.Write(line) // into memory
	}
	z.Close()
	chunk("IDAT", packed.Bytes())
	chunk("IEND", nil)
	return b.String()
}

// emptyJPEG is a grey photograph of the kind that every camera makes.
func emptyJPEG(width, height int) string {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, width, height)), nil); err != nil {
		panic(err) // into memory
	}
	return b.String()
}

func emptyGIF(width, height int) string {
	var b bytes.Buffer
	if err := gif.Encode(&b, image.NewPaletted(image.Rect(0, 0, width, height), color.Palette{color.White, color.Black}), nil); err != nil {
		panic(err) // into memory
	}
	return b.String()
}

// passesJPEG is a grey photograph that comes in passes: the first gives each block of 8 × 8 pixels its mean, one bit each, and so many more say of thousands of blocks at
// a time that nothing is added, which a decoder has to go over all the same.
//
// Source: ITU-T T.81, B.2.2 to B.2.4 (segments), G.1.2 (passes; EOB14, code 0xE0, is a run of 16384 blocks and more, in fourteen further bits).
func passesJPEG(width, height, passes int) string {
	var b bytes.Buffer
	segment := func(mark byte, body ...byte) {
		b.Write(append([]byte{0xFF, mark, byte((len(body) + 2) >> 8), byte(len(body) + 2)}, body...))
	}
	b.Write([]byte{0xFF, 0xD8})
	segment(0xDB, append([]byte{0}, bytes.Repeat([]byte{1}, 64)...)...)
	segment(0xC2, 8, byte(height>>8), byte(height), byte(width>>8), byte(width), 1, 1, 0x11, 0)
	one := func(class, symbol byte) {
		segment(0xC4, append(append([]byte{class, 1}, make([]byte, 15)...), symbol)...)
	} // a table of a single code, the bit 0
	one(0x00, 0)
	one(0x10, 0xE0)
	blocks := (width + 7) / 8 * ((height + 7) / 8)
	segment(0xDA, 1, 1, 0x00, 0, 0, 0x00)
	b.Write(make([]byte, (blocks+7)/8))
	for range passes {
		segment(0xDA, 1, 1, 0x00, 1, 63, 0x00)
		b.Write(make([]byte, (blocks/16384+1)*15/8+1)) // each run: the code and fourteen bits 0
	}
	b.Write([]byte{0xFF, 0xD9})
	return b.String()
}

// mostMemory is what the program may take for the worst megabyte, in KiB.
const mostMemory = 512 << 10

// addressesFor is how many addresses the system gives the program, in KiB, so that it ends where it asks for more. A photograph of 49 million pixels is 200 MB in one
// piece, and where the second of these is to lie, the first is collected and its addresses are still taken: there are more of them, and what is used is looked at.
func addressesFor(w worst) int {
	if slices.ContainsFunc(slices.Collect(maps.Keys(w.files)), func(name string) bool { return strings.HasPrefix(name, "pictures/") }) {
		return 2 * mostMemory
	}
	return mostMemory
}

// took is what a run of the program took.
type took struct {
	cpu, wall time.Duration
	memory    int // KiB that it had at most
	code      int
	told      string
}

var highWater = regexp.MustCompile(`VmHWM:\s+(\d+) kB`)

// bounded runs the program, to which the system gives no more memory than the most there may be.
func bounded(t testing.TB, memory int, args ...string) (r took) {
	t.Helper()
	c := exec.Command("sh", append([]string{"-c", fmt.Sprintf("ulimit -d %d && exec tankside \"$@\"", memory), "sh"}, args...)...)
	var out bytes.Buffer
	c.Stdout, c.Stderr = &out, &out
	c.Env = append(os.Environ(), "SOURCE_DATE_EPOCH="+today)
	begin := time.Now()
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- c.Wait() }()
	status := fmt.Sprintf("/proc/%d/status", c.Process.Pid)
	for {
		select {
		case err := <-ended:
			var exit *exec.ExitError
			if err != nil && !errors.As(err, &exit) {
				t.Fatal(err)
			}
			r.wall, r.cpu, r.code, r.told = time.Since(begin), c.ProcessState.UserTime()+c.ProcessState.SystemTime(), c.ProcessState.ExitCode(), out.String()
			return r
		case <-time.After(10 * time.Millisecond):
			if text, err := os.ReadFile(status); err == nil { // it may just have ended
				if m := highWater.FindSubmatch(text); m != nil {
					r.memory, _ = strconv.Atoi(string(m[1])) // digits
				}
			}
		}
	}
}

// worstManual writes the manual with what somebody brings.
func worstManual(t testing.TB, start string, w worst) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "content")
	if err := os.CopyFS(folder, os.DirFS(start)); err != nil {
		t.Fatal(err)
	}
	if err := plainLook(folder); err != nil {
		t.Fatal(err)
	}
	for name, text := range w.files {
		file := filepath.Join(folder, filepath.FromSlash(name))
		if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, []byte(text), 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// Each kind of input has a bound: the worst megabyte of it is refused with a finding that names the limit, or is published, within 512 MiB of memory.
// How long each takes is measured by BenchmarkWorstMegabyte: a machine that has other work would fail a test of it.
func TestWorstMegabyte(t *testing.T) {
	if testing.Short() {
		t.Skip("a hundred programs are run")
	}
	t.Parallel()
	start, _ := newManual(t)
	shop, err := os.ReadFile(filepath.Join(start, "shop.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	kinds := worstInputs(string(shop))
	for _, name := range slices.Sorted(maps.Keys(kinds)) {
		w := kinds[name]
		t.Run(name, func(t *testing.T) {
			folder := worstManual(t, start, w)
			r := bounded(t, addressesFor(w), "proof", folder, "--json")
			t.Logf("proof: %.1f s of a processor, %d MiB, exit status %d", r.cpu.Seconds(), r.memory>>10, r.code)
			if r.memory > mostMemory {
				t.Errorf("%d MiB were held", r.memory>>10)
			}
			if r.code != exitDone && r.code != exitFindings {
				t.Fatalf("exit status %d: %.2000s", r.code, r.told)
			}
			if !strings.Contains(r.told, w.says) {
				t.Errorf("no finding says %q: %.1500s", w.says, r.told)
			}
			if len(r.told) > 2*megabyte {
				t.Errorf("%d bytes are told", len(r.told))
			}
			if r.code == exitDone {
				r := bounded(t, addressesFor(w), "publish", folder, "--to", filepath.Join(filepath.Dir(folder), "edition"))
				t.Logf("publish: %.1f s of a processor, %d MiB, exit status %d", r.cpu.Seconds(), r.memory>>10, r.code)
				if r.code != exitDone || r.memory > mostMemory {
					t.Errorf("%d MiB were held, exit status %d: %.2000s", r.memory>>10, r.code, r.told)
				}
			}
		})
	}
}

// BenchmarkWorstMegabyte measures what the worst megabyte of each kind of input takes of a processor: proof-reading, and publishing where proof lets it pass,
// beyond what the manual takes without it.
func BenchmarkWorstMegabyte(b *testing.B) {
	start, _ := newManual(b)
	shop, err := os.ReadFile(filepath.Join(start, "shop.yaml"))
	if err != nil {
		b.Fatal(err)
	}
	measure := func(w worst) (proof, publish took) {
		folder := worstManual(b, start, w)
		if proof = bounded(b, addressesFor(w), "proof", folder, "--json"); proof.code == exitDone {
			publish = bounded(b, addressesFor(w), "publish", folder, "--to", filepath.Join(filepath.Dir(folder), "edition"))
		}
		return proof, publish
	}
	proof, publish := measure(worst{})
	kinds := worstInputs(string(shop))
	for _, name := range slices.Sorted(maps.Keys(kinds)) {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				p, q := measure(kinds[name])
				b.ReportMetric((p.cpu - proof.cpu).Seconds(), "cpu-s/proof")
				if q.cpu > 0 {
					b.ReportMetric((q.cpu - publish.cpu).Seconds(), "cpu-s/publish")
				}
				b.ReportMetric(float64(max(p.memory, q.memory))/1024, "MiB")
				b.ReportMetric(0, "ns/op")
			}
		})
	}
}
