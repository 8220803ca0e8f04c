// Package checkout asks git about a manual that lies in one of its checkouts. It is the program git itself that answers; without it, and outside of a
// checkout, there is nothing to ask.
//
// Nothing in the checkout is changed. Programs that its settings would have git start to watch files are not started.
package checkout

import (
	"archive/zip"
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

// Checkout is a folder in a checkout of git.
type Checkout struct{ folder string }

// Of gives the checkout in which a folder lies, or nil where it lies in none, or git is not there.
func Of(ctx context.Context, folder string) (*Checkout, error) {
	if _, err := exec.LookPath("git"); err != nil {
		return nil, nil // without git there is no checkout to ask
	}
	at, err := filepath.Abs(folder)
	if err != nil {
		return nil, err
	}
	c := &Checkout{at}
	inside, err := c.ask(ctx, nil, "rev-parse", "--is-inside-work-tree")
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil || strings.TrimSpace(string(inside)) != "true" {
		return nil, nil //nolint:nilerr // git says so by failing
	}
	return c, nil
}

// ask has git answer in the folder.
func (c *Checkout) ask(ctx context.Context, stdin io.Reader, args ...string) ([]byte, error) {
	cmd := exec.CommandContext(ctx, "git", append([]string{"-C", c.folder, "-c", "core.fsmonitor=false", "-c", "core.quotePath=false", "--no-optional-locks", "--literal-pathspecs"}, args...)...)
	var said bytes.Buffer
	cmd.Stdin, cmd.Stderr = stdin, &said
	out, err := cmd.Output()
	if err != nil {
		problem := strings.TrimSpace(said.String())
		if first, _, more := strings.Cut(problem, "\n"); more {
			problem = first
		}
		if problem == "" {
			problem = err.Error()
		}
		return nil, fmt.Errorf("git says: %s", strings.TrimPrefix(problem, "fatal: "))
	}
	return out, nil
}

// ErrNoRevision says that a name is no revision of the checkout.
var ErrNoRevision = errors.New("no such revision")

// Resolve gives the full name of a revision.
func (c *Checkout) Resolve(ctx context.Context, name string) (string, error) {
	out, err := c.ask(ctx, nil, "rev-parse", "--verify", "--quiet", "--end-of-options", name+"^{commit}")
	if err != nil {
		return "", fmt.Errorf("%w: %q", ErrNoRevision, name)
	}
	return strings.TrimSpace(string(out)), nil
}

// Entered gives the first revision in which a text stands in a file of the folder, or "".
func (c *Checkout) Entered(ctx context.Context, text, file string) (string, error) {
	out, err := c.ask(ctx, nil, "log", "--format=%H", "--reverse", "-S"+text, "--", file)
	if err != nil {
		return "", err
	}
	first, _, _ := strings.Cut(string(out), "\n")
	return first, nil
}

// Renamed gives what files of the folder were called in a revision and are called in a later one, "" for that checked out, as far as the steps between tell.
func (c *Checkout) Renamed(ctx context.Context, from, to string) (map[string]string, error) {
	if to == "" {
		to = "HEAD"
	}
	out, err := c.ask(ctx, nil, "log", "--reverse", "--format=", "--name-status", "-M", "--diff-filter=R", "--relative", "-z", from+".."+to)
	if err != nil {
		return nil, err
	}
	names := map[string]string{}
	fields := strings.Split(strings.TrimRight(string(out), "\x00"), "\x00")
	for i := 0; i+2 < len(fields); {
		if !strings.HasPrefix(strings.TrimSpace(fields[i]), "R") {
			i++
			continue
		}
		old, now := fields[i+1], fields[i+2]
		i += 3
		first := old
		for before, at := range names {
			if at == old {
				first = before
			}
		}
		names[first] = now
	}
	return names, nil
}

// ErrNotThere says that a revision does not have the folder.
var ErrNotThere = errors.New("the folder is not in that revision")

// Files gives what is in the folder in a revision. Sub-modules are left out.
func (c *Checkout) Files(ctx context.Context, revision string) (fs.FS, error) {
	out, err := c.ask(ctx, nil, "ls-tree", "-r", "-z", revision)
	if err != nil {
		return nil, err
	}
	var list []entry
	var wanted strings.Builder
	for _, line := range strings.Split(string(out), "\x00") {
		about, path, ok := strings.Cut(line, "\t")
		parts := strings.Fields(about) // mode, type, name of the object
		if !ok || len(parts) != 3 || parts[1] != "blob" {
			continue
		}
		list = append(list, entry{path, parts[0]})
		wanted.WriteString(parts[2] + "\n")
	}
	if len(list) == 0 {
		return nil, ErrNotThere
	}
	objects, err := c.ask(ctx, strings.NewReader(wanted.String()), "cat-file", "--batch")
	if err != nil {
		return nil, err
	}
	return archived(list, objects)
}

// entry is a file of a revision.
type entry struct{ path, mode string }

// archived puts files into an archive in memory, which is a file system.
func archived(list []entry, objects []byte) (fs.FS, error) {
	var archive bytes.Buffer
	z := zip.NewWriter(&archive)
	from := bufio.NewReader(bytes.NewReader(objects))
	for _, e := range list {
		head, err := from.ReadString('\n')
		parts := strings.Fields(head) // name, type, size
		if err != nil || len(parts) != 3 {
			return nil, fmt.Errorf("git does not give %s", e.path)
		}
		size, err := strconv.ParseInt(parts[2], 10, 64)
		if err != nil {
			return nil, fmt.Errorf("git does not give %s: %w", e.path, err)
		}
		h := &zip.FileHeader{Name: e.path, Method: zip.Store}
		h.SetMode(0o644)
		if e.mode == "120000" {
			h.SetMode(fs.ModeSymlink | 0o777)
		}
		w, err := z.CreateHeader(h)
		if err == nil {
			_, err = io.CopyN(w, from, size)
		}
		if err == nil {
			_, err = from.Discard(1)
		}
		if err != nil {
			return nil, fmt.Errorf("git does not give %s: %w", e.path, err)
		}
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return zip.NewReader(bytes.NewReader(archive.Bytes()), int64(archive.Len()))
}
