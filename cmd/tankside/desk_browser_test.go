package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
)

// Whoever has no terminal begins a manual by questions, sees what is wrong, publishes it and closes the desk; nothing overflows on a phone.
func TestDeskIsWalked(t *testing.T) {
	t.Parallel()
	folder := t.TempDir()
	url, notes, stop := serving(t, "desk", filepath.Join(folder, "content"), "--print")
	b := openTab(t, strings.TrimSpace(url), notes)
	b.becomes(`location.search === "" && document.body.innerText.includes("There is no manual yet")`)
	b.press(`a[href="/begin"]`)
	for _, answer := range []string{"Invented Shop", "", "240 m", "", "", "", "", "", "120 L", "6 kW", "1.2 kW", "37-45 kHz", "no", "yes", "", "90 L", "", "", "", "no", "no"} {
		b.becomes(`document.querySelector("#answer") && document.activeElement.id === "answer"`)
		b.becomes(`(document.querySelector("#answer").value = ` + quote(answer) + `, window.left = true)`)
		b.press(`button[value=next]`)
	}
	b.becomes(`document.body.innerText.includes("nobody has approved it") && document.body.innerText.includes("rinse-1")`)
	b.picture("desk-summary")
	b.press(`button[value=write]`)
	b.becomes(`document.body.innerText.includes("Nobody has approved this.") && document.body.innerText.includes("soils/cutting-oil.md:")`)
	b.press(`form[action="/publish"] button`)
	b.becomes(`document.querySelector("[role=status]")?.innerText.includes("Published:") && !!document.querySelector("button[value=cards]")`)
	if _, err := os.Stat(filepath.Join(folder, "edition", "cards.html")); err != nil {
		t.Error(err)
	}
	b.picture("desk")
	for _, width := range []int64{360, 1280} {
		if err := chromedp.Do(b.ctx, chromedp.EmulateViewport(width, 740)); err != nil {
			t.Fatal(err)
		}
		b.becomes(`document.documentElement.scrollWidth <= innerWidth`)
		b.becomes(`[...document.querySelectorAll("button, .button")].every(e => e.getBoundingClientRect().height >= 44)`)
	}
	b.press(`form[action="/close"] button`)
	b.becomes(`document.body.innerText.includes("The desk is closed")`)
	if got := b.complained(); strings.Contains(got, "Content Security Policy") || strings.Contains(got, "Error") {
		t.Errorf("the browser complains:\n%s", got)
	}
	if code := stop(); code != exitDone {
		t.Errorf("exit status %d\n%s", code, notes)
	}
}

// press clicks an element and waits for the next page.
func (b *tab) press(selector string) {
	b.t.Helper()
	b.becomes(`(window.left = true, document.querySelector(` + quote(selector) + `).click(), true)`)
	b.becomes(`!window.left && document.readyState === "complete"`)
}

// picture keeps a picture of the page at two widths, light and dark, where a folder for them is named.
func (b *tab) picture(name string) {
	b.t.Helper()
	folder := os.Getenv("TANKSIDE_PICTURES")
	if folder == "" {
		return
	}
	for _, v := range []struct {
		name  string
		width int64
		dark  string
	}{{"360", 360, "light"}, {"360-dark", 360, "dark"}, {"1280", 1280, "light"}, {"1280-dark", 1280, "dark"}} {
		data, err := b.shot(v.width, v.dark)
		if err != nil {
			b.t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(folder, name+"-"+v.name+".png"), data, 0o600); err != nil {
			b.t.Fatal(err)
		}
	}
}

func quote(text string) string { return "`" + strings.ReplaceAll(text, "`", "\\`") + "`" }

// shot is a picture of the whole page at a width, light or dark.
func (b *tab) shot(width int64, scheme string) ([]byte, error) {
	in := func(ctx context.Context, target *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, target, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		return chromedp.Void{}, err
	}
	if err := chromedp.Do(b.ctx, in, chromedp.EmulateViewport(width, 740)); err != nil {
		return nil, err
	}
	return chromedp.Run(b.ctx, chromedp.FullScreenshot(100))
}
