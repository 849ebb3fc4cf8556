package draw

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// originColumns are the headings of the table of origins and their widths in mm.
// The last column takes what the table is wider.
var originColumns = [...]cell{
	{label: "size", width: 24},
	{label: "make to", width: 19},
	{label: "limits", width: 28},
	{label: "from", width: 18},
	{label: "U 95 %", width: 12},
	{label: "why", width: 14},
}

// The least width of the table of origins, in mm, and what it is at most beside
// a title block.
const (
	originsLeast = 115.0
	originsMost  = 145.0
)

// originTable is the table of where the named sizes come from.
type originTable struct {
	width float64
	rows  [][]string
}

// origins gathers the named measures of the part.
func (d *drawing) origins(width float64) originTable {
	t := originTable{width: width}
	for _, m := range d.model.Measures {
		if m.Name != "" {
			t.rows = append(t.rows, d.letters.origin(m))
		}
	}
	return t
}

// origin writes one measure across the columns.
func (l lettering) origin(m part.Measure) []string {
	scale := l.scaleOf(m.Kind)
	s := scale.of(m)
	limits := m.Code
	switch {
	case s.equal != "":
		limits += " ±" + s.equal
	case s.upper != "":
		limits += " " + s.upper + " / " + s.lower
	}
	known := ""
	if m.From == part.Measured && m.U > 0 {
		_, known = unit.WithUncertainty(m.Value/scale.inside, halfWidth95*m.U/scale.inside)
	}
	return []string{m.Name, s.nominal, limits, originWords[m.From], known, m.Why}
}

// scaleOf returns how sizes of a kind are written.
func (l lettering) scaleOf(kind trade.SizeKind) scale {
	switch {
	case kind.Dimension() == unit.Angle:
		return degreeScale
	case l.units == unit.Inch && !l.dual:
		return inchScale
	}
	return millimetreScale
}

// originWords are the names of the origins.
var originWords = map[part.Origin]string{
	part.Chosen: "chosen", part.Measured: "measured", part.Meant: "meant", part.MadeToFit: "made to fit", part.Standard: "standard",
}

// height returns that of the table with its heading.
func (t originTable) height() float64 { return float64(len(t.rows)+1) * rowHeight }

// marks draws the table from its upper left corner.
func (t originTable) marks(at geom.Point) []ink.Mark {
	var list []ink.Mark
	bottom := at.Y - t.height()
	x := at.X
	columns := originColumns
	columns[len(columns)-1].width += t.width - originsLeast
	for i, column := range columns {
		list = append(list, fitted(column.label, labelHeight, column.width, geom.Point{X: x + cellPad, Y: at.Y - rowHeight + 1.2}, false, true))
		for j, row := range t.rows {
			if row[i] != "" {
				place := geom.Point{X: x + cellPad, Y: at.Y - float64(j+2)*rowHeight + 1.2}
				list = append(list, fitted(row[i], 2.2, column.width, place, i == 0, false))
			}
		}
		x += column.width
		if i < len(columns)-1 {
			list = append(list, tableLine(geom.Point{X: x, Y: bottom}, geom.Point{X: x, Y: at.Y}))
		}
	}
	for j := range t.rows {
		y := at.Y - float64(j+1)*rowHeight
		list = append(list, tableLine(geom.Point{X: at.X, Y: y}, geom.Point{X: at.X + t.width, Y: y}))
	}
	return append(list, box(geom.Point{X: at.X, Y: bottom}, geom.Point{X: at.X + t.width, Y: at.Y}, ink.Frame))
}

func tableLine(a, b geom.Point) ink.Stroke {
	return ink.Stroke{Path: geom.Polyline(a, b), Kind: ink.Rule, Layer: ink.Border}
}

// halfWidth95 is the half of a normal 95 % interval in standard uncertainties.
const halfWidth95 = 1.959964
