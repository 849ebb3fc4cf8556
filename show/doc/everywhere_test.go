package doc_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"html"
	"regexp"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/asjson"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/doc"
	page "codeberg.org/oddleg/oddleg/show/html"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/term"
	"pgregory.net/rapid"
)

// medium shows a document, and reads it back as the words that somebody sees, in
// order, one blank between two.
type medium struct {
	name  string
	where []doc.Where // the columns that it shows
	forms bool
	read  func(t *rapid.T, d *doc.Document, v unit.View) string
}

var media = []medium{
	{"terminal", []doc.Where{doc.Everywhere, doc.Letters}, false, onTerminal},
	{"paper", []doc.Where{doc.Everywhere, doc.Roomy, doc.ByHand}, true, onPaper},
	{"page", []doc.Where{doc.Everywhere, doc.Roomy}, false, inPage},
	{"programs", []doc.Where{doc.Everywhere, doc.Roomy}, true, forPrograms},
}

// TestEveryMediumSaysTheSame shows random documents on all media and finds every
// text again, in order and in the units of who reads.
func TestEveryMediumSaysTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := documents(t)
		v := unit.View{In: rapid.SampledFrom([]unit.Unit{unit.Millimetre, unit.Inch}).Draw(t, "unit")}
		for _, m := range media {
			got := m.read(t, d, v)
			at := 0
			for _, want := range m.wanted(d, v) {
				n := strings.Index(got[at:], want)
				if n < 0 {
					t.Fatalf("%s: %q is not found in order in\n%s", m.name, want, got)
				}
				at += n + len(want)
			}
			if m.name == "paper" {
				m.holdsCells(t, d, v, got)
			}
		}
	})
}

// wanted lists what a medium should say, in order.
func (m *medium) wanted(d *doc.Document, v unit.View) []string {
	list := []string{d.Title.Shown(v)}
	for _, b := range d.Blocks {
		switch b := b.(type) {
		case doc.Heading:
			list = append(list, b.Words.Shown(v))
		case doc.Paragraph:
			list = append(list, b.Mark, b.Words.Shown(v))
		case *doc.Table:
			if m.name != "paper" { // whose lines run through all cells of a row
				list = append(list, m.cells(b, v)...)
			}
		case doc.Picture:
			list = append(list, b.Words.Shown(v))
		case doc.Form:
			if m.forms {
				list = append(list, b.Label.Shown(v))
			}
		case doc.Caution:
			list = append(list, b.Words.Shown(v))
		}
	}
	return list
}

// holdsCells looks for every word of every cell, of which on paper one line has a
// part and the next another.
func (m *medium) holdsCells(t *rapid.T, d *doc.Document, v unit.View, got string) {
	for _, b := range d.Blocks {
		table, ok := b.(*doc.Table)
		if !ok {
			continue
		}
		for _, cell := range m.cells(table, v) {
			for _, word := range strings.Fields(cell) {
				if !strings.Contains(got, word) {
					t.Fatalf("%s: %q of a cell is not found in\n%s", m.name, word, got)
				}
			}
		}
	}
}

// cells lists heads and cells, row by row.
func (m *medium) cells(b *doc.Table, v unit.View) []string {
	var list []string
	shown := func(c *doc.Column) bool { return strings.Contains(fmt.Sprint(m.where), fmt.Sprint(c.Where)) }
	for i := range b.Columns {
		if c := &b.Columns[i]; shown(c) {
			list = append(list, c.Head.Shown(c.View.Of(v)))
		}
	}
	for i := range b.Rows {
		for n := range b.Columns {
			if c := &b.Columns[n]; shown(c) {
				list = append(list, b.Rows[i].Cells[c.Name].Shown(c.View.Of(v)))
			}
		}
	}
	return list
}

var spaces = regexp.MustCompile(`\s+`)

func squeezed(text string) string { return strings.TrimSpace(spaces.ReplaceAllString(text, " ")) }

func onTerminal(t *rapid.T, d *doc.Document, v unit.View) string {
	var plain, coloured bytes.Buffer
	if err := term.Write(&plain, d, term.Options{View: v}); err != nil {
		t.Fatal(err)
	}
	if err := term.Write(&coloured, d, term.Options{View: v, Colour: true}); err != nil {
		t.Fatal(err)
	}
	if bare := regexp.MustCompile("\x1b\\[[0-9]*m").ReplaceAllString(coloured.String(), ""); bare != plain.String() {
		t.Fatalf("in colours it says\n%s\nand without\n%s", bare, plain.String())
	}
	return squeezed(plain.String())
}

func onPaper(t *rapid.T, d *doc.Document, v unit.View) string {
	var b strings.Builder
	pages := booklet.Document(d, booklet.Options{View: v, Job: "the foot", Paper: ink.A4})
	for _, p := range pages {
		last, end := -1.0, 0.0
		for _, m := range p.Flat() {
			text, ok := m.(ink.Text)
			if !ok || text.At.Y < 6 { // the foot
				continue
			}
			if gap := text.At.X - end; text.At.Y != last || gap > 0.1*text.Height {
				b.WriteString(" ")
			}
			if strings.HasPrefix(text.Words, " ") {
				t.Fatalf("%q begins with a blank, which paper does not show", text.Words)
			}
			last, end = text.At.Y, text.At.X+ink.Width(text.Words, text.Height, text.Bold)
			if wide := text.At.X + ink.Width(text.Words, text.Height, text.Bold); text.Align == ink.LeftAligned && wide > p.Width {
				t.Fatalf("%q runs off the paper, to %g mm", text.Words, wide)
			}
			b.WriteString(text.Words)
		}
	}
	return squeezed(b.String())
}

var tags = regexp.MustCompile(`<[^>]*>`)

func inPage(t *rapid.T, d *doc.Document, v unit.View) string {
	text, err := page.Text(context.Background(), d, page.Options{View: v})
	if err != nil {
		t.Fatal(err)
	}
	text = regexp.MustCompile(`</?(h[1-6]|p|td|th|tr|table|li|ul|div|section|figure)[^>]*>`).ReplaceAllString(text, " ")
	return squeezed(html.UnescapeString(tags.ReplaceAllString(text, "")))
}

// forPrograms gives the texts of JSON in the order of the document; amounts in
// cells are read as they stand there, in mm.
func forPrograms(t *rapid.T, d *doc.Document, v unit.View) string {
	data, err := json.Marshal(asjson.Document(d, v))
	if err != nil {
		t.Fatal(err)
	}
	var read struct {
		Title  string
		Blocks []struct {
			Kind, Mark, Text string
			Columns          []struct{ Name, Head string }
			Rows             []map[string]any
		}
	}
	if err := json.Unmarshal(data, &read); err != nil {
		t.Fatal(err)
	}
	said := []string{read.Title}
	tables := tablesOf(d)
	for _, b := range read.Blocks {
		said = append(said, b.Mark, b.Text)
		for _, c := range b.Columns {
			said = append(said, c.Head)
		}
		for n, row := range b.Rows {
			for _, c := range b.Columns {
				said = append(said, cellBack(t, row[c.Name], tables[0], n, c.Name, v))
			}
		}
		if b.Kind == "table" {
			tables = tables[1:]
		}
	}
	return squeezed(strings.Join(said, " "))
}

// tablesOf lists the tables that are not for a terminal alone.
func tablesOf(d *doc.Document) []*doc.Table {
	var list []*doc.Table
	for _, b := range d.Blocks {
		if table, ok := b.(*doc.Table); ok && table.Name != "plot" {
			list = append(list, table)
		}
	}
	return list
}

// cellBack reads a cell back: of an amount the number is compared, and the words of
// the document stand for it.
func cellBack(t *rapid.T, cell any, table *doc.Table, row int, name string, v unit.View) string {
	text := table.Rows[row].Cells[name]
	switch cell := cell.(type) {
	case nil:
		return ""
	case string:
		return cell
	case map[string]any:
		if id, ok := cell["size"]; ok {
			return fmt.Sprint(id)
		}
		if said, ok := cell["text"]; ok {
			return fmt.Sprint(said)
		}
		if told, ok := text[0].Words.(unit.Told); !ok || cell["value"] != told.Value || cell["unit"] != "mm" {
			t.Fatalf("%v is not %v", cell, text[0].Words)
		}
		return text.Shown(table.Column(name).View.Of(v))
	}
	t.Fatalf("a cell of %T", cell)
	return ""
}

// documents draws a document of all kinds of block.
func documents(t *rapid.T) *doc.Document {
	d := &doc.Document{Title: texts(t, 1)}
	for range rapid.IntRange(1, 8).Draw(t, "blocks") {
		d.Add(block(t))
	}
	return d
}

func block(t *rapid.T) doc.Block {
	switch rapid.IntRange(0, 7).Draw(t, "kind") {
	case 7:
		return letters(t)
	case 0:
		return doc.Heading{Level: rapid.IntRange(1, 2).Draw(t, "level"), Words: texts(t, 1)}
	case 1:
		return doc.Paragraph{Mark: "1.", Words: texts(t, 30)}
	case 2:
		return table(t)
	case 3:
		return doc.Picture{Words: texts(t, 5)}
	case 4:
		return doc.Form{Label: doc.Plain(word(t)), Lines: 2}
	case 5:
		return doc.Caution{Words: texts(t, 20)}
	}
	return doc.Paragraph{Words: texts(t, 60), Indent: rapid.IntRange(0, 3).Draw(t, "indent"), Space: doc.Space(rapid.IntRange(0, 2).Draw(t, "space"))}
}

// table draws a table with a column of each medium at any place among the others.
func table(t *rapid.T) *doc.Table {
	columns := []doc.Column{
		{Name: "size", Head: doc.Plain("what"), Tone: doc.Strong},
		{Name: "first", Head: doc.Show(unit.Name{}), Weight: doc.Figures, Right: true},
		{Name: "second", Head: doc.Show(unit.Name{}), View: doc.Second},
		{Name: "besides", Head: doc.Plain(word(t)), Where: doc.Roomy},
		{Name: "made", Head: doc.Plain("made"), Where: doc.ByHand},
		{Name: "line", Where: doc.Letters},
		{Name: "verdict", Head: doc.Plain("verdict")},
	}
	b := &doc.Table{Name: "random", Columns: rapid.Permutation(columns).Draw(t, "columns")}
	for range rapid.IntRange(1, 4).Draw(t, "rows") {
		mm := unit.LengthOf(float64(rapid.IntRange(-1e6, 1e6).Draw(t, "mm")) / 1000)
		b.Add(doc.Cells{
			"size": doc.Name(doc.Size, word(t)), "first": doc.Show(mm), "second": doc.Show(mm),
			"besides": texts(t, 3), "line": doc.Plain("---" + word(t)), "verdict": doc.Judged(doc.Bad, word(t)),
		})
	}
	return b
}

// letters draws a table that is for a terminal alone.
func letters(t *rapid.T) *doc.Table {
	b := &doc.Table{Name: "plot", Columns: []doc.Column{{Name: "line", Head: doc.Plain(word(t)), Where: doc.Letters}}}
	b.Add(doc.Cells{"line": doc.Plain("--o--" + word(t))})
	return b
}

// texts draws words and amounts of all tones. Words of different tones may touch,
// as a name does a colon.
func texts(t *rapid.T, most int) doc.Text {
	text := doc.Plain(word(t))
	for range rapid.IntRange(0, most-1).Draw(t, "words") {
		tone := doc.Tone(rapid.IntRange(0, 4).Draw(t, "tone"))
		switch rapid.IntRange(0, 3).Draw(t, "what") {
		case 0:
			text = append(text, doc.Say(": %s", doc.In(tone, doc.Plain(word(t))))...)
		case 1:
			text = append(text, doc.Say(" %s", doc.In(tone, doc.Show(unit.LengthOf(12.7*float64(len(text))))))...)
		default:
			text = append(text, doc.Say(" %s", doc.In(tone, doc.Plain(word(t))))...)
		}
	}
	return text
}

func word(t *rapid.T) string {
	return rapid.StringMatching(`[a-zäøß<&"'%⌀±][a-z0-9.<>&"'%°-]{0,11}`).Draw(t, "word")
}
