package main

import (
	"bufio"
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"tankside/builder/manual"
	"tankside/builder/quantity"
	"tankside/cmd/tankside/starter"
)

var startCommand = command{
	name: "start",
	args: "DIR",
	does: "a new manual for a shop, by question and answer",
	more: `Makes a new manual in the folder DIR: the shop file from your answers, and a few short articles to go on from. The folder must be empty
or not there yet. “back” goes back to the question before. What it will write is shown before anything is written, and nobody is said to have approved it.

What an option gives is not asked. Where nobody can be asked, a tank is needed, and what its type plate says is enough: amounts with commas between, named where
one could be taken for another; what is not there stays unknown. --answers takes a file in YAML with the answers: name, units, altitude, water with
hardness, ph, alkalinity and conductivity, and tanks, rinses and dryer, each with what is asked about it.

  tankside start content --name "Harbour Rebuild" --tank "Wash 1, 120 L, 6 kW, 1.2 kW, 40 kHz"
  tankside start content --tank "120 L, heating 6 kW, ultrasonics 1200 W, 37-45 kHz" --rinse "90 L, mains" --dryer "80 °C"
  tankside start content --answers answers.yaml`,
	setUp: func(o *options) action {
		given := make(map[string]*string)
		for _, f := range []struct{ name, value, means string }{
			{"name", "NAME", "name of the shop; without it “" + starter.Unnamed + "” where nobody can be asked"},
			{"units", "SI|US", "units that stand first; without it SI"},
			{"altitude", "HEIGHT", "height of the shop above the sea, such as “240 m”; without it 0 m"},
			{"hardness", "HARDNESS", "hardness of the water, such as “260 mg/L”"},
			{"ph", "PH", "pH of the water, such as “7.6”"},
			{"alkalinity", "ALKALINITY", "alkalinity of the water, as calcium carbonate, such as “220 mg/L”"},
			{"conductivity", "CONDUCTIVITY", "conductivity of the water, such as “640 µS/cm”"},
		} {
			given[f.name] = o.text(f.name, f.value, f.means, "")
		}
		tanks := o.texts("tank", "TANK", "a tank as its type plate tells it: name, volume, heater or none, ultrasonic power or none, frequency, with commas between; once for each tank")
		rinses := o.texts("rinse", "RINSE", "a rinse: name, volume, water, stages, flow, with commas between; once for each rinse")
		dryer := o.text("dryer", "DRYER", "the dryer: name, temperature, how it dries, with commas between", "")
		answers := o.text("answers", "FILE", "the answers in a file", "")
		try := o.yes("try", "say what would be written, and write nothing")
		return func(ctx context.Context, c *console, args []string) error {
			if len(args) == 0 {
				return errors.New("say in which folder the manual is to be made, for example: tankside start content")
			}
			folder, err := atMostOne(args, "")
			if err == nil {
				err = unused(folder)
			}
			if err != nil {
				return err
			}
			i := &interview{c: c, lines: bufio.NewReader(io.LimitReader(c.in, 1<<20)), given: map[string]string{}, folder: folder, parts: shopParts{*tanks, *rinses, *dryer}}
			for name, text := range given {
				i.given[name] = *text
			}
			if i.now, err = c.now(); err != nil {
				return err
			}
			shop, err := i.shop(ctx, *answers)
			if err != nil {
				return err
			}
			files, err := shop.Files(i.now)
			if err != nil {
				return err
			}
			if *try {
				i.tell(files)
				c.note("Nothing was written: --try says only what would be.")
				return nil
			}
			if err := writeManual(folder, files); err != nil {
				return err
			}
			for _, name := range slices.Sorted(maps.Keys(files)) {
				fmt.Fprintln(c.out, filepath.Join(folder, filepath.FromSlash(name)))
			}
			c.note("\nThe manual is in %[1]s. Its articles are a beginning: put in what your suppliers' data sheets say before anybody works by them.\n"+
				"Nobody has approved them.\n"+
				"  tankside proof %[1]s     what is wrong with it\n"+
				"  tankside watch %[1]s     see it in a browser while you write", quoted(folder))
			return nil
		}
	},
}

// unused refuses a folder that holds anything.
func unused(folder string) error {
	entries, err := os.ReadDir(folder)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return err
	case len(entries) > 0:
		return fmt.Errorf("the folder %q is not empty, and nothing in it is written over; name a new one", folder)
	}
	return nil
}

// writeManual writes the files into the folder. None is there before.
func writeManual(folder string, files map[string][]byte) (err error) {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, root.Close()) }()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		if err := root.MkdirAll(path.Dir(name), 0o755); err != nil {
			return err
		}
		f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err != nil {
			return err
		}
		_, err = f.Write(files[name])
		if err := errors.Join(err, f.Close()); err != nil {
			return err
		}
	}
	return nil
}

// shopParts are the parts of a line as options name them.
type shopParts struct {
	tanks, rinses []string
	dryer         string
}

// interview gets what a new manual has to know from options, a file and, where somebody can be asked, from answers.
type interview struct {
	c      *console
	lines  *bufio.Reader
	given  map[string]string
	parts  shopParts
	folder string
	now    time.Time
}

func (i *interview) shop(ctx context.Context, answers string) (starter.Shop, error) {
	if answers != "" {
		return i.fromFile(answers)
	}
	known, err := i.known()
	if err != nil {
		return known, err
	}
	if i.c.asks && (i.given["name"] == "" || len(known.Tanks) == 0) {
		return i.ofAnswers(ctx, known)
	}
	if len(known.Tanks) == 0 {
		return known, errors.New("nobody can be asked here, so a tank is needed, as its type plate tells it, for example --tank \"Wash 1, 120 L, 6 kW, 1.2 kW, 40 kHz\"; or a file of answers, --answers FILE")
	}
	system := known.System()
	for _, f := range starter.ShopFields {
		if text := cmp.Or(i.given[f.Name], f.Usual(system)); text != "" {
			if err := f.Set(&known, text, system); err != nil {
				return known, fmt.Errorf("--%s: %w", f.Name, err)
			}
		}
	}
	for _, f := range starter.WaterFields {
		if text := i.given[f.Name]; text != "" {
			if err := f.Set(&known.Water, text, system); err != nil {
				return known, fmt.Errorf("--%s: %w", f.Name, err)
			}
		}
	}
	return known, nil
}

// fromFile reads the answers from a file. Options beside it would contradict it.
func (i *interview) fromFile(file string) (starter.Shop, error) {
	for name, text := range i.given {
		if text != "" {
			return starter.Shop{}, fmt.Errorf("--answers has all answers in the file; --%s would be one beside it", name)
		}
	}
	if len(i.parts.tanks)+len(i.parts.rinses) > 0 || i.parts.dryer != "" {
		return starter.Shop{}, errors.New("--answers has all answers in the file; --tank, --rinse and --dryer would be some beside it")
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return starter.Shop{}, err
	}
	s, err := starter.Read(data)
	if err != nil {
		err = fmt.Errorf("%s: %w", file, err)
	}
	return s, err
}

// known is what the options say of tanks, rinses and dryer.
func (i *interview) known() (starter.Shop, error) {
	var s starter.Shop
	if units := i.given["units"]; units != "" {
		system, known := quantity.SystemNamed(units)
		if !known {
			return s, fmt.Errorf("--units: units are SI or US, not “%s”", units)
		}
		s.US = system == quantity.US
	}
	for n, text := range i.parts.tanks {
		t, err := starter.ReadTank(text, s.System())
		if err != nil {
			return s, fmt.Errorf("--tank %q: %w", text, err)
		}
		t.Name = cmp.Or(t.Name, fmt.Sprintf("Wash %d", n+1))
		s.Tanks = append(s.Tanks, t)
	}
	for n, text := range i.parts.rinses {
		r, err := starter.ReadRinse(text, s.System())
		if err != nil {
			return s, fmt.Errorf("--rinse %q: %w", text, err)
		}
		r.Name = cmp.Or(r.Name, fmt.Sprintf("Rinse %d", n+1))
		s.Rinses = append(s.Rinses, r)
	}
	if i.parts.dryer != "" {
		d, err := starter.ReadDryer(i.parts.dryer, s.System())
		if err != nil {
			return s, fmt.Errorf("--dryer %q: %w", i.parts.dryer, err)
		}
		s.Dryer = &d
	}
	return s, nil
}

// back goes to the question before.
const back = "back"

// ofAnswers asks question by question, until what would be written is wanted.
func (i *interview) ofAnswers(ctx context.Context, known starter.Shop) (starter.Shop, error) {
	i.c.note("“%s” goes back to the question before.", back)
	var answers []string
	for {
		shop, q, err := starter.Walk(known, i.given, answers)
		switch {
		case err != nil && q.Text == "": // of an option
			return shop, err
		case err != nil:
			i.c.note("  %s", sentence(err))
			answers = answers[:len(answers)-1]
		}
		text := ""
		if q != nil {
			text = worded(q)
		} else {
			files, err := shop.Files(i.now)
			if err != nil {
				return shop, err
			}
			i.tell(files)
			text = "Write this, yes or no, or back? [yes]"
		}
		answer, err := i.ask(ctx, text)
		switch low := strings.ToLower(answer); {
		case err != nil:
			return shop, err
		case low == back && len(answers) == 0:
			i.c.note("  This is the first question.")
		case low == back:
			answers = answers[:len(answers)-1]
		case q != nil:
			answers = append(answers, answer)
		case low == "" || low == "y" || low == "yes":
			return shop, nil
		case low == "n" || low == "no":
			return shop, errors.New("nothing was written, as you said")
		default:
			i.c.note("  Write yes, no or back.")
		}
	}
}

// worded is a question as it is asked in a terminal.
func worded(q *starter.Question) string {
	text := q.Text
	if q.Of != "" {
		text = q.Of + ": " + text
	}
	switch {
	case q.Usual != "":
		return text + " [" + q.Usual + "]"
	case q.Empty:
		return text + "; Enter where you don't know it"
	}
	return text
}

// tell says which files would be written, and what the shop file would say.
func (i *interview) tell(files map[string][]byte) {
	i.c.note("\nThis will be written; nobody has approved it:")
	for _, name := range slices.Sorted(maps.Keys(files)) {
		i.c.note("  %s", shown(filepath.Join(i.folder, filepath.FromSlash(name))))
	}
	i.c.note("\nThe shop file says:")
	for line := range strings.Lines(string(files[manual.ShopFile])) {
		if !strings.HasPrefix(strings.TrimSpace(line), "#") {
			i.c.note("  %s", shown(strings.TrimRight(line, "\n")))
		}
	}
}

// ask gives the next line. An interrupt ends it, though somebody may still be typing.
func (i *interview) ask(ctx context.Context, question string) (string, error) {
	fmt.Fprintf(i.c.err, "%s: ", question)
	type read struct {
		line string
		err  error
	}
	done := make(chan read, 1)
	go func() {
		line, err := i.lines.ReadString('\n')
		done <- read{strings.TrimSpace(line), err}
	}()
	select {
	case <-ctx.Done():
		fmt.Fprintln(i.c.err)
		return "", ctx.Err()
	case r := <-done:
		switch {
		case r.line != "" || r.err == nil:
			return r.line, nil
		case errors.Is(r.err, io.EOF):
			fmt.Fprintln(i.c.err)
			return "", errors.New("the answers ended before everything was known, so nothing was written")
		}
		return "", r.err
	}
}
