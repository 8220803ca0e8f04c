package builder

import (
	"path/filepath"
	"strings"
	"testing"
)

// An edition carries the licences of the software in it, and says where.
func TestEditionHasNotices(t *testing.T) {
	t.Parallel()
	src, _ := manualOfTwo(t)
	to := filepath.Join(t.TempDir(), "edition")
	if r, err := publish(t, src, to, day); err != nil {
		t.Fatal(err, r.Findings)
	}
	got := files(t, to)
	if !strings.Contains(got["notices.txt"], "github.com/yuin/goldmark ") || !strings.Contains(got["this-edition.html"], `href="notices.txt"`) {
		t.Error("no notices")
	}
}
