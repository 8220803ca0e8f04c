package browser

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"tankside/builder"
)

// While an article is broken its page says beside each line what is wrong there and what to do, on a phone too; the head says what is about the header and leads
// to the rest. A step of a walk says it where the step is read.
func TestFindingsStandBesideTheirLines(t *testing.T) {
	t.Parallel()
	source, shown := filepath.Join(t.TempDir(), "manual"), t.TempDir()
	copyDemo(t, source, "", "", nil)
	change := func(name string, edit func(string) string) {
		file := filepath.Join(source, name)
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(edit(string(text))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	change("soils/wax.md", func(text string) string {
		text = strings.Replace(text, "\nreview-by: ", "\nreview-bye: ", 1)
		return text + "\n## More of it\n\n- one\n- two [x](nowhere-at-all-with-a-name-as-long-as-a-line-of-a-phone.md)\n- three\n"
	})
	change("symptoms/spotty-parts.md", func(text string) string {
		return strings.Replace(text, "\n**Recheck.**", "\nSee [that](nowhere.md).\n\n**Recheck.**", 1)
	})
	var files map[string][]byte
	s := builder.NewSitting()
	_, err := builder.Publish(context.Background(), builder.Options{Manual: source, To: filepath.Join(t.TempDir(), "edition"), Now: time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC), Sitting: s,
		Preview: func(made map[string][]byte) { files = made }})
	if err = errors.Join(err, s.Close()); !errors.Is(err, builder.ErrStopped) {
		t.Fatal(err)
	}
	for path, data := range files {
		to := filepath.Join(shown, path)
		if err := errors.Join(os.MkdirAll(filepath.Dir(to), 0o755), os.WriteFile(to, data, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	b := open(t, "file://"+shown+"/", "soils/wax.html", size(360, 740))
	b.until(`document.querySelector(".fault-beside")`)
	if text := b.text("li > .fault-beside"); !strings.Contains(text, "soils/wax.md:") || !strings.Contains(text, "nowhere-at-all") {
		t.Errorf("in the item stands\n%s", text)
	}
	if item := b.text("li:has(> .fault-beside)"); !strings.HasPrefix(item, "two") {
		t.Errorf("the item is\n%s", item)
	}
	if head := b.text(".faults"); !strings.Contains(head, "review-by") || strings.Contains(head, "nowhere-at-all") || !strings.Contains(head, "Beside their lines") {
		t.Errorf("the head says\n%s", head)
	}
	if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
		t.Errorf("the page is %d px too wide", wide)
	}
	b.press(`.faults a[href^="#at.fault"]`)
	b.until(`(() => { const r = document.querySelector(".fault-beside").getBoundingClientRect(); return r.top >= 0 && r.bottom <= innerHeight; })()`)
	judgeAccess(b, "with findings beside their lines")
	b.do(chromedp.Navigate("file://" + shown + "/symptoms/spotty-parts.html"))
	b.until(`document.querySelector("section.remedy .fault-beside")`)
	b.press(`.faults a`)
	b.until(`document.querySelector("section.remedy .fault-beside").checkVisibility()`)
	if wide := ask[int](b, `document.documentElement.scrollWidth - document.documentElement.clientWidth`); wide > 0 {
		t.Errorf("the walk is %d px too wide", wide)
	}
}
