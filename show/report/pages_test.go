package report

import (
	"reflect"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/booklet"
)

// TestPagesTakeWhatATerminalGets writes as printers do and looks at the blocks.
func TestPagesTakeWhatATerminalGets(t *testing.T) {
	p := &printer{style: Style{Colour: true}, pages: &pages{}}
	p.pages.begin("")
	p.heading("Title")
	p.line("\n  %s  by", p.paint(bold, "a"))
	p.line("    m = s")
	p.line("")
	p.heading("Under it")
	p.paragraph("- ", "one")
	p.paragraph("", p.paint(bold, "bore")+": two")
	p.paragraph("", p.paint(red, "It does not")+" go")
	p.table([][]string{{"size", ""}, {"bore", p.paint(yellow, "not found")}})
	p.pages.begin("Empty")
	want := []booklet.Chapter{{Title: "Title", Blocks: []booklet.Block{
		booklet.Paragraph{Lead: "a", Words: "  by", Space: booklet.Apart, Keep: true},
		booklet.Paragraph{Words: "m = s", Indent: 1, Space: booklet.Close},
		booklet.Heading("Under it"),
		booklet.Paragraph{Mark: "- ", Words: "one"},
		booklet.Paragraph{Lead: "bore", Words: ": two"},
		booklet.Paragraph{Words: "It does not go", Weight: booklet.Strong},
		booklet.Table{
			Columns: []booklet.Column{{Head: "size", Weight: booklet.Strong}, {}},
			Rows:    [][]string{{"bore", "not found"}},
		},
	}}}
	if got := p.pages.all(); !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%#v\nwant\n%#v", got, want)
	}
}

func TestWhatWasSeen(t *testing.T) {
	length := func(text string) unit.Quantity {
		q, err := unit.ParseLength(text, unit.Millimetre)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	a := &author{printer: &printer{r: &adjust.Result{Job: &trade.Job{Instruments: []trade.Instrument{{ID: "mic", Resolution: length("0.01")}}}}}}
	for _, test := range []struct {
		reading trade.Reading
		want    string
	}{
		{trade.Reading{With: "mic", Saw: []trade.Seen{{X: length("7.9")}, {X: length("8")}}}, "7.90, 8.00 mm"},
		{trade.Reading{With: "mic", Saw: []trade.Seen{{X: length("7.9"), SetAside: true}, {X: length("3/8 in")}}}, "7.90 mm (set aside), 3/8 in"},
		{trade.Reading{With: "mic", Saw: []trade.Seen{{X: length("1"), Y: length("2")}}}, "1.00 mm / 2.00 mm"},
		{trade.Reading{Goes: trade.Bound{ID: "b1"}, Stops: trade.Bound{Value: length("0.2")}}, "goes b1, stops 0.2 mm"},
	} {
		if got := a.sawText(&test.reading); got != test.want {
			t.Errorf("%q, want %q", got, test.want)
		}
	}
}
