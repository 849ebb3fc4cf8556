package asjson

import (
	"encoding/json"
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Document returns a document for programs: an object of title and blocks, each
// with its kind. Cells stand under the names of their columns: an amount as an
// object in mm or degrees that is never rounded, a thing of the job by its id with
// what it is, a verdict with its words; all else as text, in which amounts are
// written in the units of the view.
func Document(d *doc.Document, v unit.View) any {
	blocks := []any{}
	for _, b := range d.Blocks {
		if told(b) {
			blocks = append(blocks, block(b, v))
		}
	}
	return struct {
		Title  string `json:"title"`
		Blocks []any  `json:"blocks"`
	}{d.Title.Shown(v), blocks}
}

// told reports whether a block has anything for programs: what is drawn with letters
// has not.
func told(b doc.Block) bool {
	switch b := b.(type) {
	case doc.Paragraph:
		return shows(b.Where)
	case *doc.Table:
		return slices.ContainsFunc(b.Columns, func(c doc.Column) bool { return shows(c.Where) })
	}
	return true
}

// shows reports whether what is meant for some media is there for programs.
func shows(w doc.Where) bool { return w == doc.Everywhere || w == doc.Roomy }

// said is a block of words.
type said struct {
	Kind  string `json:"kind"`
	Level int    `json:"level,omitempty"`
	Mark  string `json:"mark,omitempty"`
	Text  string `json:"text,omitempty"`
}

// rows is a table.
type rows struct {
	Kind    string           `json:"kind"`
	Name    string           `json:"name,omitempty"`
	Columns []head           `json:"columns"`
	Rows    []map[string]any `json:"rows"`
}

type head struct {
	Name string `json:"name"`
	Head string `json:"head"`
}

func block(b doc.Block, v unit.View) any {
	switch b := b.(type) {
	case doc.Heading:
		return said{Kind: "heading", Level: b.Level, Text: b.Words.Shown(v)}
	case doc.Paragraph:
		return said{Kind: "paragraph", Mark: b.Mark, Text: b.Words.Shown(v)}
	case *doc.Table:
		return table(b, v)
	case doc.Picture:
		return said{Kind: "picture", Text: b.Words.Shown(v)}
	case doc.Form:
		return said{Kind: "form", Text: b.Label.Shown(v)}
	case doc.Caution:
		return said{Kind: "caution", Text: b.Words.Shown(v)}
	}
	panic("asjson: a block of an unknown kind")
}

func table(t *doc.Table, v unit.View) rows {
	list := rows{Kind: "table", Name: t.Name, Rows: []map[string]any{}}
	for i := range t.Columns {
		c := &t.Columns[i]
		if c.Where == doc.Everywhere || c.Where == doc.Roomy {
			list.Columns = append(list.Columns, head{c.Name, c.Heading().Shown(c.View.Of(v))})
		}
	}
	for i := range t.Rows {
		row := map[string]any{}
		for _, c := range list.Columns {
			if text := t.Rows[i].Cells[c.Name]; len(text) > 0 {
				row[c.Name] = cell(text, t.Column(c.Name).View.Of(v))
			}
		}
		list.Rows = append(list.Rows, row)
	}
	return list
}

// cell returns what stands in a cell.
func cell(t doc.Text, v unit.View) any {
	if len(t) > 1 {
		return t.Shown(v)
	}
	span := &t[0]
	switch amount, isAmount := span.Words.(json.Marshaler); {
	case span.Of.Kind != doc.Nothing:
		return map[string]string{string(span.Of.Kind): span.Of.ID}
	case span.Verdict != doc.NoVerdict:
		return map[string]string{"verdict": string(span.Verdict), "text": span.Shown(v)}
	case isAmount:
		return amount
	}
	return t.Shown(v)
}
