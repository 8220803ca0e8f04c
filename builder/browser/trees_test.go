package browser

import (
	"context"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/builder/tree"
)

func demoManual(t *testing.T) *manual.Manual {
	t.Helper()
	m, _, err := manual.Read(context.Background(), os.DirFS("../../content"))
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// waysTo gives for each remedy of a tree the anchors of the shortest way to it.
func waysTo(tr *tree.Tree) map[string][]string {
	way := map[*tree.Node][]string{tr.Start: {tr.Start.Section.Anchor}}
	for next := []*tree.Node{tr.Start}; len(next) > 0; next = next[1:] {
		for _, a := range next[0].Answers {
			if a.To != nil && way[a.To] == nil {
				way[a.To] = append(append([]string{}, way[next[0]]...), a.To.Section.Anchor)
				next = append(next, a.To)
			}
		}
	}
	remedies := map[string][]string{}
	for n, w := range way {
		if n.Remedy {
			remedies[n.Section.Anchor] = w
		}
	}
	return remedies
}

// Every tree of the demo manual is walked, answer by answer, to each of its remedies.
func TestEveryTreeIsWalkedToEveryRemedy(t *testing.T) {
	t.Parallel()
	m := demoManual(t)
	bothSchemes(t, func(t *testing.T, base string) {
		articles := map[string]*manual.Article{}
		var pages []string
		for _, a := range m.Articles {
			if a.Kind == manual.Symptom {
				pages = append(pages, page.Path(a))
				articles[page.Path(a)] = a
			}
		}
		if len(pages) < 22 {
			t.Fatalf("%d trees", len(pages))
		}
		eachPage(t, base, pages, []step{size(360, 780)}, func(b *tab, page string) {
			a := articles[page]
			t.Run(a.Name, func(t *testing.T) {
				b.of(t)
				tr, _ := tree.Of(a)
				ways := waysTo(tr)
				if len(ways) == 0 {
					t.Fatal("no remedies")
				}
				text, err := json.Marshal(ways)
				if err != nil {
					t.Fatal(err)
				}
				wrong := ask[[]string](b, `(async () => {
					const ways = `+string(text)+`, wrong = [];
					const settled = id => new Promise(done => { const look = n => location.hash === "#" + id && document.getElementById(id).hidden === false || n > 6000 ? done() : setTimeout(look, 5, n + 1); look(0); });
					for (const [remedy, way] of Object.entries(ways)) {
						location.hash = way[0];
						await settled(way[0]);
						for (const next of way.slice(1)) {
							const visible = [...document.querySelectorAll(".walk > section:not([hidden])")];
							if (visible.length !== 1) { wrong.push(remedy + ": " + visible.length + " steps are shown at once"); break; }
							const answer = visible[0].querySelector('.answers a[href="#' + next + '"]');
							if (!answer || answer.getBoundingClientRect().height < 48) { wrong.push(remedy + ": no answer to press that leads from " + visible[0].id + " to " + next); break; }
							answer.click();
							await settled(next);
						}
						const end = document.querySelector(".walk > section:not([hidden])");
						if (end.id !== remedy || !end.classList.contains("remedy") || !end.innerText.includes("Recheck") || !end.innerText.includes("Seen with.")) wrong.push(remedy + ": the walk ended at " + end.id);
						const marked = document.querySelectorAll(".overview-paper [aria-current]");
						if (marked.length !== 1 || marked[0].dataset.step !== remedy) wrong.push(remedy + ": the drawn tree does not show it");
						if (document.querySelectorAll(".overview-paper .way.gone").length !== way.length - 1) wrong.push(remedy + ": the drawn tree does not show the way there");
						const noted = document.querySelector(".walk").way().map(s => s.step);
						if (noted.length !== way.length) wrong.push(remedy + ": the way is noted as " + noted.join(", "));
					}
					return wrong;
				})()`)
				for _, w := range wrong {
					t.Error(w)
				}
			})
		})
	})
}

// The drawn tree is a set of links with words: by keyboard from box to box, each named by its number and heading, and no wider than the page
// lets it be.
func TestTheDrawnTreeIsReadByKeyboardAndAloud(t *testing.T) {
	t.Parallel()
	base := serveUnkept(t, published(t))
	b := open(t, base, "symptoms/spotty-parts.html")
	b.press(".walk-tree")
	names := ask[[]string](b, `[...document.querySelectorAll(".overview-paper a")].map(a => a.textContent)`)
	if len(names) < 15 || names[0] != "1 Do the spots wipe off with a damp cloth?" {
		t.Errorf("the boxes are called %s", strings.Join(names, " | "))
	}
	ask[bool](b, `(document.querySelector('.overview-paper [data-step="hardness-baked-on-in-the-dryer"]').focus(), true)`)
	b.keys(`.overview-paper [data-step="hardness-baked-on-in-the-dryer"]`, "\r")
	b.until(shown + `.id === "hardness-baked-on-in-the-dryer"`)
}
