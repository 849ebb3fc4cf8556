package report

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/say"
)

// plunger is a job of an invented shop.
var plunger = say.RecordedJob{ID: "ABCDEF", Name: "Plunger and bush", Machine: "dividing table, 1936, GB", Part: "Index plunger", Revision: 4, OnShelf: 2, Branches: []int{3}}

func TestKeptBesideSaysWhatToDo(t *testing.T) {
	when := time.Date(2031, 3, 1, 8, 5, 0, 0, time.UTC)
	k := say.Keeping{
		Job: plunger, Saved: say.Version{Number: 5, From: 2, Branch: 5, When: when}, Store: "shop.db",
		Later: []say.Version{{Number: 4, From: 2, When: when, Who: "turner", Note: "bore read again"}},
	}
	var b bytes.Buffer
	if err := spoken(&b, say.Kept(k), nil, Style{}); err != nil {
		t.Fatal(err)
	}
	said := strings.Join(strings.Fields(b.String()), " ")
	for _, want := range []string{
		"Kept as revision 5 of job ABCDEF", "since revision 2, which it was made from, others were saved", "4 2031-03-01 08:05 turner bore read again",
		"`oddleg history ABCDEF --get 4`", "--from 4 --merges 5", "Still beside the main line: from revision 3.",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q:\n%s", want, &b)
		}
	}
}

// TestLabelFits: nothing on a label stands over its edge or on other things, and
// a code has its clear space of four modules (ISO/IEC 18004).
func TestLabelFits(t *testing.T) {
	long := plunger
	long.Part = strings.Repeat("Very long name of a part ", 4)
	for _, job := range []say.RecordedJob{plunger, {ID: "ABCDEF", Name: "Bush", Revision: 1}, long} {
		sheet, err := Label(job)
		if err != nil {
			t.Fatal(err)
		}
		areas, left, module := 0, sheet.Width, sheet.Width
		for _, mark := range sheet.Marks {
			switch m := mark.(type) {
			case ink.Area:
				areas++
				for _, edge := range m.Path {
					left, module = min(left, edge.From.X), min(module, edge.Length())
				}
			case ink.Text:
				if end := m.At.X + ink.Width(m.Words, m.Height, m.Bold); end > sheet.Width-labelMargin || m.At.Y < labelMargin || m.At.Y+m.Height > sheet.Height-labelMargin {
					t.Errorf("%q ends at %.1f mm, %.1f mm up", m.Words, end, m.At.Y)
				}
			}
		}
		if areas < 50 || left < 4*module {
			t.Errorf("%s: %d areas from %.2f mm on, a module is %.2f mm", job.Part, areas, left, module)
		}
		if faults := draw.Overlaps(sheet); len(faults) > 0 {
			t.Errorf("%s: %s", job.Name, strings.Join(faults, "\n"))
		}
	}
}

func TestLabelRefusesTooMuch(t *testing.T) {
	if _, err := Label(say.RecordedJob{ID: "ABCDEF", Part: strings.Repeat("x", 5000)}); err == nil {
		t.Error("5000 letters are taken for a QR code")
	}
}
