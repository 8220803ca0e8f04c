package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"html"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"
	"time"
)

// deadline is how long something that has to happen may take on a busy machine.
const deadline = 3 * time.Minute

// buffer may be read while a command still writes to it.
type buffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (b *buffer) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.b.Write(p)
}

func (b *buffer) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.b.String()
}

// desk is a console whose answers and notes can be read.
func desk(in string) (c *console, out, notes *buffer) {
	out, notes = new(buffer), new(buffer)
	return newConsole(strings.NewReader(in), out, notes, func(name string) string {
		return map[string]string{"SOURCE_DATE_EPOCH": today}[name]
	}), out, notes
}

// must runs a command that has to succeed, and gives its answer.
func must(t testing.TB, args ...string) string {
	t.Helper()
	c, out, notes := desk("")
	if code := run(t.Context(), args, c); code != exitDone {
		t.Fatalf("tankside %s: exit status %d\n%s%s", strings.Join(args, " "), code, out, notes)
	}
	return out.String()
}

// newManual makes a manual and names its folder, and one for its edition.
func newManual(t testing.TB) (folder, edition string) {
	t.Helper()
	return newManualIn(t, t.TempDir())
}

func newManualIn(t testing.TB, dir string) (folder, edition string) {
	t.Helper()
	folder, edition = filepath.Join(dir, "content"), filepath.Join(dir, "edition")
	must(t, "start", folder, "--name", "Invented Shop", "--tank", "Wash 1, 120 L, 6 kW, 1.2 kW, 40 kHz")
	return folder, edition
}

// plainLook gives a manual styles and scripts of one line a file: compressing those there are takes more than half of the publication of a small manual.
func plainLook(manual string) error {
	for _, kind := range []string{"styles/*.css", "scripts/*.js"} {
		all, err := filepath.Glob("../../themes/" + kind)
		if err == nil && len(all) < 10 {
			err = fmt.Errorf("themes/%s are %d files", kind, len(all))
		}
		if err != nil {
			return err
		}
		for _, name := range all {
			file := filepath.Join(manual, "theme", filepath.Base(filepath.Dir(name)), filepath.Base(name))
			if err := errors.Join(os.MkdirAll(filepath.Dir(file), 0o755), os.WriteFile(file, []byte("/* "+filepath.Base(name)+" */\n"), 0o644)); err != nil {
				return err
			}
		}
	}
	return nil
}

// serving runs a command that serves until it is stopped. stop ends it and gives its exit status.
func serving(t *testing.T, args ...string) (url string, notes *buffer, stop func() int) {
	t.Helper()
	c, _, notes := desk("")
	read, write := io.Pipe()
	c.out = write
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan int, 1)
	go func() {
		code := run(ctx, args, c)
		write.Close()
		ended <- code
	}()
	t.Cleanup(cancel)
	line, err := bufio.NewReader(read).ReadString('\n')
	if err != nil {
		t.Fatalf("tankside %s served nothing: %v\n%s", strings.Join(args, " "), err, notes)
	}
	return strings.TrimSpace(line), notes, func() int {
		cancel()
		select {
		case code := <-ended:
			return code
		case <-time.After(deadline):
			t.Fatalf("tankside %s does not end", strings.Join(args, " "))
			return exitFault
		}
	}
}

func get(t *testing.T, url string) (status int, head http.Header, body string) {
	t.Helper()
	r, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	data, err := io.ReadAll(r.Body)
	if err := errors.Join(err, r.Body.Close()); err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, r.Header, string(data)
}

func TestHost(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	must(t, "publish", folder, "--to", edition)
	url, notes, stop := serving(t, "host", edition, "--at", "127.0.0.1:0")
	status, head, home := get(t, url)
	if status != 200 || !strings.Contains(home, "Invented Shop") {
		t.Fatalf("status %d, %.200s", status, home)
	}
	// What the header says beyond the page's own policy is that nobody may frame it.
	found := regexp.MustCompile(`http-equiv="Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(home)
	if found == nil {
		t.Fatal("the page has no policy of its own")
	}
	if got, want := head.Get("Content-Security-Policy"), html.UnescapeString(found[1])+"; frame-ancestors 'none'"; got != want {
		t.Errorf("policy in the header\n%s\nfrom the page's own\n%s", got, want)
	}
	if status, _, _ := get(t, url+"soils/wax.html"); status != 404 {
		t.Errorf("a page that is not there: status %d", status)
	}
	addWax(t, folder, "Warm it above its melting point.")
	must(t, "publish", folder, "--to", edition)
	if status, _, page := get(t, url+"soils/wax.html"); status != 200 || !strings.Contains(page, "Warm it above its melting point.") {
		t.Errorf("after publishing again: status %d", status)
	}
	if code := stop(); code != exitDone {
		t.Errorf("exit status %d\n%s", code, notes)
	}
	if got := notes.String(); !strings.Contains(got, "Ctrl-C") || strings.Contains(got, "encrypted") {
		t.Errorf("notes: %s", got)
	}
}

func TestHostElsewhere(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	must(t, "publish", folder, "--to", edition)
	_, notes, stop := serving(t, "host", edition, "--at", "0.0.0.0:0")
	if code := stop(); code != exitDone || !strings.Contains(notes.String(), "Everybody who reaches") {
		t.Errorf("exit status %d, notes: %s", code, notes)
	}
}

const wax = `---
title: Wax
summary: Wax comes off above its melting point.
station: wash
revision: A
approved: 2026-09-14, process engineer
review-by: 2027-09-14
sources: [common practice, no source]
nature: wax
removed-by: [mild-alkaline-detergent]
---
%s See [Mild alkaline detergent](../chemistries/mild-alkaline-detergent.md).
`

// addWax writes an article as many editors do: another file first, then renamed over it.
func addWax(t *testing.T, folder, text string) {
	t.Helper()
	reviseWax(t, folder, "A", text)
}

// reviseWax writes the article on wax under a revision.
func reviseWax(t *testing.T, folder, revision, text string) {
	t.Helper()
	name := filepath.Join(folder, "soils", "wax.md")
	if err := os.WriteFile(name+".new", bytes.Replace(fmt.Appendf(nil, wax, text), []byte("\nrevision: A\n"), []byte("\nrevision: "+revision+"\n"), 1), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(name+".new", name); err != nil {
		t.Fatal(err)
	}
}

// news is what an open page is told.
type news struct{ Page, Say string }

// told gives what the open page of the wax is told, one after another.
func told(t *testing.T, url string) <-chan news {
	t.Helper()
	r, err := http.Get(url + "-/changes?page=/soils/wax.html")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Body.Close() })
	heard := make(chan news, 100)
	go func() {
		defer close(heard)
		lines := bufio.NewScanner(r.Body)
		for lines.Scan() {
			if data, is := strings.CutPrefix(lines.Text(), "data: "); is {
				var n news
				if json.Unmarshal([]byte(data), &n) == nil {
					heard <- n
				}
			}
		}
	}()
	return heard
}

// next waits for news that are as they should be; some before them may be of a file half written.
func next(t *testing.T, heard <-chan news, notes *buffer, what string, is func(news) bool) news {
	t.Helper()
	late := time.After(deadline)
	for {
		select {
		case n, open := <-heard:
			if !open {
				t.Fatalf("%s: nothing more is told\n%s", what, notes)
			}
			if is(n) {
				return n
			}
		case <-late:
			t.Fatalf("%s was not told\n%s", what, notes)
		}
	}
}

func TestWatch(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	url, notes, stop := serving(t, "watch", folder, "--to", edition, "--at", "127.0.0.1:0")
	_, _, home := get(t, url)
	if !strings.Contains(home, "/-/changed.js") {
		t.Error("the page does not follow the manual")
	}
	if data, err := os.ReadFile(filepath.Join(edition, "index.html")); err != nil || strings.Contains(string(data), "/-/") {
		t.Errorf("the edition on disk follows too: %v", err)
	}
	heard := told(t, url)
	first := next(t, heard, notes, "the first edition", func(n news) bool { return n.Page != "" && n.Say == "" })

	addWax(t, folder, "Warm it.")
	second := next(t, heard, notes, "a new article", func(n news) bool { return n.Page != first.Page && n.Say == "" })
	if status, _, page := get(t, url+"soils/wax.html"); status != 200 || !strings.Contains(page, "Warm it.") {
		t.Errorf("the new article: status %d", status)
	}

	// A mistake: the page says so, where and what to do, and so does a line below every page; the edition in its folder stays as it was.
	addWax(t, folder, "Warm it. See [tar](tar.md).")
	n := next(t, heard, notes, "a broken link", func(n news) bool { return n.Say != "" })
	if n.Page == second.Page || !strings.Contains(n.Say, "stop") || !strings.Contains(n.Say, "wax.md:12:") {
		t.Errorf("told of the broken link: %+v", n)
	}
	if _, _, page := get(t, url+"soils/wax.html"); !strings.Contains(page, "See tar") || !strings.Contains(page, "<code>soils/wax.md:12:") || !strings.Contains(page, "In no edition.") {
		t.Errorf("the page does not say what is wrong with it:\n%s", page)
	}
	if data, err := os.ReadFile(filepath.Join(edition, "soils", "wax.html")); err != nil || !strings.Contains(string(data), "Warm it.") || strings.Contains(string(data), "tar") {
		t.Errorf("the edition before the mistake is not in place: %v", err)
	}
	if got := notes.String(); !strings.Contains(got, filepath.Join(folder, "soils", "wax.md")+":12:") || !strings.Contains(got, "broken-link") {
		t.Errorf("the terminal does not name the place:\n%s", got)
	}

	// Put right again.
	addWax(t, folder, "Warm it slowly.")
	next(t, heard, notes, "the correction", func(n news) bool { return n.Say == "" && n.Page != second.Page })
	if _, _, page := get(t, url+"soils/wax.html"); !strings.Contains(page, "Warm it slowly.") {
		t.Error("the correction is not in place")
	}
	wax := func() string {
		t.Helper()
		data, err := os.ReadFile(filepath.Join(edition, "soils", "wax.html"))
		if err != nil {
			t.Fatal(err)
		}
		return string(data)
	}
	if page := wax(); !strings.Contains(page, "Being written") {
		t.Error("the pages of a sitting do not say that they are being written")
	}
	if code := stop(); code != exitDone {
		t.Errorf("exit status %d\n%s", code, notes)
	}
	mark := regexp.MustCompile(`Code (.{11}), not entered: written whole\.`).FindStringSubmatch(notes.String())
	if mark == nil || strings.Count(notes.String(), "Code "+mark[1]+", not entered: ") < 2 { // once when it was saved
		t.Fatalf("the terminal does not tell the code:\n%s", notes)
	}
	if page := wax(); !strings.Contains(page, "Not entered · "+mark[1]) || strings.Contains(page, "Being written") {
		t.Error("the edition that a sitting leaves does not have its code on every page")
	}
}

// A manual that cannot be published yet is watched all the same.
func TestWatchFromFindings(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	addWax(t, folder, "See [tar](tar.md).")
	url, notes, stop := serving(t, "watch", folder, "--to", edition, "--at", "127.0.0.1:0")
	heard := told(t, url)
	mistake := next(t, heard, notes, "the mistake", func(n news) bool { return n.Say != "" && n.Page != "" })
	if status, _, page := get(t, url); status != 200 || !strings.Contains(page, "/-/changed.js") || !strings.Contains(page, "In no edition.") {
		t.Errorf("before the first edition: status %d, %s", status, page)
	}
	addWax(t, folder, "Warm it.")
	next(t, heard, notes, "the first edition", func(n news) bool { return n.Say == "" && n.Page != "" && n.Page != mistake.Page })
	if status, _, _ := get(t, url); status != 200 {
		t.Errorf("after the correction: status %d", status)
	}
	if code := stop(); code != exitDone {
		t.Errorf("exit status %d\n%s", code, notes)
	}
}

func TestInterview(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "content")
	// Every wrong answer is said to be one, and is asked for again.
	answers := []string{
		"", "Invented Shop", // a name is needed
		"imperial", "", // units
		"240", "240 m", // a unit is needed
		"", "15", "7.6", "", // of the water only the pH, which is not 15
		"back", "220 mg/L", "", // the alkalinity after all, then no conductivity
		"",                         // Wash 1, as proposed
		"120 kg", "32 gal", "120L", // a volume, in a gallon of one country
		"6 kW", "1.2 kW",
		"40", "37-45 kHz",
		"maybe", "yes",
		"Small tank", "28 L", "none", "500 W", "unknown",
		"",
		"yes", "", "90 L", "", "", "4 L/min", "", // a rinse
		"yes", "", "80 °C", "", // a dryer
		"back", "hot air", "perhaps", "yes", // shown, gone back from, written
	}
	c, out, notes := desk(strings.Join(answers, "\n") + "\n")
	c.asks = true
	if code := run(t.Context(), []string{"start", folder}, c); code != exitDone {
		t.Fatalf("exit status %d\n%s", code, notes)
	}
	for _, want := range []string{
		"Name of the shop: ", "This is needed.",
		"Units that stand first, SI or US [SI]: ", "Units are SI or US, not “imperial”.",
		"such as 240 m [0 m]: ", "“240”: the unit is missing; write a length",
		"Enter where you don't know it: ",
		"Name of the tank [Wash 1]: ", "“120 kg”: “kg” is a unit of mass; write a volume", "US or imperial measure? Write 32\u00a0US gal or 32\u00a0imp gal", "“40”: the unit is missing",
		"Is there another tank, yes or no? [no]: ", "Write yes or no.", "Wash 2: Name of the tank [Wash 2]: ",
		"pH of the water, such as 7.6", "This will be written; nobody has approved it:", "  volume: \"90 L\"", "Write this, yes or no, or back? [yes]: ", "Write yes, no or back.",
	} {
		if !strings.Contains(notes.String(), want) {
			t.Errorf("%q was not said:\n%s", want, notes)
		}
	}
	if !strings.Contains(out.String(), filepath.Join(folder, "shop.yaml")) || strings.Contains(out.String(), "Name of") {
		t.Errorf("the answer: %s", out)
	}
	shop, err := os.ReadFile(filepath.Join(folder, "shop.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`name: "Invented Shop"`, "units: SI", `altitude: "240 m"`, `name: "Wash 1"`, `volume: "120L"`, `frequency: "37-45 kHz"`, `alkalinity: "220 mg/L"`, `ph: "7.6"`, "# frequency: nobody knows it yet", "- id: rinse-1", `flow: "4 L/min"`, `kind: "hot air"`} {
		if !strings.Contains(string(shop), want) {
			t.Errorf("the shop file has no %s:\n%s", want, shop)
		}
	}
	if strings.Contains(string(shop), "hardness") {
		t.Error("the shop file has a hardness that nobody gave")
	}
	must(t, "proof", folder)
}

func TestInterviewEnds(t *testing.T) {
	t.Parallel()
	folder := filepath.Join(t.TempDir(), "content")
	c, _, notes := desk("Invented Shop\nSI\n")
	c.asks = true
	if code := run(t.Context(), []string{"start", folder}, c); code != exitUnusable || !strings.Contains(notes.String(), "nothing was written") {
		t.Errorf("answers that end: exit status %d\n%s", code, notes)
	}
	// An interrupt ends it though nobody has answered.
	c, _, notes = desk("")
	silent, open := io.Pipe()
	defer open.Close()
	c.in, c.asks = silent, true
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if code := run(ctx, []string{"start", folder}, c); code != exitUnusable || !strings.Contains(notes.String(), "Interrupted") {
		t.Errorf("an interrupt: exit status %d\n%s", code, notes)
	}
	if _, err := os.Stat(folder); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("something was written: %v", err)
	}
}

func TestInterruptedPublication(t *testing.T) {
	t.Parallel()
	folder, edition := newManual(t)
	must(t, "publish", folder, "--to", edition)
	addWax(t, folder, "Warm it.")
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	c, _, notes := desk("")
	if code := run(ctx, []string{"publish", folder, "--to", edition}, c); code != exitUnusable || !strings.Contains(notes.String(), "Interrupted") {
		t.Errorf("exit status %d\n%s", code, notes)
	}
	must(t, "verify", edition)
	if _, err := os.Stat(filepath.Join(edition, "soils", "wax.html")); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the interrupted edition is in place: %v", err)
	}
}

func TestFault(t *testing.T) {
	before := commands
	defer func() { commands = before }()
	commands = append(commands[:len(commands):len(commands)], command{name: "break", setUp: func(*options) action {
		return func(_ context.Context, _ *console, args []string) error {
			return errors.New(args[len(args)])
		}
	}})
	c, out, notes := desk("")
	if code := run(t.Context(), []string{"break"}, c); code != exitFault {
		t.Errorf("exit status %d", code)
	}
	got := notes.String()
	for _, want := range []string{"a fault of its own", "index out of range", "tankside/cmd/tankside.TestFault", ", line ", "Please report it", "tankside (devel)"} {
		if !strings.Contains(got, want) {
			t.Errorf("%q was not said:\n%s", want, got)
		}
	}
	if strings.Contains(got, "goroutine") || out.String() != "" {
		t.Errorf("a stack was printed:\n%s", got)
	}
}

// Whatever tank is accepted, of the new manual nothing is found but that nobody has approved it, and it can be published.
func TestStartOfAnyShop(t *testing.T) {
	t.Parallel()
	for _, tank := range []string{
		"Tiny, 0.2 L, 1 W, 1 W, 2 MHz",
		"Huge, 100 m³, 5 MW, 1 MW, 15 kHz",
		"Weak, 1000 L, 1 W, 1 W, 15 kHz",
		"Fierce, 0.2 L, 5 MW, 10 W, 400 kHz",
		"Cold: no heater, 120 L, none, 600 W, 132 kHz",
		"Bad “groß” \\ #1 {x} & <b>, 32 US gal, 2 hp, 1200 W, 40000 Hz",
	} {
		for _, units := range []string{"SI", "US"} {
			dir := t.TempDir()
			folder := filepath.Join(dir, "content")
			must(t, "start", folder, "--name", `"Shop" 'of' <b>all</b> sorts: {{.}} #1 \n`, "--units", units, "--tank", tank, "--altitude", "4000 m", "--hardness", "0 mg/L")
			must(t, "approve", "--in", folder, ".", "--by", "M. Weber", "--role", "process engineer")
			if got := must(t, "proof", folder); !strings.HasPrefix(got, "No findings") {
				t.Errorf("%s, %s:\n%s", tank, units, got)
			}
			must(t, "publish", folder, "--to", filepath.Join(dir, "edition"))
		}
	}
}
