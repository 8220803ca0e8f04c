// Package watch tells what has changed in the folder of a manual, so that it can be published again.
//
// [Open] starts to listen on the folder and every folder in it; what changes from then on is not missed. [Watcher.Run] gathers
// changes until they come to rest, since an editor that saves a file makes several of them: it empties the file and then
// writes it, or writes another file and renames it over the first, or deletes it and makes a new one.
//
// New folders are listened to as they come, with what is in them already. Symbolic links are not followed, since the manual's reader
// does not follow them either; what editors leave lying about (hidden files, backups) is no change.
package watch

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"
)

// Everything stands in a list of changes where it cannot be told what has changed: the folder itself went or came back, or more
// happened at once than the system keeps in mind.
const Everything = "."

// Quiet is a good time for [Watcher.Run] to wait for further changes: longer than editors take between the steps of a save, shorter
// than a person notices.
const Quiet = 30 * time.Millisecond

// Patience is how many times longer than the quiet time a stream of changes that never rests is gathered.
const Patience = 10

// Watcher listens on a folder.
type Watcher struct {
	folder string // without symbolic links
	events *fsnotify.Watcher
	gone   bool // the folder itself is
}

// Open starts to listen. The folder has to be there.
func Open(folder string) (*Watcher, error) {
	folder, err := filepath.Abs(folder)
	if err == nil {
		folder, err = filepath.EvalSymlinks(folder)
	}
	if err != nil {
		return nil, err
	}
	events, err := fsnotify.NewBufferedWatcher(1024)
	if err != nil {
		return nil, fmt.Errorf("the system does not tell of changes: %w", err)
	}
	w := &Watcher{folder: folder, events: events}
	if err := w.add(folder, nil); err != nil {
		return nil, errors.Join(err, events.Close())
	}
	return w, nil
}

// Close stops listening.
func (w *Watcher) Close() error { return w.events.Close() }

// Run calls changed with the files and folders that have changed, in the manual's way of writing paths and in order, whenever
// changes have come to rest for the time quiet, or have gone on for [Patience] times as long. It is called once at a time; what
// changes meanwhile is in the next call. Run ends without an error when ctx is done, and a call that goes on then has returned.
func (w *Watcher) Run(ctx context.Context, quiet time.Duration, changed func(ctx context.Context, paths []string)) error {
	var rest, longest, back <-chan time.Time
	due, busy := false, false
	done := make(chan struct{}, 1)
	pending := make(map[string]bool)
	defer func() {
		if busy {
			<-done
		}
	}()
	for {
		select {
		case <-ctx.Done():
			return nil
		case e, open := <-w.events.Events:
			if !open {
				return fsnotify.ErrClosed
			}
			if err := w.take(e, pending); err != nil {
				return err
			}
		case err, open := <-w.events.Errors:
			if !open {
				return fsnotify.ErrClosed
			}
			if !errors.Is(err, fsnotify.ErrEventOverflow) {
				return err
			}
			if err := w.add(w.folder, nil); err != nil {
				return err
			}
			pending[Everything] = true
		case <-back:
			back = nil
			if err := w.again(pending); err != nil {
				return err
			}
		case <-rest:
			due = true
		case <-longest:
			due = true
		case <-done:
			busy = false
		}
		if w.gone && back == nil {
			back = time.After(10 * quiet)
		}
		switch {
		case len(pending) == 0:
		case due && !busy:
			paths := slices.Sorted(maps.Keys(pending))
			clear(pending)
			rest, longest, due, busy = nil, nil, false, true
			go func() {
				changed(ctx, paths)
				done <- struct{}{}
			}()
		case !due:
			rest = time.After(quiet)
			if longest == nil {
				longest = time.After(Patience * quiet)
			}
		}
	}
}

// take notes what an event says.
func (w *Watcher) take(e fsnotify.Event, pending map[string]bool) error {
	if e.Op == fsnotify.Chmod || e.Name == "" {
		return nil
	}
	if e.Name == w.folder {
		if e.Has(fsnotify.Remove) || e.Has(fsnotify.Rename) {
			w.gone = true
			pending[Everything] = true
			return w.leave(w.folder)
		}
		return nil
	}
	if w.ignored(e.Name) {
		return nil
	}
	note := func(path string) {
		if rel, err := filepath.Rel(w.folder, path); err == nil {
			pending[filepath.ToSlash(rel)] = true
		}
	}
	note(e.Name)
	if e.Has(fsnotify.Remove) || e.Has(fsnotify.Rename) {
		if err := w.leave(e.Name); err != nil {
			return err
		}
	}
	if !e.Has(fsnotify.Create) {
		return nil
	}
	info, err := os.Lstat(e.Name)
	if errors.Is(err, fs.ErrNotExist) || err == nil && !info.IsDir() {
		return nil
	}
	if err != nil {
		return err
	}
	return w.add(e.Name, note)
}

// again listens on the folder anew when it has come back.
func (w *Watcher) again(pending map[string]bool) error {
	info, err := os.Stat(w.folder)
	if errors.Is(err, fs.ErrNotExist) || err == nil && !info.IsDir() {
		return nil
	}
	if err != nil {
		return err
	}
	w.gone = false
	pending[Everything] = true
	return w.add(w.folder, nil)
}

// add listens on a folder and those in it, and calls found, where it is not nil, with everything that is there already. A folder is
// listened to before it is listed: what comes between the two is told twice rather than not at all.
func (w *Watcher) add(folder string, found func(path string)) error {
	return filepath.WalkDir(folder, func(path string, entry fs.DirEntry, err error) error {
		if path != w.folder && w.ignored(path) {
			if entry != nil && entry.IsDir() {
				return fs.SkipDir
			}
			return nil
		}
		switch {
		case errors.Is(err, fs.ErrNotExist): // gone again; its event is under way
			return nil
		case errors.Is(err, fs.ErrPermission): // the proof-reader says so
			return nil
		case err != nil:
			return err
		}
		if found != nil {
			found(path)
		}
		if !entry.IsDir() {
			return nil
		}
		err = w.events.Add(path)
		if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrPermission) {
			return nil
		}
		if err != nil {
			return fmt.Errorf("the system does not tell of changes in %s: %w", path, err)
		}
		return nil
	})
}

// leave stops listening on a folder that has gone and those that were in it: where it was renamed, they would go on to tell their
// old names.
func (w *Watcher) leave(folder string) error {
	for _, path := range w.events.WatchList() {
		if path != folder && !strings.HasPrefix(path, folder+string(filepath.Separator)) {
			continue
		}
		if err := w.events.Remove(path); err != nil && !errors.Is(err, fsnotify.ErrNonExistentWatch) && !vanished(err) {
			return err
		}
	}
	return nil
}

// ignored tells whether any part of a path below the folder is of the sort that the manual's reader passes over.
func (w *Watcher) ignored(path string) bool {
	rel, err := filepath.Rel(w.folder, path)
	if err != nil {
		return true
	}
	return slices.ContainsFunc(strings.Split(rel, string(filepath.Separator)), leftover)
}

// leftover tells whether a name is of the sort that computers and editors leave behind.
func leftover(name string) bool {
	switch {
	case strings.HasPrefix(name, "."), strings.HasSuffix(name, "~"), strings.HasPrefix(name, "#") && strings.HasSuffix(name, "#"):
		return true
	}
	switch strings.ToLower(name) {
	case "thumbs.db", "desktop.ini", "4913": // the last one is how an editor tries whether it may write
		return true
	}
	return false
}
