package browser

import (
	"os"

	"github.com/chromedp/chromedp"
)

func shoot(b *tab, file string) {
	png, err := chromedp.Run(b.ctx, chromedp.CaptureScreenshot())
	if err == nil {
		err = os.WriteFile(file, png, 0o644)
	}
	if err != nil {
		b.t.Log(err)
	}
}
