package builder

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// A photograph with the place where it was taken (Exif, CIPA DC-008-2019, 4.6.6: the GPS attributes) comes into the edition smaller, with
// its size in the page, loaded late, and without the place.
func TestPhotographIsPreparedForTheEdition(t *testing.T) {
	t.Parallel()
	source := t.TempDir()
	if err := os.CopyFS(source, os.DirFS(smallManual)); err != nil {
		t.Fatal(err)
	}
	img := image.NewRGBA(image.Rect(0, 0, 3000, 2000))
	for y := range 2000 {
		for x := range 3000 {
			img.Set(x, y, color.RGBA{uint8(x), uint8(y), uint8(x * y), 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	place := "GPS 47.0 N 8.0 E"
	exif := "Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x00\x00\x00\x00\x00" + place
	photograph := append([]byte{0xff, 0xd8, 0xff, 0xe1, 0, byte(len(exif) + 2)}, exif...)
	photograph = append(photograph, b.Bytes()[2:]...)
	write := func(name string, data []byte) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(source, name), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write("pictures/foil.jpg", photograph)
	article, err := os.ReadFile(filepath.Join(source, "soils/rust.md"))
	if err != nil {
		t.Fatal(err)
	}
	write("soils/rust.md", append(article, "\n![A foil after the test](../pictures/foil.jpg)\n"...))
	to := filepath.Join(t.TempDir(), "edition")
	if _, err := publish(t, source, to, time.Date(2026, 12, 1, 0, 0, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	page, err := os.ReadFile(filepath.Join(to, "soils/rust.html"))
	if err != nil {
		t.Fatal(err)
	}
	shown := regexp.MustCompile(`<img src="\.\./(assets/foil\.[0-9a-f]+\.jpg)" alt="A foil after the test" width="(\d+)" height="(\d+)" loading="lazy">`).FindSubmatch(page)
	if shown == nil {
		t.Fatal("the page does not show the photograph with its size")
	}
	if string(shown[2]) != "650" || string(shown[3]) != "434" { // 1300 × 867 kept, in the column of 34 em at 19 px
		t.Errorf("it is shown %s × %s", shown[2], shown[3])
	}
	made, err := os.ReadFile(filepath.Join(to, string(shown[1])))
	if err != nil {
		t.Fatal(err)
	}
	if size, err := jpeg.DecodeConfig(bytes.NewReader(made)); err != nil || size.Width != 1300 {
		t.Errorf("it is %d pixels wide, %v", size.Width, err)
	}
	if strings.Contains(string(made), place) || strings.Contains(string(made), "Exif") {
		t.Error("the edition tells where the photograph was taken")
	}
}
