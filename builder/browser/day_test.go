package browser

import (
	_ "embed"
	"fmt"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"tankside/builder/browser/drive"
)

// A working day's questions stand in day.md with the way to the answer of each. Every way is walked as a person would: what is touched has to be seen,
// and nothing may lie over it.
const dayFile = "../../testdata/day.md"

// What is asked of a day: so many questions, so many of them answered, and this many touches and screens in the median. A screen is what
// is seen at once; one is counted for each that had to be scrolled by, and one for the answer's.
const (
	leastQuestions, leastAnswered = 60, 60
	mostTouches, mostScreens      = 3, 2
)

// dayPatience is how often, dayPause after dayPause, is looked for what is not there yet.
const (
	dayPause    = 50 * time.Millisecond
	dayPatience = 120
)

//go:embed testdata/day.js
var daySight string

func TestDay(t *testing.T) {
	t.Parallel()
	questions, err := drive.ReadDay(dayFile)
	if err != nil {
		t.Fatal(err)
	}
	answered := 0
	for _, q := range questions {
		if q.Open == "" {
			answered++
		}
	}
	t.Logf("%d of %d questions have their answer", answered, len(questions))
	if len(questions) < leastQuestions || answered < leastAnswered {
		t.Errorf("asked are %d answers of %d questions", leastAnswered, leastQuestions)
	}
	base := "file://" + filepath.ToSlash(published(t)) + "/"
	for _, device := range []struct {
		name          string
		width, height int64
	}{{"phone", 360, 740}, {"desktop", 1280, 800}} {
		t.Run(device.name, func(t *testing.T) {
			t.Parallel()
			b := open(t, base, "index.html", size(device.width, device.height))
			var touches, screens []int
			for _, q := range questions {
				if q.Open != "" || q.Terminal() {
					continue
				}
				t.Run(q.Asks, func(t *testing.T) {
					b.of(t)
					n, s := b.walkDay(q, size(device.width, device.height))
					touches, screens = append(touches, n), append(screens, s)
					t.Logf("%d touches, %d screens", n, s)
				})
			}
			slices.Sort(touches)
			slices.Sort(screens)
			if len(touches) == 0 {
				return
			}
			middle := len(touches) / 2
			t.Logf("median: %d touches, %d screens; most: %d and %d", touches[middle], screens[middle], touches[len(touches)-1], screens[len(screens)-1])
			if touches[middle] > mostTouches || screens[middle] > mostScreens {
				t.Errorf("the median way has %d touches and %d screens, asked are %d and %d", touches[middle], screens[middle], mostTouches, mostScreens)
			}
		})
	}
}

// walkDay goes the way of a question and counts the touches and the screens looked at.
func (b *tab) walkDay(q drive.Question, before step) (touches, screens int) {
	b.t.Helper()
	way := q.Way
	begin := "index.html"
	if way[0].Do == "begin" {
		begin, way = way[0].What, way[1:]
	}
	ask[bool](b, `(() => { localStorage.clear(); sessionStorage.clear(); return true; })()`)
	b.turn(begin, before)
	screens = 1
	for _, act := range way {
		b.until(`document.querySelector("main")`)
		ask[bool](b, "(() => { "+daySight+"; return true; })()")
		if act.Do == "ask" {
			touches = b.openSearch(touches)
		}
		spot := b.spot(act)
		if screens += spot.Screens; spot.Screens > 0 {
			b.t.Logf("%d screens further: %s %s", spot.Screens, act.Do, act.What)
		}
		switch act.Do {
		case "touch":
			touches++
			b.do(chromedp.MouseClickXY(spot.X, spot.Y))
			if spot.Leaves { // what is looked for next is not to be found on the page that is being left
				b.until(`!window.daySpot`)
			}
		case "type", "ask":
			touches++
			b.do(chromedp.MouseClickXY(spot.X, spot.Y))
			ask[bool](b, `(() => { document.activeElement.select?.(); return true; })()`)
			if !ask[bool](b, fmt.Sprintf("dayTime(document.activeElement, %s)", quote(act.What))) {
				b.do(chromedp.KeyEvent(act.What))
			}
		case "choose":
			touches++
			if !ask[bool](b, fmt.Sprintf("dayChoose(%s, %s)", quote(act.Where), quote(act.What))) {
				b.t.Fatalf("%s:%d: %s is not to be chosen in %s", dayFile, act.Line, act.What, act.Where)
			}
		}
	}
	return touches, screens
}

// openSearch opens the search where the page keeps it behind a button, which is a touch more.
func (b *tab) openSearch(touches int) int {
	b.t.Helper()
	if !ask[bool](b, `document.querySelector("#find-words").checkVisibility()`) {
		b.press(".bar-find")
		touches++
	}
	return touches
}

type spot struct {
	X, Y    float64
	Screens int
	Leaves  bool // for another page
	Trouble string
}

// spot waits for what an act is about to be seen, brings it onto the screen and says where it is.
func (b *tab) spot(act drive.Act) spot {
	b.t.Helper()
	expression := map[string]string{
		"touch": fmt.Sprintf("dayTouch(%s)", quote(act.What)), "type": fmt.Sprintf("dayField(%s)", quote(act.Where)),
		"choose": fmt.Sprintf("dayField(%s)", quote(act.Where)), "ask": `document.querySelector("#find-words")`, "read": fmt.Sprintf("dayRead(%s)", quote(act.What)),
	}[act.Do]
	if expression == "" {
		b.t.Fatalf("%s:%d: %s is not done in a browser", dayFile, act.Line, act.Do)
	}
	b.waitSeen(expression, act)
	s := ask[spot](b, "daySpot("+expression+")")
	if s.Trouble != "" && act.Do != "read" {
		b.t.Fatalf("%s:%d: %s: %s", dayFile, act.Line, act.What, s.Trouble)
	}
	return s
}

// waitSeen waits until something is seen on a page that does not say that it is at work: nobody touches what is still moving.
func (b *tab) waitSeen(expression string, act drive.Act) {
	b.t.Helper()
	for range dayPatience {
		if seen, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool]("typeof daySpot === 'function' && !document.querySelector('[aria-busy=true]') && !!"+expression, chromedp.EvalAwaitPromise)); err == nil && seen {
			return
		}
		b.do(chromedp.Sleep(dayPause))
		if there, err := chromedp.Run(b.ctx, chromedp.Evaluate[bool]("typeof daySpot === 'function'", chromedp.EvalAwaitPromise)); err == nil && !there {
			ask[bool](b, "(() => { "+daySight+"; return true; })()")
		}
	}
	b.picture()
	page := strings.TrimPrefix(ask[string](b, "location.href"), b.base)
	b.t.Fatalf("%s:%d: in vain looked for %q %s on %s", dayFile, act.Line, act.What, act.Where, page)
}
