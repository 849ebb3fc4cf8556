package doc

import (
	"fmt"
	"maps"
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
)

// Table is rows of cells that are found by the name of their column, never by
// where it stands: a column more or less is nobody's business but the table's.
type Table struct {
	Name    string // what it lists, for who reads it by program: "sizes"
	Columns []Column
	Rows    []Row
	Space   Space
}

// Column is one column. Within is the head of the uncertainties of measured
// amounts: it follows Head behind a comma, or stands over a column of its own
// where a medium sets value and uncertainty apart.
type Column struct {
	Name   string // by which its cells are found, for programs too: "limits"
	Head   Text
	Within Text
	Weight Weight
	Tone   Tone
	Right  bool  // its cells end in line
	View   Which // in which units its amounts are
	Where  Where // on which media it is shown
}

// Which says in which units a column shows amounts: those of who reads, or, beside
// them, the others.
type Which uint8

// The units of a column.
const (
	First Which = iota
	Second
	InMM   // always millimetres
	InInch // always inches
)

// Of returns the view of a column for who reads in a view.
func (w Which) Of(v unit.View) unit.View {
	switch w {
	case Second:
		return v.Beside()
	case InMM:
		return unit.View{In: unit.Millimetre}
	case InInch:
		return unit.View{In: unit.Inch}
	}
	return v
}

// Where says on which media a column is shown.
type Where uint8

// The media of a column.
const (
	Everywhere Where = iota
	Roomy            // where there is room: on paper, in a page, for programs
	ByHand           // free to write in: on paper only
	Letters          // a picture made of letters: on a terminal only
)

// Cells is a row by the names of its columns. A column without a cell is empty
// there.
type Cells map[string]Text

// Row is one row. One that goes On belongs to the row over it.
type Row struct {
	Cells Cells
	On    bool
}

// Columns returns plain columns whose names are their heads.
func Columns(names ...string) []Column {
	list := make([]Column, len(names))
	for i, name := range names {
		list[i] = Column{Name: name, Head: Plain(name)}
	}
	return list
}

// Add adds a row. A cell of a column that the table has not is our mistake, and
// panics.
func (t *Table) Add(cells Cells) { t.add(Row{Cells: cells}) }

// AddOn adds a row that belongs to the one over it.
func (t *Table) AddOn(cells Cells) { t.add(Row{Cells: cells, On: true}) }

func (t *Table) add(row Row) {
	for name := range row.Cells {
		if t.Column(name) == nil {
			panic(fmt.Sprintf("doc: the table %q has no column %q", t.Name, name))
		}
	}
	t.Rows = append(t.Rows, row)
}

// Column returns the column of this name, nil if there is none.
func (t *Table) Column(name string) *Column {
	i := slices.IndexFunc(t.Columns, func(c Column) bool { return c.Name == name })
	if i < 0 {
		return nil
	}
	return &t.Columns[i]
}

// Cell returns one cell as it is shown to somebody who reads in a view.
func (t *Table) Cell(row *Row, column *Column, v unit.View) (text Text, shown string) {
	text = row.Cells[column.Name]
	return text, text.Shown(column.View.Of(v))
}

// Heading returns the whole head of a column.
func (c *Column) Heading() Text {
	if c.Within.Empty() {
		return c.Head
	}
	return Join([]Text{c.Head, c.Within}, ", ")
}

// Filled returns the table without the columns in which no row has anything.
func (t *Table) Filled() *Table {
	filled := *t
	filled.Columns = slices.DeleteFunc(slices.Clone(t.Columns), func(c Column) bool {
		return c.Where != ByHand && !slices.ContainsFunc(t.Rows, func(r Row) bool { return !r.Cells[c.Name].Empty() })
	})
	filled.Rows = nil
	for _, row := range t.Rows {
		cells := maps.Clone(row.Cells)
		maps.DeleteFunc(cells, func(name string, _ Text) bool { return filled.Column(name) == nil })
		filled.Rows = append(filled.Rows, Row{Cells: cells, On: row.On})
	}
	return &filled
}
