package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"tankside/builder"
	"tankside/builder/finding"
	"tankside/builder/host"
	"tankside/builder/manual"
	"tankside/builder/watch"
)

var watchCommand = command{
	name: "watch",
	args: "[MANUAL]",
	does: "publish on every change and serve the result to this machine",
	more: `Publishes the manual, and again whenever something in its folder changes, and serves the edition to this machine. Pages that are open in a
browser show the change by themselves. While findings stop publication, the edition before them stays in its folder, and pages show what can
be shown: each says that it is in no edition, and that of an article with findings says what they are, where, and what to do. While you write, the
pages say so in the place of a code, and the terminal tells the code; when you end it the edition is written once more, with its code on every
page. A text that you change needs one new revision and approval against the edition that was
there before; from then on you may change it again and again.`,
	setUp: func(o *options) action {
		to := o.text("to", "EDITION", "folder of the edition; without it “"+usualEdition+"”", usualEdition)
		at := o.text("at", "HOST:PORT", fmt.Sprintf("where to serve on this machine; without it 127.0.0.1:%d, or the next port that is free", watchPort), "")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			if err == nil {
				err = c.finishRenaming(folder)
			}
			if err == nil {
				err = apart(folder, *to)
			}
			if err != nil {
				return err
			}
			address, err := host.ParseAddress(*at, watchPort)
			if err != nil {
				return err
			}
			if !address.Loopback() {
				return fmt.Errorf("watch serves to this machine only, and %s is not on it; publish, and serve the edition with tankside host", address.Host)
			}
			debug.SetGCPercent(builder.GarbagePercent)
			return follow(ctx, c, folder, *to, address)
		}
	},
}

// follow publishes on every change and serves until ctx is done.
func follow(ctx context.Context, c *console, folder, to string, address host.Address) error {
	w, err := watch.Open(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no folder %q; name the folder that holds %s, or make a manual with tankside start", folder, manual.ShopFile)
	}
	if err != nil {
		return err
	}
	l, err := host.Listen(address)
	if err != nil {
		return errors.Join(err, w.Close())
	}
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	changes := host.NewChanges()
	served := make(chan error, 1)
	go func() {
		err := host.Serve(ctx, l, host.New(to, host.Options{Loopback: true, Changes: changes}))
		cancel(err)
		served <- err
	}()
	s := builder.NewSitting()
	if err := c.publishAgain(ctx, s, changes, folder, to, nil); err != nil && !errors.Is(err, builder.ErrStopped) {
		cancel(nil)
		return errors.Join(err, <-served, w.Close(), s.Close())
	}
	fmt.Fprintln(c.out, host.URL(l))
	c.note("Watching %s until you press Ctrl-C.", quoted(folder))
	err = w.Run(ctx, watch.Quiet, func(ctx context.Context, paths []string) {
		// Whatever is wrong has been told, and may be put right by the next change.
		_ = c.publishAgain(ctx, s, changes, folder, to, paths)
	})
	cancel(err)
	if err = errors.Join(err, <-served, w.Close(), s.Close()); err != nil {
		return err
	}
	return c.publishWhole(context.WithoutCancel(ctx), folder, to)
}

// publishWhole writes the edition that a sitting has left with its code on every page. Where findings keep it from that, the one of the sitting stays, which
// says that it is being written.
func (c *console) publishWhole(ctx context.Context, folder, to string) error {
	now, err := c.now()
	if err != nil {
		return err
	}
	r, err := builder.Publish(ctx, builder.Options{Manual: folder, To: to, Now: now, Progress: c.tell, Earlier: earlier(folder)})
	c.endProgress()
	if errors.Is(err, builder.ErrStopped) {
		c.note("The pages of the edition in place say that it is being written: publish when the findings are put right.")
		return nil
	}
	if err == nil {
		c.note("%s: written whole.", r.Mark)
	}
	return err
}

// publishAgain publishes the next edition of a sitting and says how it went, here and in the open pages.
func (c *console) publishAgain(ctx context.Context, s *builder.Sitting, changes *host.Changes, folder, to string, changed []string) error {
	now, err := c.now()
	var r builder.Report
	var preview map[string][]byte
	begin := time.Now()
	if err == nil {
		o := builder.Options{Manual: folder, To: to, Now: now, Progress: c.tell, Sitting: s, Draft: true, Changed: changed, Ready: changes.Show, Earlier: earlier(folder),
			Preview: func(files map[string][]byte) { preview = files }}
		if slices.Contains(changed, watch.Everything) {
			o.Changed = nil
		}
		r, err = builder.Publish(ctx, o)
	}
	seconds := time.Since(begin).Seconds()
	c.endProgress()
	what := ""
	if len(changed) > 0 && changed[0] != watch.Everything {
		what = ", after a change of " + some(changed)
	}
	switch {
	case ctx.Err() != nil:
	case errors.Is(err, builder.ErrStopped):
		writeFindings(c.err, folder, r.Findings, func(s string) string { return s })
		if preview != nil {
			c.note("Nothing was published%s; the edition before stays in its folder until they are put right. What can be shown is shown here.", what)
			changes.Instead(preview, closing(r.Findings)+" "+firstOf(folder, r.Findings))
			break
		}
		c.note("Nothing was published%s; the edition before stays until they are put right.", what)
		if err != builder.ErrStopped {
			c.note("%s", sentence(err))
		}
		changes.Tell(closing(r.Findings) + " This is the edition before them. " + firstOf(folder, r.Findings))
	case err != nil && changed == nil: // the first time; the command ends with it
	case err != nil:
		c.note("Nothing was published%s. %s", what, sentence(err))
		changes.Tell("The manual cannot be published. " + sentence(err))
	default:
		c.note("%s: %s in %.1f s%s.%s", r.Mark, count(r.Pages, "page", "pages"), seconds, what, untidy(r.Findings))
		if changed == nil || len(r.Told.Aside)+len(r.Told.Left) > 0 {
			c.tellKept(r.Told)
		}
		changes.Tell("")
	}
	return err
}

// firstOf says the first finding that stops publication, where it is and what to do.
func firstOf(folder string, list []finding.Finding) string {
	for _, s := range finding.Severities {
		for _, f := range list {
			if f.Severity == s && f.Stops() {
				return fmt.Sprintf("%s: %s %s", within(folder, f.Place), f.Message, f.Remedy)
			}
		}
	}
	return ""
}

// untidy mentions findings that do not stop publication.
func untidy(list []finding.Finding) string {
	if len(list) == 0 {
		return ""
	}
	return " " + closing(list) + " See tankside proof."
}

// some names a few of many paths.
func some(paths []string) string {
	paths = slices.Clone(paths)
	for i := range paths {
		paths[i] = shown(paths[i])
	}
	const most = 3
	if len(paths) <= most {
		return strings.Join(paths, ", ")
	}
	return fmt.Sprintf("%s and %d more", strings.Join(paths[:most], ", "), len(paths)-most)
}
