package proof

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp"
)

// TestPictures takes the pictures of pages that README shows, where it is told to
// by ODDLEG_PICTURES=1. They are looked at before they are kept.
func TestPictures(t *testing.T) {
	if os.Getenv("ODDLEG_PICTURES") == "" {
		t.Skip("ODDLEG_PICTURES=1 takes the pictures of README anew")
	}
	s := fresh(t)
	chromium := browser(t)
	jobs := s.jobs()
	cover, plunger := "/job/"+jobs[0], "/job/"+jobs[2]
	for _, c := range []struct {
		name, path string
		on         screen
	}{
		{"reach", plunger + "/take", phone},
		{"take", plunger + "/take/by/taper-over-rollers?like=b", phone},
		{"readings", cover + "/readings", phone},
		{"checks", plunger + "/checks", phone},
		{"part", plunger + "/part", desktop},
		{"sizes", plunger + "/sizes", screen{name: "dark", width: 390, height: 844, touch: true, dark: true}},
	} {
		p := open(t, chromium, s, c.on)
		p.visit(c.path)
		p.settle()
		p.wait("document.querySelector('progress') === null")
		p.view(filepath.Join("../../../docs/pictures", "page-"+c.name+".png"))
	}
}

// view takes a picture of what the screen shows.
func (p *tab) view(path string) {
	p.t.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	picture, err := chromedp.Run(ctx, chromedp.CaptureScreenshot())
	if err == nil {
		err = os.WriteFile(path, picture, 0o666)
	}
	if err != nil {
		p.t.Fatal(err)
	}
}
