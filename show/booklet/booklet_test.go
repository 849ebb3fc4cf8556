package booklet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"pgregory.net/rapid"
)

var anywhere = Options{Job: "A job", Date: "2024-03-01"}

// said returns all words on a page, line by line from its head.
func said(s *ink.Sheet) []string {
	var texts []ink.Text
	for _, m := range s.Flat() {
		if t, ok := m.(ink.Text); ok {
			texts = append(texts, t)
		}
	}
	slices.SortStableFunc(texts, func(a, b ink.Text) int {
		if d := b.At.Y - a.At.Y; math.Abs(d) > 1e-9 {
			return int(math.Copysign(1, d))
		}
		return int(math.Copysign(1, a.At.X-b.At.X))
	})
	list := make([]string, len(texts))
	for i, t := range texts {
		list[i] = t.Words
	}
	return list
}

// sound fails where anything lies over anything else or outside the margins of a
// page.
func sound(t interface {
	Helper()
	Errorf(string, ...any)
}, pages []*ink.Sheet,
) {
	t.Helper()
	for i, page := range pages {
		for _, fault := range draw.Overlaps(page) {
			t.Errorf("page %d: %s", i+1, fault)
		}
		for _, m := range page.Flat() {
			text, ok := m.(ink.Text)
			if !ok {
				continue
			}
			start := text.At.X - ink.Width(text.Words, text.Height, text.Bold)*float64(text.Align)/2
			end := start + ink.Width(text.Words, text.Height, text.Bold)
			if start < leftMargin-rounding || end > page.Width-rightMargin+rounding {
				t.Errorf("page %d: %q runs from %v to %v", i+1, text.Words, start, end)
			}
			if text.At.Y < footMargin && text.At.Y != footLine {
				t.Errorf("page %d: %q is in the margin of the foot", i+1, text.Words)
			}
		}
	}
}

// rowsOf returns n rows of a table of two columns.
func rowsOf(n int) Table {
	t := Table{Columns: []Column{{Head: "first head"}, {Head: "second head", Weight: Large}}}
	for i := range n {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("row%d", i), fmt.Sprintf("%d.000", i)})
	}
	return t
}

func TestTableGoesOnUnderItsHead(t *testing.T) {
	pages := Pages([]Chapter{{Title: "Long", Blocks: []Block{rowsOf(120)}}}, anywhere)
	if len(pages) < 3 {
		t.Fatalf("%d pages for 120 rows", len(pages))
	}
	sound(t, pages)
	next := 0
	for i, page := range pages {
		words := said(page)
		if heads := strings.Count(strings.Join(words, "\n"), "first head"); heads != 1 {
			t.Errorf("page %d has %d heads", i+1, heads)
		}
		for _, w := range words {
			if strings.HasPrefix(w, "row") {
				if w != fmt.Sprintf("row%d", next) {
					t.Fatalf("page %d has %s, want row%d", i+1, w, next)
				}
				next++
			}
		}
	}
	if next != 120 {
		t.Errorf("%d rows printed, want 120", next)
	}
}

// TestTitlesStayWithWhatFollows pushes a heading through a page's end, line by
// line.
func TestTitlesStayWithWhatFollows(t *testing.T) {
	turned := false
	for lines := 36; lines < 50; lines++ {
		c := Chapter{Title: "One"}
		for range lines {
			c.Add(Paragraph{Words: "above"})
		}
		c.Add(Heading("Two"), Heading("Three"), rowsOf(4))
		pages := Pages([]Chapter{c}, anywhere)
		sound(t, pages)
		for _, page := range pages {
			words := said(page)
			two, row := slices.Index(words, "Two"), slices.Index(words, "row3")
			if (two < 0) != (row < 0) {
				t.Errorf("after %d lines the headings are not on the page of their table", lines)
			}
			turned = turned || two == 0
		}
	}
	if !turned {
		t.Error("no heading came to a page's end: the test looks at the wrong lines")
	}
}

func TestFootCountsPages(t *testing.T) {
	drawing := ink.Blank(ink.A4, false)
	pages := Pages([]Chapter{
		{Title: "Before", Blocks: []Block{Paragraph{Words: "before"}}},
		{Title: "Drawing", Blocks: []Block{Picture{drawing}}},
		{Title: "After", Blocks: []Block{rowsOf(60)}},
	}, anywhere)
	for i, page := range pages {
		words := said(page)
		want := []string{"A job", fmt.Sprintf("2024-03-01   page %d of %d", i+1, len(pages))}
		if got := words[len(words)-2:]; !slices.Equal(got, want) {
			t.Errorf("page %d ends with %q, want %q", i+1, got, want)
		}
	}
	if p := pages[1]; p.Width != 297 || said(p)[0] != "Drawing" {
		t.Errorf("the second page is %v wide and says %q, want the drawing after the page begun before it", p.Width, said(p))
	}
	if words := said(pages[0]); !slices.Contains(words, "After") {
		t.Errorf("the first page is not filled before the drawing: %q", words)
	}
}

func TestDrawingAloneIsOnePage(t *testing.T) {
	pages := Pages([]Chapter{{Blocks: []Block{Picture{ink.Blank(ink.A3, false)}}}}, anywhere)
	if len(pages) != 1 || pages[0].Width != 420 {
		t.Errorf("%d pages, the first %v mm wide", len(pages), pages[0].Width)
	}
}

func TestPictureStandsAmongWords(t *testing.T) {
	small := &ink.Sheet{Width: 100, Height: 50, Scale: 1}
	small.Add(ink.Text{At: geom.Point{X: 50, Y: 25}, Words: "picture", Height: 2.5})
	pages := Pages([]Chapter{{Title: "One", Blocks: []Block{Picture{small}, Paragraph{Words: "under it"}}}}, anywhere)
	if len(pages) != 1 {
		t.Fatalf("%d pages, want 1", len(pages))
	}
	if words := said(pages[0])[:3]; !slices.Equal(words, []string{"One", "picture", "under it"}) {
		t.Errorf("the page says %q", words)
	}
	sound(t, pages)
}

func TestRoomToWrite(t *testing.T) {
	table := Table{Columns: []Column{{Head: "size"}, {Head: "made", Write: true}}, Rows: [][]string{{"bore", ""}, {"nose", ""}}}
	pages := Pages([]Chapter{{Blocks: []Block{table, Room{Label: "notes", Lines: 3}}}}, anywhere)
	sound(t, pages)
	boxes, lines := 0, 0
	for _, m := range pages[0].Marks {
		stroke, ok := m.(ink.Stroke)
		if !ok || stroke.Kind != ink.Rule {
			continue
		}
		switch size := stroke.Path.Bounds().Size(); {
		case size.X >= writeWidth && size.Y > 6:
			boxes++
		case size.X > 100:
			lines++
		}
	}
	if boxes != 2 || lines != 3 {
		t.Errorf("%d boxes and %d lines to write in, want 2 and 3", boxes, lines)
	}
}

func TestWrap(t *testing.T) {
	s := styles[Plain]
	for _, test := range []struct {
		words string
		width float64
		want  []string
	}{
		{"", 50, []string{""}},
		{"one two", 50, []string{"one two"}},
		{"one  two\nthree", s.width("one two"), []string{"one two", "three"}},
		{"a\x00b\u202ec", 50, []string{"a bc"}},
		{"WWWWWW", s.width("WWW"), []string{"WWW", "WWW"}},
		{"ab WWWWWW cd", s.width("WWWW"), []string{"ab", "WWWW", "WW cd"}},
		{"WW", 0.1, []string{"W", "W"}},
	} {
		if got := s.wrap(test.words, test.width); !slices.Equal(got, test.want) {
			t.Errorf("%q in %.1f mm: %q, want %q", test.words, test.width, got, test.want)
		}
	}
}

func TestCut(t *testing.T) {
	s := styles[Plain]
	if got := s.cut("short", 50); got != "short" {
		t.Errorf("%q", got)
	}
	got := s.cut(strings.Repeat("long ", 40), 50)
	if !strings.HasSuffix(got, "…") || s.width(got) > 50 || s.width(got) < 40 {
		t.Errorf("%q is %.1f mm long", got, s.width(got))
	}
}

// TestShortCellsAreNotBroken shares too little width among columns.
func TestShortCellsAreNotBroken(t *testing.T) {
	table := Table{
		Columns: []Column{{}, {Weight: Large}, {}, {}},
		Rows:    [][]string{{"a long name of a way to give", "12.3456 mm", "25.9 kN", strings.Repeat("and a reason ", 20)}},
	}
	widths := table.widths(150)
	for i, want := range []float64{0, styles[Large].width("12.3456 mm"), styles[Plain].width("25.9 kN"), 0} {
		if widths[i] < want {
			t.Errorf("column %d has %.1f mm, want %.1f", i, widths[i], want)
		}
	}
	if sum := total(widths) + 3*columnGap; sum > 150+rounding {
		t.Errorf("the columns take %v of 150 mm", sum)
	}
}

// TestAnythingKeepsItsPlace lays out random chapters of words of any sort.
func TestAnythingKeepsItsPlace(t *testing.T) {
	words := rapid.OneOf(rapid.StringN(0, 60, -1), rapid.Just(strings.Repeat("W", 200)), rapid.Just(strings.Repeat("so on ", 200)))
	rapid.Check(t, func(t *rapid.T) {
		var chapters []Chapter
		for range rapid.IntRange(0, 4).Draw(t, "chapters") {
			c := Chapter{Title: words.Draw(t, "title")}
			for range rapid.IntRange(0, 6).Draw(t, "blocks") {
				c.Add(anyBlock(t, words))
			}
			chapters = append(chapters, c)
		}
		paper := ink.Paper(rapid.IntRange(0, 3).Draw(t, "paper"))
		sound(t, Pages(chapters, Options{Job: words.Draw(t, "job"), Date: "2024-03-01", Paper: paper}))
	})
}

func anyBlock(t *rapid.T, words *rapid.Generator[string]) Block {
	weight := Weight(rapid.IntRange(0, int(Large)).Draw(t, "weight"))
	switch rapid.IntRange(0, 3).Draw(t, "block") {
	case 0:
		return Heading(words.Draw(t, "heading"))
	case 1:
		return Room{Label: words.Draw(t, "label"), Lines: rapid.IntRange(0, 4).Draw(t, "lines")}
	case 2:
		return Paragraph{
			Mark: "- ", Lead: words.Draw(t, "lead"), Words: words.Draw(t, "words"), Indent: rapid.IntRange(0, 50).Draw(t, "indent"),
			Weight: weight, Space: Space(rapid.IntRange(0, 2).Draw(t, "space")), Keep: rapid.Bool().Draw(t, "keep"),
		}
	}
	table := Table{}
	for range rapid.IntRange(1, 8).Draw(t, "columns") {
		table.Columns = append(table.Columns, Column{
			Head: rapid.StringN(0, 40, -1).Draw(t, "head"), Align: ink.Align(rapid.IntRange(0, 2).Draw(t, "align")),
			Weight: weight, Write: rapid.Bool().Draw(t, "write"),
		})
	}
	for range rapid.IntRange(0, 12).Draw(t, "rows") {
		row := make([]string, len(table.Columns))
		for i := range row {
			row[i] = words.Draw(t, "cell")
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}
