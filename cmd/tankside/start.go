package main

import (
	"bufio"
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

	"tankside/builder/quantity"
	"tankside/cmd/tankside/starter"
)

var startCommand = command{
	name: "start",
	args: "DIR",
	does: "a new manual for a shop, by question and answer",
	more: `Makes a new manual in the folder DIR: the shop file from your answers, and a few short articles to go on from. The folder must be empty
or not there yet. What an option gives is not asked; where nobody can be asked, --name and --tank are needed.

  tankside start content --name "Harbour Rebuild" --tank "Wash 1, 120 L, 6 kW, 1.2 kW, 40 kHz"`,
	setUp: func(o *options) action {
		given := make(map[string]*string)
		for _, f := range []struct{ name, value, means string }{
			{"name", "NAME", "name of the shop"},
			{"units", "SI|US", "units that stand first; without it SI"},
			{"altitude", "HEIGHT", "height of the shop above the sea, such as “240 m”; without it 0 m"},
			{"hardness", "HARDNESS", "hardness of the water, such as “260 mg/L”"},
		} {
			given[f.name] = o.text(f.name, f.value, f.means, "")
		}
		tanks := o.texts("tank", "TANK", "a tank: name, volume, heater or none, ultrasonic power, frequency, with commas between; once for each tank")
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
			shop, err := newInterview(c, given, *tanks).shop(ctx)
			if err != nil {
				return err
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			files, err := shop.Files(now)
			if err != nil {
				return err
			}
			if err := writeManual(folder, files); err != nil {
				return err
			}
			for _, name := range slices.Sorted(maps.Keys(files)) {
				fmt.Fprintln(c.out, filepath.Join(folder, filepath.FromSlash(name)))
			}
			c.note("\nThe manual is in %[1]s. Its articles are a beginning: put in what your suppliers' data sheets say before anybody works by them.\n"+
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

// interview gets what a new manual has to know from options and, where somebody can be asked, from answers.
type interview struct {
	c     *console
	lines *bufio.Reader
	given map[string]*string
	tanks []string
}

func newInterview(c *console, given map[string]*string, tanks []string) *interview {
	return &interview{c: c, lines: bufio.NewReader(io.LimitReader(c.in, 1<<20)), given: given, tanks: tanks}
}

func (i *interview) shop(ctx context.Context) (starter.Shop, error) {
	var s starter.Shop
	asks := i.c.asks && (*i.given["name"] == "" || len(i.tanks) == 0)
	if !asks {
		if err := i.enough(); err != nil {
			return s, err
		}
	}
	for _, f := range starter.ShopFields {
		text := *i.given[f.Name]
		if text != "" || !asks {
			if text == "" {
				text = f.Usual(s.System())
			}
			if text != "" {
				if err := f.Set(&s, text, s.System()); err != nil {
					return s, fmt.Errorf("--%s: %w", f.Name, err)
				}
			}
			continue
		}
		if err := put(ctx, i, f, &s, s.System(), f.Usual(s.System())); err != nil {
			return s, err
		}
	}
	for _, text := range i.tanks {
		t, err := tankOf(text, s.System())
		if err != nil {
			return s, fmt.Errorf("--tank %q: %w", text, err)
		}
		s.Tanks = append(s.Tanks, t)
	}
	if len(i.tanks) > 0 {
		return s, nil
	}
	for more := true; more; {
		var t starter.Tank
		for n, f := range starter.TankFields {
			usual := f.Usual(s.System())
			if n == 0 {
				usual = fmt.Sprintf("Wash %d", len(s.Tanks)+1)
			}
			if err := put(ctx, i, f, &t, s.System(), usual); err != nil {
				return s, err
			}
		}
		s.Tanks = append(s.Tanks, t)
		var err error
		if more, err = i.another(ctx); err != nil {
			return s, err
		}
	}
	return s, nil
}

// enough says which options are missing where nobody can be asked.
func (i *interview) enough() error {
	var missing []string
	if *i.given["name"] == "" {
		missing = append(missing, "--name NAME")
	}
	if len(i.tanks) == 0 {
		missing = append(missing, `--tank "NAME, VOLUME, HEATER, ULTRASONIC POWER, FREQUENCY"`)
	}
	if len(missing) > 0 {
		return fmt.Errorf("nobody can be asked here, so these are needed: %s; for example --tank \"Wash 1, 120 L, 6 kW, 1.2 kW, 40 kHz\"", strings.Join(missing, " and "))
	}
	return nil
}

// tankOf reads the value of --tank.
func tankOf(text string, system quantity.System) (starter.Tank, error) {
	var t starter.Tank
	parts := strings.Split(text, ",")
	if len(parts) != len(starter.TankFields) {
		return t, fmt.Errorf("a tank is written in five parts with commas between, name, volume, heater or none, ultrasonic power, frequency, and here are %d", len(parts))
	}
	for n, f := range starter.TankFields {
		if err := f.Set(&t, strings.TrimSpace(parts[n]), system); err != nil {
			return t, fmt.Errorf("%s: %w", f.Name, err)
		}
	}
	return t, nil
}

// put asks for a field until the answer is one.
func put[T any](ctx context.Context, i *interview, f starter.Field[T], to *T, system quantity.System, usual string) error {
	question := f.Ask(system)
	switch {
	case usual != "":
		question += " [" + usual + "]"
	case f.Empty:
		question += "; Enter where you don't know it"
	}
	for {
		answer, err := i.ask(ctx, question)
		if err != nil {
			return err
		}
		if answer == "" {
			answer = usual
		}
		if answer == "" && f.Empty {
			return nil
		}
		if answer == "" {
			fmt.Fprintln(i.c.err, "  This is needed.")
			continue
		}
		if err := f.Set(to, answer, system); err != nil {
			fmt.Fprintf(i.c.err, "  %s\n", sentence(err))
			continue
		}
		return nil
	}
}

// another asks whether there is one more tank.
func (i *interview) another(ctx context.Context) (bool, error) {
	for {
		answer, err := i.ask(ctx, "Is there another tank, yes or no? [no]")
		if err != nil {
			return false, err
		}
		switch strings.ToLower(answer) {
		case "", "n", "no":
			return false, nil
		case "y", "yes":
			return true, nil
		}
		fmt.Fprintln(i.c.err, "  Write yes or no.")
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
