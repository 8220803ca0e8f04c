package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"

	"tankside/builder"
	"tankside/builder/edition"
	"tankside/builder/host"
	"tankside/builder/logbook"
	"tankside/builder/manual"
)

var devicesCommand = command{
	name: "devices",
	args: "FOLDER",
	does: "which devices may add readings; revokes one",
	more: `Lists the devices that have been paired with tankside host --records FOLDER. With --revoke the key of one is worth nothing from then on, at once, also
in a host that is running; what it has added stays. To let it in again, pair it anew.`,
	setUp: func(o *options) action {
		revoke := o.texts("revoke", "DEVICE", "name of a device whose key is to be worth nothing; may be given several times")
		asJSON := o.yes("json", "for programs: a list of name, paired, revoked")
		return func(_ context.Context, c *console, args []string) error {
			if len(args) != 1 || args[0] == "" {
				return errors.New("name the folder that tankside host --records takes readings into")
			}
			if _, err := os.Stat(args[0]); err != nil {
				return err
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			book, err := logbook.Open(args[0], nil)
			if err != nil {
				return err
			}
			for _, name := range *revoke {
				switch err := book.Revoke(name, now); {
				case errors.Is(err, logbook.ErrNoDevice):
					return fmt.Errorf("no paired device is called %q%s", name, didYouMean(name, namesOf(book)))
				case err != nil:
					return err
				}
				c.note("%s is revoked: its key is worth nothing from now on.", quoted(name))
			}
			list, err := book.Devices()
			if err != nil {
				return err
			}
			if *asJSON {
				return c.json(devicesJSON(list))
			}
			writeDevices(c, list)
			return nil
		}
	},
}

func namesOf(book *logbook.Book) []string {
	list, err := book.Devices()
	if err != nil {
		return nil // it was read a moment ago, and only a suggestion goes without
	}
	var names []string
	for _, d := range list {
		names = append(names, d.Name)
	}
	return names
}

// deviceAnswer is one device for programs.
type deviceAnswer struct {
	Name    string `json:"name"`
	Paired  string `json:"paired"`
	Revoked string `json:"revoked,omitempty"`
}

func devicesJSON(list []logbook.Device) []deviceAnswer {
	answers := []deviceAnswer{}
	for _, d := range list {
		answers = append(answers, deviceAnswer{d.Name, d.Paired, d.Revoked})
	}
	return answers
}

func writeDevices(c *console, list []logbook.Device) {
	if len(list) == 0 {
		fmt.Fprintln(c.out, "No device has been paired.")
	}
	for _, d := range list {
		text := shown(d.Name) + ", paired " + d.Paired
		if d.Revoked != "" {
			text += ", revoked " + d.Revoked
		}
		fmt.Fprintln(c.out, text)
	}
}

// manualBeside is the manual with which readings are charted: the one that is named, the one that the folder of records lies in, or the usual one.
func manualBeside(records, named string) string {
	if named != "" {
		return named
	}
	at, err := filepath.Abs(records)
	if err == nil && filepath.Base(at) == manual.RecordFolder {
		if _, err := os.Stat(filepath.Join(filepath.Dir(at), manual.ShopFile)); err == nil {
			return filepath.Dir(at)
		}
	}
	return usualManual
}

// records makes a host ready to take readings.
func (c *console) records(ctx context.Context, folder, manualFolder, editionFolder string, list *edition.List) (*host.Records, error) {
	if _, err := c.now(); err != nil {
		return nil, err
	}
	tanks, err := builder.TanksOf(ctx, manualFolder, list)
	if err != nil {
		return nil, fmt.Errorf("%w; with --manual name the manual of the edition, which says what tanks there are", err)
	}
	if len(tanks) == 0 {
		return nil, fmt.Errorf("the edition in %q has no tank of the manual in %q", editionFolder, manualFolder)
	}
	book, err := logbook.Open(folder, tanks)
	if err != nil {
		return nil, err
	}
	pairing := logbook.NewPairing(book, time.Now, func(name, from, code string, holds time.Duration) {
		c.note("The device %s at %s asks to be paired. Type this code into it within %d minutes, if you know it: %s", quoted(name), from, int(holds.Minutes()), code)
	})
	live := builder.NewLive(manualFolder, editionFolder, book, c.now, func(text string) { c.note("%s", text) })
	go live.Page(ctx, "records/") // the first reader need not wait
	c.note("Taking readings of paired devices into %s. To pair one, open the page of a tank on it.", quoted(folder))
	today := func() time.Time {
		now, err := c.now()
		if err != nil {
			return time.Now() // it was read when the host was started, and an environment stays
		}
		return now
	}
	return host.NewRecords(book, pairing, live, time.Now, today), nil
}
