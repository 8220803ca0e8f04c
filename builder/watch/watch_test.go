package watch

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"
)

// deadline is how long something that has to be told may take on a busy machine.
const deadline = 20 * time.Second

// listener gathers what a running Watcher tells.
type listener struct {
	mu    sync.Mutex
	calls [][]string
	woken chan struct{}
}

func (l *listener) changed(_ context.Context, paths []string) {
	l.mu.Lock()
	l.calls = append(l.calls, paths)
	l.mu.Unlock()
	select {
	case l.woken <- struct{}{}:
	default:
	}
}

func (l *listener) told() (all []string) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, c := range l.calls {
		all = append(all, c...)
	}
	return all
}

// waitFor fails the test unless every one of the paths is told before the deadline.
func (l *listener) waitFor(t *testing.T, paths ...string) {
	t.Helper()
	late := time.After(deadline)
	for {
		told := l.told()
		if !slices.ContainsFunc(paths, func(p string) bool { return !slices.Contains(told, p) }) {
			return
		}
		select {
		case <-l.woken:
		case <-late:
			t.Fatalf("told %q, waiting for %q", told, paths)
		}
	}
}

// watching makes a small manual and listens on it.
func watching(t *testing.T) (string, *listener) {
	t.Helper()
	folder := t.TempDir()
	write(t, filepath.Join(folder, "shop.yaml"), "name: Shop\n")
	write(t, filepath.Join(folder, "soils", "wax.md"), "one\n")
	return folder, listen(t, folder)
}

func listen(t *testing.T, folder string) *listener {
	t.Helper()
	w, err := Open(folder)
	if err != nil {
		t.Fatal(err)
	}
	l := &listener{woken: make(chan struct{}, 1)}
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- w.Run(ctx, Quiet, l.changed) }()
	t.Cleanup(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Errorf("Run: %v", err)
		}
		if err := w.Close(); err != nil {
			t.Errorf("Close: %v", err)
		}
	})
	return l
}

func write(t *testing.T, name, text string) {
	t.Helper()
	must(t, os.MkdirAll(filepath.Dir(name), 0o755))
	must(t, os.WriteFile(name, []byte(text), 0o644))
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// The ways in which editors save, each told under the name of the file that people see.
func TestEditors(t *testing.T) {
	for name, save := range map[string]func(t *testing.T, file string){
		"empties the file and writes it": func(t *testing.T, file string) { write(t, file, "two\n") },
		"appends": func(t *testing.T, file string) {
			f, err := os.OpenFile(file, os.O_APPEND|os.O_WRONLY, 0)
			must(t, err)
			_, err = f.WriteString("two\n")
			must(t, err)
			must(t, f.Close())
		},
		"writes another file and renames it over": func(t *testing.T, file string) {
			other := file + ".new"
			write(t, other, "two\n")
			must(t, os.Rename(other, file))
		},
		"writes another file elsewhere and renames it over": func(t *testing.T, file string) {
			other := filepath.Join(filepath.Dir(filepath.Dir(file)), ".saving")
			write(t, other, "two\n")
			must(t, os.Rename(other, file))
		},
		"renames to a backup and writes a new file": func(t *testing.T, file string) {
			must(t, os.Rename(file, file+"~"))
			write(t, file, "two\n")
		},
		"deletes the file and makes a new one": func(t *testing.T, file string) {
			must(t, os.Remove(file))
			write(t, file, "two\n")
		},
		"deletes the file": func(t *testing.T, file string) { must(t, os.Remove(file)) },
	} {
		t.Run(name, func(t *testing.T) {
			folder, l := watching(t)
			save(t, filepath.Join(folder, "soils", "wax.md"))
			l.waitFor(t, "soils/wax.md")
			for _, p := range l.told() {
				if p == "soils/wax.md~" || p == ".saving" {
					t.Errorf("told of %s, which is no part of the manual", p)
				}
			}
			// The second save is told as well as the first.
			before := len(l.told())
			write(t, filepath.Join(folder, "soils", "wax.md"), "three\n")
			late := time.After(deadline)
			for !slices.Contains(l.told()[before:], "soils/wax.md") {
				select {
				case <-l.woken:
				case <-late:
					t.Fatal("the second save was not told")
				}
			}
		})
	}
}

func TestNewFolders(t *testing.T) {
	folder, l := watching(t)
	// Everything at once, so that the files are there before anybody can listen on their folders.
	write(t, filepath.Join(folder, "parts", "pumps", "large", "impeller.md"), "new\n")
	write(t, filepath.Join(folder, "parts", "seat.md"), "new\n")
	l.waitFor(t, "parts", "parts/pumps/large/impeller.md", "parts/seat.md")
	write(t, filepath.Join(folder, "parts", "pumps", "large", "later.md"), "new\n")
	l.waitFor(t, "parts/pumps/large/later.md")
}

func TestRenamedFolder(t *testing.T) {
	folder, l := watching(t)
	write(t, filepath.Join(folder, "soils", "old", "tar.md"), "one\n")
	l.waitFor(t, "soils/old/tar.md")
	must(t, os.Rename(filepath.Join(folder, "soils"), filepath.Join(folder, "dirt")))
	l.waitFor(t, "soils", "dirt", "dirt/wax.md", "dirt/old/tar.md")
	write(t, filepath.Join(folder, "dirt", "old", "pitch.md"), "one\n")
	l.waitFor(t, "dirt/old/pitch.md")
	if slices.Contains(l.told(), "soils/old/pitch.md") {
		t.Error("a file in the renamed folder was told under the folder's old name")
	}
	must(t, os.RemoveAll(filepath.Join(folder, "dirt")))
	l.waitFor(t, "dirt")
	write(t, filepath.Join(folder, "dirt", "new.md"), "one\n")
	l.waitFor(t, "dirt/new.md")
}

func TestFolderMovedOut(t *testing.T) {
	folder, l := watching(t)
	away := filepath.Join(t.TempDir(), "soils")
	must(t, os.Rename(filepath.Join(folder, "soils"), away))
	l.waitFor(t, "soils")
	write(t, filepath.Join(away, "not-ours.md"), "one\n")
	write(t, filepath.Join(folder, "shop.yaml"), "name: Other\n")
	l.waitFor(t, "shop.yaml")
	if slices.Contains(l.told(), "soils/not-ours.md") {
		t.Error("a folder that was moved out of the manual is still listened to")
	}
}

func TestFolderItself(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("Windows does not rename a folder that is listened to")
	}
	parent := t.TempDir()
	folder := filepath.Join(parent, "manual")
	write(t, filepath.Join(folder, "shop.yaml"), "name: Shop\n")
	l := listen(t, folder)
	must(t, os.Rename(folder, filepath.Join(parent, "before")))
	l.waitFor(t, Everything)
	first := len(l.told())
	write(t, filepath.Join(folder, "soils", "wax.md"), "one\n")
	late := time.After(deadline)
	for len(l.told()) == first {
		select {
		case <-l.woken:
		case <-late:
			t.Fatal("the folder's return was not told")
		}
	}
	write(t, filepath.Join(folder, "soils", "tar.md"), "one\n")
	l.waitFor(t, "soils/tar.md")
}

func TestLinksAreNotFollowed(t *testing.T) {
	folder, l := watching(t)
	outside := t.TempDir()
	write(t, filepath.Join(outside, "secret.md"), "one\n")
	if err := os.Symlink(outside, filepath.Join(folder, "soils", "link")); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	l.waitFor(t, "soils/link")
	write(t, filepath.Join(outside, "secret.md"), "two\n")
	write(t, filepath.Join(folder, "shop.yaml"), "name: Other\n")
	l.waitFor(t, "shop.yaml")
	if slices.Contains(l.told(), "soils/link/secret.md") {
		t.Error("a link out of the manual is followed")
	}
}

func TestFolderBehindLink(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "shop.yaml"), "name: Shop\n")
	link := filepath.Join(t.TempDir(), "manual")
	if err := os.Symlink(folder, link); err != nil {
		t.Skipf("no symbolic links here: %v", err)
	}
	l := listen(t, link)
	write(t, filepath.Join(folder, "shop.yaml"), "name: Other\n")
	l.waitFor(t, "shop.yaml")
}

func TestLeftoversAreNoChange(t *testing.T) {
	folder, l := watching(t)
	for _, name := range []string{".wax.md.swp", "wax.md~", "#wax.md#", "4913", "Thumbs.db", filepath.Join(".git", "index"), filepath.Join(".git", "objects", "aa")} {
		write(t, filepath.Join(folder, "soils", name), "x")
	}
	write(t, filepath.Join(folder, "shop.yaml"), "name: Other\n")
	l.waitFor(t, "shop.yaml")
	if told := l.told(); slices.ContainsFunc(told, func(p string) bool { return p != "shop.yaml" }) {
		t.Errorf("told %q", told)
	}
}

func TestBurstIsOneCall(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "shop.yaml"), "name: Shop\n")
	w, err := Open(folder)
	must(t, err)
	defer w.Close()
	// All of it happens before Run looks, so no clock decides how many calls there are.
	var want []string
	for _, name := range []string{"a.md", "b.md", "c.md"} {
		for range 5 {
			write(t, filepath.Join(folder, name), "text\n")
		}
		want = append(want, name)
	}
	l := &listener{woken: make(chan struct{}, 1)}
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- w.Run(ctx, time.Second, l.changed) }()
	l.waitFor(t, want...)
	cancel()
	must(t, <-ended)
	if len(l.calls) != 1 || !slices.Equal(l.calls[0], want) {
		t.Errorf("%d calls: %q", len(l.calls), l.calls)
	}
}

// A stream of changes that never rests is told all the same.
func TestPatience(t *testing.T) {
	folder, l := watching(t)
	stop := make(chan struct{})
	writing := make(chan struct{})
	go func() {
		defer close(writing)
		for {
			select {
			case <-stop:
				return
			default:
				if err := os.WriteFile(filepath.Join(folder, "soils", "wax.md"), []byte("again\n"), 0o644); err != nil {
					t.Error(err)
					return
				}
			}
		}
	}()
	l.waitFor(t, "soils/wax.md")
	close(stop)
	<-writing
}

// What changes while a call goes on is in the next one, and no two go on at once.
func TestOneAtATime(t *testing.T) {
	folder := t.TempDir()
	write(t, filepath.Join(folder, "shop.yaml"), "name: Shop\n")
	w, err := Open(folder)
	must(t, err)
	defer w.Close()
	calls := make(chan []string)
	release := make(chan struct{})
	var going sync.Mutex
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() {
		ended <- w.Run(ctx, time.Millisecond, func(_ context.Context, paths []string) {
			if !going.TryLock() {
				t.Error("two calls at once")
				return
			}
			defer going.Unlock()
			calls <- paths
			<-release
		})
	}()
	write(t, filepath.Join(folder, "a.md"), "one\n")
	if got := <-calls; !slices.Equal(got, []string{"a.md"}) {
		t.Errorf("first: %q", got)
	}
	write(t, filepath.Join(folder, "b.md"), "one\n")
	write(t, filepath.Join(folder, "c.md"), "one\n")
	close(release)
	seen := map[string]bool{}
	for !seen["b.md"] || !seen["c.md"] {
		select {
		case paths := <-calls:
			for _, p := range paths {
				seen[p] = true
			}
		case <-time.After(deadline):
			t.Fatalf("after the first call only %v was told", seen)
		}
	}
	cancel()
	for {
		select {
		case err := <-ended:
			must(t, err)
			return
		case <-calls:
		}
	}
}

func TestNoFolder(t *testing.T) {
	if _, err := Open(filepath.Join(t.TempDir(), "none")); err == nil {
		t.Error("a folder that is not there was opened")
	}
}
