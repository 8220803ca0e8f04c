//go:build unix

package main

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"tankside/builder/edition"
	"tankside/builder/ledger"
	"tankside/builder/record"
)

// The ordeal: programs are killed (SIGKILL) at random moments while they write, and what is on the disk then has to be whole. make ordeal does it 500 times;
// the ordinary tests do a few of each. The seed draws moments and texts; when the kernel lets a program run nobody draws.

// Environment of the ordeal.
const (
	ordealEnv = "TANKSIDE_ORDEAL" // how many times something is killed
	seedEnv   = "TANKSIDE_SEED"
)

// ordeal is one of its parts.
type ordeal struct {
	t     *testing.T
	draw  *rand.Rand
	kills int
	until time.Time // after which nothing more is begun
	done  int       // kills
	grew  int       // of these while an edition was being written
	ended int       // came to their end before
	cpu   time.Duration
}

// ordealTakes bounds the ordeal, with what it takes to begin and to end: a machine that has other work kills less often then, and says so.
const ordealTakes = 8 * time.Minute

// more tells whether to go on, and counts.
func (o *ordeal) more() bool {
	if o.done == o.kills || time.Now().After(o.until) {
		return false
	}
	o.done++
	return true
}

func TestOrdeal(t *testing.T) {
	kills, asked := 14, false
	if text := os.Getenv(ordealEnv); text != "" {
		var err error
		if kills, err = strconv.Atoi(text); err != nil || kills < 20 {
			t.Fatalf("%s is %q, and has to be a number from 20 on", ordealEnv, text)
		}
		asked = true
	}
	seed := uint64(time.Now().UnixNano())
	if text := os.Getenv(seedEnv); text != "" {
		var err error
		if seed, err = strconv.ParseUint(text, 10, 64); err != nil {
			t.Fatalf("%s is %q, and has to be a whole number", seedEnv, text)
		}
	}
	t.Logf("seed %d", seed)
	if testing.Short() && !asked {
		t.Skip("programs are started and killed")
	}
	t.Parallel()
	host, publish, watch := 8, 3, 1
	if asked {
		host, publish, watch = kills*36/100, kills*30/100, kills*12/100
	}
	part := func(name string, number uint64, kills int, does func(*ordeal)) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			begin := time.Now()
			o := &ordeal{t: t, draw: rand.New(rand.NewPCG(seed, number)), kills: kills, until: begin.Add(ordealTakes)}
			does(o)
			t.Logf("killed at %d moments of %d in %.0f s, of which the programs had %.0f s of a processor; %d had ended before, and after %d lay what had been begun",
				o.done, kills, time.Since(begin).Seconds(), o.cpu.Seconds(), o.ended, o.grew)
			if o.done < kills {
				t.Logf("THE TIME WAS OVER: run it again where the machine has nothing else to do")
			}
		})
	}
	part("host", 1, host, (*ordeal).host)
	part("publish", 2, publish, (*ordeal).publish)
	part("enter", 3, kills-host-publish-watch, (*ordeal).enter)
	part("watch", 4, watch, (*ordeal).watch)
}

// program starts tankside as a process of its own.
func (o *ordeal) program(args ...string) (c *exec.Cmd, out io.Reader, notes *buffer) {
	o.t.Helper()
	c = exec.Command("tankside", args...)
	notes = new(buffer)
	c.Stderr = notes
	c.Env = append(os.Environ(), "SOURCE_DATE_EPOCH="+today)
	out, err := c.StdoutPipe()
	if err == nil {
		err = c.Start()
	}
	if err != nil {
		o.t.Fatal(err)
	}
	return c, out, notes
}

// duration is how long a publication takes, as far as it is known: the machine may have other work, now more and now less.
type duration struct{ takes time.Duration }

// saw learns from a publication whether it had ended after a time.
func (s *duration) saw(after time.Duration, ended bool) {
	switch {
	case !ended && after >= s.takes:
		s.takes += s.takes / 5
	case ended && after < s.takes:
		s.takes -= (s.takes - after) / 2
	}
}

// kill ends a process at once, if it has not ended by itself.
func (o *ordeal) kill(c *exec.Cmd) (ended bool) {
	o.t.Helper()
	defer func() { o.cpu += c.ProcessState.SystemTime() + c.ProcessState.UserTime() }()
	if err := c.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
		o.t.Fatal(err)
	}
	var exit *exec.ExitError
	err := c.Wait()
	if errors.As(err, &exit) {
		status, is := exit.Sys().(syscall.WaitStatus)
		if is && status.Signaled() {
			return false
		}
		if strings.Contains(fmt.Sprint(c.Stderr), "Another publication has put an edition in place") { // of two at once the second says so, and changes nothing
			return true
		}
		o.t.Fatalf("%v ended by itself: %v\n%s", c.Args, err, c.Stderr)
	}
	return err == nil
}

// upTo draws a time.
func (o *ordeal) upTo(most time.Duration) time.Duration {
	return time.Duration(o.draw.Int64N(int64(most) + 1))
}

// write changes what every page says of the shop, so that the next edition is another one on all of them.
func (o *ordeal) write(manual string, n int) {
	o.t.Helper()
	file := filepath.Join(manual, "shop.yaml")
	text, err := os.ReadFile(file)
	if err != nil {
		o.t.Fatal(err)
	}
	next := shopNote.ReplaceAllString(string(text), "") + fmt.Sprintf("\nnote: Changed %d times by now.\n", n)
	coming := filepath.Join(filepath.Dir(manual), "coming.yaml")
	if err := errors.Join(os.WriteFile(coming, []byte(next), 0o644), os.Rename(coming, file)); err != nil {
		o.t.Fatal(err)
	}
}

var shopNote = regexp.MustCompile(`(?m)^note:.*\n`)

// whole says that the edition in place is whole, and how many folders lie beside it.
func (o *ordeal) whole(dir string, most int) *edition.List {
	o.t.Helper()
	r, err := edition.Verify(context.Background(), os.DirFS(dir))
	if err != nil || !r.OK {
		o.t.Fatalf("the edition in place: %+v, %v", r, err)
	}
	l, err := edition.ReadList(os.DirFS(dir))
	if err != nil {
		o.t.Fatal(err)
	}
	entries, err := os.ReadDir(filepath.Dir(dir))
	if err != nil {
		o.t.Fatal(err)
	}
	var left []string
	for _, e := range entries {
		if strings.HasPrefix(e.Name(), "."+filepath.Base(dir)+".") && e.IsDir() || strings.HasPrefix(e.Name(), filepath.Base(dir)+"-kept") {
			left = append(left, e.Name())
		}
	}
	if len(left) > most {
		o.t.Fatalf("beside the edition lie %v", left)
	}
	if len(left) > 0 {
		o.grew++
	}
	return l
}

// quickDir is a folder in memory where there is one: what a killed program has written stays whether the disk has it or not, and a disk takes its time.
func (o *ordeal) quickDir() string {
	dir, err := os.MkdirTemp("/dev/shm", "tankside-ordeal-")
	if err != nil {
		return o.t.TempDir()
	}
	o.t.Cleanup(func() {
		if err := os.RemoveAll(dir); err != nil {
			o.t.Error(err)
		}
	})
	return dir
}

// starter makes a manual of a few articles and publishes it, twice, in a program of its own as those that are killed. It says how long that takes.
func (o *ordeal) starter() (manual, dir string, s *duration) {
	o.t.Helper()
	manual, dir = newManualIn(o.t, o.quickDir())
	if err := plainLook(manual); err != nil {
		o.t.Fatal(err)
	}
	s = &duration{}
	for range 2 {
		begin := time.Now()
		c, out, notes := o.program("publish", manual, "--to", dir)
		if _, err := io.Copy(io.Discard, out); err != nil {
			o.t.Fatal(err)
		}
		if err := c.Wait(); err != nil {
			o.t.Fatalf("%v\n%s", err, notes)
		}
		s.takes = time.Since(begin)
	}
	return manual, dir, s
}

// strike kills a publication at a moment, which is drawn over all that it does and a tenth more, so that some come to their end.
func (o *ordeal) strike(c *exec.Cmd, s *duration) {
	o.t.Helper()
	after := o.upTo(s.takes + s.takes/10)
	time.Sleep(after)
	ended := o.kill(c)
	if ended {
		o.ended++
	}
	s.saw(after, ended)
}

// publish is killed, now and then two at once; the edition in place is the old one or the new one, and what is left lies there once.
func (o *ordeal) publish() {
	manual, dir, span := o.starter()
	known := map[string]bool{o.whole(dir, 0).Digest: true}
	for n := 0; o.more(); n++ {
		o.write(manual, n)
		one, out, _ := o.program("publish", manual, "--to", dir)
		go io.Copy(io.Discard, out)
		var two *exec.Cmd
		if n%4 == 3 {
			two, out, _ = o.program("publish", manual, "--to", dir)
			go io.Copy(io.Discard, out)
		}
		o.strike(one, span)
		if two != nil {
			time.Sleep(o.upTo(span.takes / 4))
			o.kill(two)
		}
		known[o.whole(dir, 1).Digest] = true
	}
	must(o.t, "publish", manual, "--to", dir)
	o.whole(dir, 0)
	o.t.Logf("%d editions were seen whole", len(known))
}

// enter enters editions in a ledger: no entry is lost or torn, and no number comes twice.
func (o *ordeal) enter() {
	manual, dir, span := o.starter()
	file := filepath.Join(manual, ledger.File)
	var before []ledger.Entry
	for n := 0; o.more(); n++ {
		o.write(manual, n)
		c, out, _ := o.program("publish", manual, "--to", dir, "--enter", "--by", "a trainer")
		go io.Copy(io.Discard, out)
		o.strike(c, span)
		o.whole(dir, 1)
		text, err := os.ReadFile(file)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err != nil {
			o.t.Fatal(err)
		}
		l, faults := ledger.Parse(text)
		now := l.Entries()
		if len(faults) > 0 || len(now) < len(before) || len(now) > len(before)+1 {
			o.t.Fatalf("%+v; %d entries, before %d\n%s", faults, len(now), len(before), text)
		}
		for i, e := range now {
			if e.Number != i+1 || i < len(before) && e.String() != before[i].String() {
				o.t.Fatalf("entry %d is %s", i+1, e)
			}
		}
		before = now
	}
	must(o.t, "publish", manual, "--to", dir, "--enter", "--by", "a trainer")
	if l := o.whole(dir, 0); l.Edition != len(before) && l.Edition != len(before)+1 {
		o.t.Errorf("the last edition is number %d after %d entries", l.Edition, len(before))
	}
	o.t.Logf("%d entries", len(before))
}

// watch is killed while somebody writes.
func (o *ordeal) watch() {
	manual, dir, span := o.starter()
	for n := 0; o.more(); n++ {
		c, out, _ := o.program("watch", manual, "--to", dir, "--at", "127.0.0.1:0")
		go io.Copy(io.Discard, out)
		until := time.Now().Add(o.upTo(span.takes * 2))
		for i := 0; time.Now().Before(until); i++ {
			o.write(manual, 1000*n+i)
			time.Sleep(min(time.Until(until), 20*time.Millisecond+o.upTo(200*time.Millisecond)))
		}
		o.kill(c)
		o.whole(dir, 2) // one that grows, and one that lies ready for the next
	}
	must(o.t, "publish", manual, "--to", dir)
	o.whole(dir, 0)
}

// writer is a device that sends rows.
type writer struct {
	key    string
	name   string
	n      int
	unsent []string // rows that no answer has come for
	kept   []string // ids
}

// send sends rows until the host is gone.
func (w *writer) send(draw *rand.Rand, url, tank string) {
	for {
		for range 1 + draw.IntN(4) {
			w.n++
			w.unsent = append(w.unsent, fmt.Sprintf("2026-09-%02dT06:10,%d.%d,\"note %d, of %s\",%s-%d\n", 1+w.n%20, 55+w.n%9, w.n%10, w.n, w.name, w.name, w.n))
		}
		kept, ok := w.post(url, tank)
		if !ok {
			return
		}
		w.kept = append(w.kept, kept...)
		w.unsent = nil
	}
}

// post sends what has not been answered yet.
func (w *writer) post(url, tank string) (kept []string, ok bool) {
	r, err := http.NewRequest("POST", url+"records/"+tank, strings.NewReader("when,temperature (°C),note,id\n"+strings.Join(w.unsent, "")))
	if err != nil {
		return nil, false
	}
	r.Header.Set("Content-Type", "text/csv")
	r.Header.Set("Authorization", "Bearer "+w.key)
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		return nil, false
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	var told struct {
		Kept    []string
		Refused []struct{ ID, Why string }
	}
	if answer.StatusCode != http.StatusOK || err != nil || json.Unmarshal(data, &told) != nil || len(told.Refused) > 0 {
		return nil, false
	}
	return told.Kept, len(told.Kept) == len(w.unsent)
}

// serve starts a host that takes readings.
func (o *ordeal) serve(dir, manual, folder string) (c *exec.Cmd, url string, notes *buffer) {
	o.t.Helper()
	c, out, notes := o.program("host", dir, "--records", folder, "--manual", manual, "--at", "127.0.0.1:0")
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		o.kill(c)
		o.t.Fatalf("%v\n%s", err, notes)
	}
	return c, strings.TrimSpace(line), notes
}

// shownCode is a code on the host's screen.
var shownCode = regexp.MustCompile(`(?m)\d{4} \d{4}$`)

// pair pairs a device, as somebody does who reads the host's screen.
func (o *ordeal) pair(url string, notes *buffer, name string) string {
	o.t.Helper()
	ask := func(text string) string {
		answer, err := http.Post(url+"records/pair", "application/json", strings.NewReader(text))
		if err != nil {
			o.t.Fatal(err)
		}
		data, err := io.ReadAll(answer.Body)
		if err := errors.Join(err, answer.Body.Close()); err != nil || answer.StatusCode > 299 {
			o.t.Fatalf("%s: %d %s, %v", text, answer.StatusCode, data, err)
		}
		return string(data)
	}
	before := len(shownCode.FindAllString(notes.String(), -1))
	ask(fmt.Sprintf(`{"name":%q}`, name))
	for until := time.Now().Add(deadline); ; time.Sleep(5 * time.Millisecond) {
		if codes := shownCode.FindAllString(notes.String(), -1); len(codes) > before {
			var told struct{ Key string }
			if err := json.Unmarshal([]byte(ask(fmt.Sprintf(`{"name":%q,"code":%q}`, name, codes[before]))), &told); err != nil {
				o.t.Fatal(err)
			}
			return told.Key
		}
		if time.Now().After(until) {
			o.t.Fatalf("no code is shown\n%s", notes)
		}
	}
}

// host is killed while several devices send: no row that was answered as kept is lost, none is there twice, and the record can be read by every part of the
// program at each moment.
func (o *ordeal) host() {
	manual, dir, _ := o.starter()
	folder := filepath.Join(filepath.Dir(manual), "shop-records")
	const tank = "wash-1"
	var writers []*writer
	c, url, notes := o.serve(dir, manual, folder)
	for i := range 4 {
		name := fmt.Sprint("device", i)
		writers = append(writers, &writer{name: name, key: o.pair(url, notes, name)})
	}
	for n := 0; o.more(); n++ {
		if n > 0 {
			c, url, _ = o.serve(dir, manual, folder)
		}
		var all sync.WaitGroup
		for _, w := range writers {
			draw := rand.New(rand.NewPCG(o.draw.Uint64(), 0))
			all.Go(func() { w.send(draw, url, tank) })
		}
		time.Sleep(5*time.Millisecond + o.upTo(250*time.Millisecond))
		if o.kill(c) {
			o.t.Fatal("the host ended by itself")
		}
		all.Wait()
		o.sound(filepath.Join(folder, tank+".csv"), writers, false)
	}
	c, url, _ = o.serve(dir, manual, folder)
	for _, w := range writers { // they catch up
		kept, ok := w.post(url, tank)
		if !ok && len(w.unsent) > 0 {
			o.t.Fatalf("%s cannot catch up", w.name)
		}
		w.kept = append(w.kept, kept...)
	}
	o.kill(c)
	rows := o.sound(filepath.Join(folder, tank+".csv"), writers, true)
	sent := 0
	for _, w := range writers {
		sent += w.n
	}
	if rows != sent {
		o.t.Errorf("%d rows of %d", rows, sent)
	}
	entries, err := os.ReadDir(folder)
	if err != nil || len(entries) != 4 { // record, devices, lock, and what was to be added
		o.t.Errorf("in the folder of records stand %v, %v", entries, err)
	}
	o.t.Logf("%d rows", rows)
}

// sound says that a record has every row that was answered as kept, and none twice. A row that was cut off by the kill is none yet, unless the host has been
// started again since.
func (o *ordeal) sound(file string, writers []*writer, started bool) int {
	o.t.Helper()
	data, err := os.ReadFile(file)
	if errors.Is(err, fs.ErrNotExist) {
		data, err = nil, nil
	}
	if err != nil {
		o.t.Fatal(err)
	}
	whole := data[:strings.LastIndexByte(string(data), '\n')+1]
	if started && len(whole) < len(data) {
		o.t.Fatalf("the last row is cut off: %q", data[len(whole):])
	}
	times := map[string]int{}
	rows := 0
	if len(whole) > 0 {
		r, found := record.Parse("records/wash-1.csv", whole)
		for _, f := range found {
			if f.Rule != "out-of-order" {
				o.t.Fatalf("%+v", f)
			}
		}
		for i := range r.Rows {
			times[r.Rows[i].ID]++
			rows++
		}
	}
	for id, n := range times {
		if n > 1 {
			o.t.Fatalf("row %s is there %d times", id, n)
		}
	}
	for _, w := range writers {
		for _, id := range w.kept {
			if times[id] != 1 {
				o.t.Fatalf("row %s was answered as kept and is there %d times", id, times[id])
			}
		}
	}
	return rows
}
