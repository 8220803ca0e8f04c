package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"strings"
	"time"

	"tankside/builder/carry"
	"tankside/builder/edition"
	"tankside/builder/host"
)

// Ports where none is named. They differ, so that what a browser keeps of a hosted edition does not stand in for the one being written.
const (
	hostPort  = 7130
	watchPort = 7140
)

var hostCommand = command{
	name: "host",
	args: "[EDITION|FILE.zip]",
	does: "serve an edition",
	more: `Serves an edition over HTTP until it is interrupted, to this machine only unless another host is named. An edition that is published
meanwhile is served at once. An edition that is carried as one file, by tankside publish --carry, is served as it is.

With --records readings are taken from devices of the shop's network and added to FOLDER/TANK.csv; everybody sees the same charts, made of what is there. A
device is paired on the page of a tank: it asks, a code is shown here, and whoever stands here types it there. Nobody else can add a reading, and nothing
else can be written; tankside devices lists them and revokes one. Devices reach this machine by an address that --at names, such as 0.0.0.0:7130 for all
that it has.

With --certificate and --key the connection is encrypted (TLS 1.2 or newer), which tablets and phones ask for before they keep the manual for use without a
network. builder/servers/SERVERS.md tells how a shop makes a certificate that its own devices trust. One that is renewed is taken while the host runs.
Without it whoever is in the same network can read along, and change what is read.`,
	setUp: func(o *options) action {
		records := o.text("records", "FOLDER", "take readings of paired devices, into this folder", "")
		from := o.text("manual", "MANUAL", "with --records: the manual of the edition, which says what a chart shows; without it the one that FOLDER lies in, or “"+usualManual+"”", "")
		at := o.text("at", "HOST:PORT", fmt.Sprintf("where to serve; without it 127.0.0.1:%d, or the next port that is free", hostPort), "")
		certificate := o.text("certificate", "FILE", "encrypt the connection with this certificate, in PEM, those between it and its authority behind it", "")
		key := o.text("key", "FILE", "the key of the certificate, in PEM", "")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualEdition)
			if err != nil {
				return err
			}
			address, err := host.ParseAddress(*at, hostPort)
			if err != nil {
				return err
			}
			secured, err := c.certificate(*certificate, *key, address)
			if err != nil {
				return err
			}
			list, err := hostedList(folder)
			if err != nil {
				return noEdition(folder, err)
			}
			options := host.Options{Loopback: address.Loopback()}
			if *records != "" && carry.IsArchive(folder) {
				return fmt.Errorf("with --records charts are made anew beside the edition, which %s has no room for: unpack it, and host the folder", shown(folder))
			}
			if *records != "" {
				if options.Records, err = c.records(ctx, *records, manualBeside(*records, *from), folder, list); err != nil {
					return err
				}
			} else if *from != "" {
				return errors.New("--manual goes with --records")
			}
			l, err := host.Listen(address)
			if err != nil {
				return err
			}
			url := host.URL(l)
			if secured != nil {
				url = secured.URL(address, l)
				l = secured.Secure(l)
			}
			c.noteReach(address, l, secured)
			fmt.Fprintln(c.out, url)
			c.note("Serving %s until you press Ctrl-C.", quoted(folder))
			return host.Serve(ctx, l, host.New(folder, options))
		}
	},
}

// certificate reads what a host encrypts with, or gives nothing where the connection is not to be encrypted.
func (c *console) certificate(file, key string, at host.Address) (*host.Certificate, error) {
	if file == "" && key == "" {
		return nil, nil
	}
	if file == "" || key == "" {
		return nil, errors.New("--certificate and --key go together: the one is shown to everybody, the other proves that it is yours")
	}
	got, err := host.ReadCertificate(file, key, time.Now)
	if err != nil {
		return nil, err
	}
	return got, got.CheckName(at)
}

// noteReach says who can read the manual, and who cannot though they might try.
func (c *console) noteReach(at host.Address, l net.Listener, secured *host.Certificate) {
	if secured == nil {
		if !at.Loopback() {
			c.note("Everybody who reaches %s can read this manual, over a connection that is not encrypted. Offline use on other devices needs --certificate and --key, or a web server with HTTPS.", l.Addr())
		}
		return
	}
	if !at.Loopback() {
		c.note("Everybody who reaches %s can read this manual, over an encrypted connection.", l.Addr())
	}
	if !secured.Fits(at.Host) {
		c.note("The certificate is for %s; under any other name or address browsers refuse it.", strings.Join(secured.Names(), ", "))
	}
	for _, doubt := range secured.Doubts() {
		c.note("%s", doubt)
	}
}

// hostedList is the list of the edition in a folder or in a file.
func hostedList(at string) (*edition.List, error) {
	if !carry.IsArchive(at) {
		return edition.ReadList(os.DirFS(at))
	}
	a, err := carry.Open(at)
	if err != nil {
		return nil, err
	}
	return a.List(), a.Close()
}
