package report

import (
	"bytes"
	"io"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/say"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// TestEveryThreadHasItsPasses: the page and the JSON of every thread of the
// tables, inside and outside, show no number that is none.
func TestEveryThreadHasItsPasses(t *testing.T) {
	for _, thread := range facts.Threads() {
		sheet := series.ThreadSheet(thread)
		holes, err := lathe.TapHoles(sheet, 75)
		if (err != nil) != thread.Tapered {
			t.Errorf("%s: %v", thread.Designation, err)
		}
		for _, inside := range []bool{false, true} {
			cutting, err := lathe.CutThread(lathe.ThreadWanted{Thread: thread, Inside: inside})
			if err != nil {
				t.Fatal(err)
			}
			said := say.Tapping{Sheet: sheet, Holes: holes, Cutting: cutting}
			var page bytes.Buffer
			if err := Tap(&page, said, Style{}); err != nil {
				t.Fatal(err)
			}
			if text := page.String(); strings.Contains(text, "NaN") || strings.Contains(text, "? ") || !strings.Contains(text, "spring") {
				t.Errorf("%s:\n%s", thread.Designation, text)
			}
			if err := TapJSON(io.Discard, said); err != nil {
				t.Errorf("%s: %v", thread.Designation, err)
			}
		}
	}
}

// TestTaperSettingPage: constructed. 1:10 is atan(1/20) = 2.862° to the axis,
// 1.2 in a foot; 10 in of work are set over by 254·sin 2.862° = 12.684 mm (bc
// 1.07).
func TestTaperSettingPage(t *testing.T) {
	s, err := lathe.SetTaper(lathe.TaperWanted{HalfAngle: math.Atan(0.05), Length: 50, Between: 254})
	if err != nil {
		t.Fatal(err)
	}
	var page bytes.Buffer
	if err := TaperSetting(&page, s, Style{}); err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(page.String()), " ")
	for _, want := range []string{"2.862° 2° 51.7'", "1.2000 in/ft, 10.000 mm in 100 mm, 1:10.000", "12.684 mm over", "50.0 mm of the carriage must move it by 2.500 mm", "fiftieth"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q in\n%s", want, &page)
		}
	}
	s.SetOver = math.NaN()
	page.Reset()
	if err := TaperSetting(&page, s, Style{}); err != nil || strings.Contains(page.String(), "the tailstock") {
		t.Errorf("%v: a set-over that is not known is shown:\n%s", err, &page)
	}
}

// TestStockPage: constructed.
func TestStockPage(t *testing.T) {
	allowed := plan.UsualAllowances(2)
	for section, want := range map[plan.BarSection]string{plan.RoundBar: "round bar of 32.000 mm", plan.FlatBar: "flat bar of 32.0 × 12.0 mm"} {
		s := &plan.Stock{Plan: allowed, Section: section, Width: 32, Thickness: 12, Length: 88, Bar: 270, Spare: 90, Mass: 0.5, Finished: 0.2, Notes: []unit.Text{unit.Words("A note.")}}
		var page bytes.Buffer
		if err := Stock(&page, s, Style{}); err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{want, "2 pieces with 1 spare: 270 mm", "0.500 kg each", "A note."} {
			if !strings.Contains(page.String(), want) {
				t.Errorf("no %q in\n%s", want, &page)
			}
		}
	}
}
