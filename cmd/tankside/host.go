package main

import (
	"context"
	"fmt"
	"os"

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
	args: "[EDITION]",
	does: "serve an edition",
	more: `Serves an edition over HTTP until it is interrupted, to this machine only unless another host is named. An edition that is published
meanwhile is served at once.`,
	setUp: func(o *options) action {
		at := o.text("at", "HOST:PORT", fmt.Sprintf("where to serve; without it 127.0.0.1:%d, or the next port that is free", hostPort), "")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualEdition)
			if err != nil {
				return err
			}
			address, err := host.ParseAddress(*at, hostPort)
			if err != nil {
				return err
			}
			if _, err := edition.ReadList(os.DirFS(folder)); err != nil {
				return noEdition(folder, err)
			}
			l, err := host.Listen(address)
			if err != nil {
				return err
			}
			if !address.Loopback() {
				c.note("Everybody who reaches %s can read this manual, over a connection that is not encrypted. Offline use on other devices needs a web server with HTTPS.", l.Addr())
			}
			fmt.Fprintln(c.out, host.URL(l))
			c.note("Serving %s until you press Ctrl-C.", quoted(folder))
			return host.Serve(ctx, l, host.New(folder, host.Options{Loopback: address.Loopback()}))
		}
	},
}
