package proof

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestFromNothing begins a job in which there is nothing, and finds the undercut
// wall of a ring with a pin, a micrometer and a bore that are all named as they
// are needed; then it gives the job a part to begin with.
func TestFromNothing(t *testing.T) {
	s := fresh(t)
	p := open(t, browser(t), s, phone)
	p.visit("/")
	p.press("New job")
	p.fill("What is to be mended", "Ring of a drill turntable")
	p.press("Begin")
	p.says("Nothing has been read yet")
	p.press("Take a reading")
	p.press("An undercut wall")
	p.press("Over two pins")
	p.fill("wall", "a new size")
	p.fill("Call it", "wall")
	p.fill("Wear makes it", "smaller: an outside surface")
	p.fill("pin", "another gauge piece")
	p.fill("Its size", "6 mm")
	p.fill("Instrument", "another instrument")
	p.fill("Reads to", "0.01 mm")
	p.fill("value 1", "62.01")
	p.fill("value 2", "62.02")
	p.accessible()
	p.press("Save")
	p.says("1 of 1 sizes found")
	p.says("62.02 mm")
	p.press("Sizes")
	p.says("50.015 mm") // 62.015 less two pins of 6
	p.press("Part")
	p.says("What is to be made?")
}

// TestPhotograph keeps a picture from a telephone: upright, without the place
// where it was taken, and with a pin on a size.
func TestPhotograph(t *testing.T) {
	s := fresh(t)
	p := open(t, browser(t), s, phone)
	job := "/job/" + s.jobs()[0]
	file := filepath.Join(t.TempDir(), "bench.jpg")
	if err := os.WriteFile(file, lying(t), 0o666); err != nil {
		t.Fatal(err)
	}
	p.visit(job + "/photographs")
	p.do(chromedp.SetUploadFiles(chromedp.CSS("input[type=file]"), []string{file}))
	p.fill("What it shows", "the casting from above")
	p.press("Keep it")
	p.says("the casting from above")
	p.press("the casting from above")
	p.wait("document.querySelector('.pinned img').complete")
	if tall := ask[bool](p, "(i => i.naturalHeight > i.naturalWidth)(document.querySelector('.pinned img'))"); !tall {
		t.Error("the picture lies on its side")
	}
	if kept := p.download(p.path() + "/file"); bytes.Contains(kept, []byte("Exif")) || bytes.Contains(kept, []byte("PLACE")) {
		t.Error("what the telephone wrote into the picture is still in it")
	}
	p.fill("Across", "25")
	p.fill("Down", "75")
	p.fill("Size", "stud")
	p.press("Pin it")
	p.says("25 across, 75 down")
	if at := ask[string](p, "document.querySelector('.spots li').style.left"); !strings.HasPrefix(at, "25") {
		t.Errorf("the pin stands at %s", at)
	}
	p.accessible()
}

// lying is a picture that was taken with the telephone upright: it lies on its
// side, and says so, with a place, in its Exif.
func lying(t *testing.T) []byte {
	t.Helper()
	picture := image.NewGray(image.Rect(0, 0, 320, 200))
	for i := range picture.Pix {
		picture.Pix[i] = color.Gray{Y: uint8(i)}.Y
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, picture, nil); err != nil {
		t.Fatal(err)
	}
	exif := []byte("Exif\x00\x00MM\x00\x2a\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00\x06\x00\x00\x00\x00\x00\x00PLACE 51N 0W")
	segment := append([]byte{0xff, 0xe1, byte((len(exif) + 2) >> 8), byte(len(exif) + 2)}, exif...)
	return append(append(append([]byte{}, b.Bytes()[:2]...), segment...), b.Bytes()[2:]...)
}
