package main

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"net/http"
	"os"
	"path/filepath"

	"tankside/builder"
	"tankside/builder/host"
	"tankside/builder/manual"
	author "tankside/cmd/tankside/desk"
)

// deskPort is where the desk is served where no other is free before it.
const deskPort = 7150

var deskCommand = command{
	name: deskName,
	args: "[MANUAL]",
	does: "all of it in the browser, for whoever has no terminal",
	more: `Serves a desk to this machine and opens it in the browser: begin a manual by questions, see what is wrong and where, open an article in the system's editor,
publish, print the book and the cards. Without arguments and without a terminal, as after a double click on the program, tankside does this by itself.

The address counts once: the browser that opens it is let in, and nothing else is. With --print the address is printed and no browser opened.`,
	setUp: func(o *options) action {
		to := o.text("to", "EDITION", "folder of the edition; without it “"+usualEdition+"” beside the manual's folder", "")
		only := o.yes("print", "print the address and open no browser")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err != nil {
				return err
			}
			return c.desk(ctx, folder, *to, !*only)
		}
	},
}

// clickedDesk serves a desk to whoever has opened the program by a double click, for the manual that lies where it was opened, or else one in the folder of that person.
func (c *console) clickedDesk(ctx context.Context) error {
	folder := usualManual
	if _, err := os.Stat(filepath.Join(folder, manual.ShopFile)); err != nil {
		if _, err := os.Stat(manual.ShopFile); err == nil {
			folder = "."
		} else if home, err := os.UserHomeDir(); err == nil {
			folder = filepath.Join(home, "Shop manual", usualManual)
		}
	}
	return c.desk(ctx, folder, "", true)
}

// desk serves a desk until it is closed.
func (c *console) desk(ctx context.Context, folder, to string, opens bool) error {
	at, err := filepath.Abs(folder)
	if err != nil {
		return err
	}
	if to == "" {
		to = filepath.Join(filepath.Dir(at), usualEdition)
	}
	if to, err = filepath.Abs(to); err != nil {
		return err
	}
	if err := apart(at, to); err != nil {
		return err
	}
	address, err := host.ParseAddress("", deskPort)
	if err != nil {
		return err
	}
	l, err := host.Listen(address)
	if err != nil {
		return err
	}
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	d := author.New(author.Options{
		Manual: at, Edition: to, Host: l.Addr().String(), Now: c.now, Open: openWithSystem, Begin: beginIn, Finish: c.finishRenaming,
		Carry: func(ctx context.Context, edition string) (string, error) { return c.carried(ctx, at, edition) },
		Stop:  stop,
	})
	if opens {
		if err := openWithSystem(d.Address()); err != nil {
			return errors.Join(err, l.Close())
		}
		c.note("The desk is open in your browser. It ends with its button “Close the desk”, or with Ctrl-C here.")
	} else {
		fmt.Fprintln(c.out, d.Address())
		c.note("Open this address in a browser of this machine; it counts once. The desk ends with its button, or with Ctrl-C here.")
	}
	return host.Serve(ctx, l, http.Handler(d.Handler()))
}

// carried publishes a manual and puts the edition into a file beside it, to be carried.
func (c *console) carried(ctx context.Context, folder, edition string) (string, error) {
	now, err := c.now()
	if err != nil {
		return "", err
	}
	to := edition + ".zip"
	if err := toCarry(to, folder, edition); err != nil {
		return "", err
	}
	_, err = builder.Publish(ctx, builder.Options{Manual: folder, To: edition, Now: now, Earlier: earlier(folder), Carry: to})
	return to, err
}

// beginIn writes the files of a new manual.
func beginIn(folder string, files map[string][]byte) error {
	if err := unused(folder); err != nil {
		return err
	}
	return writeManual(folder, maps.Clone(files))
}
