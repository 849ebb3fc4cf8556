package booklet

import (
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// The measures of tables.
const (
	columnGap   = 3.5
	overRow     = 2.0  // over the first line of a row
	underRow    = 1.2  // under its last
	boxPad      = 0.9  // over and under a box to write in
	writeWidth  = 24.0 // of a column to write in, at the least
	writeHeight = 8.5  // of a row with one
	mostWord    = 40.0 // what one word may ask of the width of its column
	shortCell   = 17.0 // a cell that is not broken
	mostFigure  = 50.0 // one of figures that is not
	mostRow     = 100.0
	shortTable  = 60.0
)

// setting is a table with the places of its columns.
type setting struct {
	*Table
	left, width []float64
	whole       float64
}

func (t Table) strips(width float64) []strip {
	s := setting{Table: &t, whole: width, width: t.widths(width)}
	x := 0.0
	for _, w := range s.width {
		s.left = append(s.left, x)
		x += w + columnGap
	}
	s.whole = min(width, x-columnGap)
	head := s.headed()
	list := []strip{head}
	for i, row := range t.Rows {
		goesOn := i+1 < len(t.Rows) && t.Rows[i+1][0] == ""
		for _, r := range s.row(row, goesOn) {
			r.head = &head
			list = append(list, r)
		}
	}
	together(list)
	return list
}

// together keeps a short table whole, and of a longer one the first two rows and
// the last two.
func together(list []strip) {
	high := 0.0
	for i := range list {
		high += list[i].Height
	}
	last := len(list) - 1
	for i := range list[:last] {
		if high <= shortTable || i <= 1 || i == last-1 {
			list[i].keeps = true
		}
	}
}

// widths shares the width out: each column has what it wants where there is
// enough; else the widest give way first, down to their longest word, and if
// that is not enough beyond it.
func (t *Table) widths(width float64) []float64 {
	room := width - columnGap*float64(len(t.Columns)-1)
	wanted, least := make([]float64, len(t.Columns)), make([]float64, len(t.Columns))
	for i := range t.Columns {
		wanted[i], least[i] = t.wants(i)
	}
	if spare := room - total(wanted); spare >= 0 {
		return t.spread(wanted, spare)
	}
	if total(least) > room {
		return levelled(least, make([]float64, len(least)), room)
	}
	return levelled(wanted, least, room)
}

// levelled cuts widths off at one level, though none under its least, so that
// they fill the room.
func levelled(wanted, least []float64, room float64) []float64 {
	const steps = 50
	shared := make([]float64, len(wanted))
	low, high := 0.0, room
	for range steps {
		level := (low + high) / 2
		for i := range shared {
			shared[i] = max(least[i], min(wanted[i], level))
		}
		if total(shared) > room {
			high = level
		} else {
			low = level
		}
	}
	return shared
}

// wants returns the width at which no cell of a column is broken, and that at
// which no word is.
func (t *Table) wants(column int) (all, word float64) {
	c := &t.Columns[column]
	measure := func(words string, s style) {
		words = ink.Readable(words)
		all = max(all, s.width(words))
		for _, w := range strings.Fields(words) {
			word = max(word, min(mostWord, s.width(w)))
		}
	}
	measure(c.Head, styles[Quiet])
	if c.Write {
		return max(all, writeWidth), max(word, writeWidth)
	}
	for _, row := range t.Rows {
		measure(row[column], styles[c.Weight])
	}
	whole := shortCell
	if c.Weight == Figure || c.Weight == Large {
		whole = mostFigure
	}
	if all <= whole {
		word = all
	}
	return all, word
}

// spread gives what is to spare to the columns to write in.
func (t *Table) spread(widths []float64, spare float64) []float64 {
	n := 0
	for _, c := range t.Columns {
		if c.Write {
			n++
		}
	}
	for i, c := range t.Columns {
		if c.Write {
			widths[i] += min(spare/float64(n), writeWidth)
		}
	}
	return widths
}

func total(list []float64) float64 {
	sum := 0.0
	for _, x := range list {
		sum += x
	}
	return sum
}

// headed returns the row of heads, over a rule.
func (s *setting) headed() strip {
	lines, most := make([][]string, len(s.Columns)), 0
	quiet := styles[Quiet]
	for i, c := range s.Columns {
		lines[i] = quiet.wrap(c.Head, s.width[i])
		most = max(most, len(lines[i]))
	}
	height := float64(most)*quiet.pitch() + underRow
	head := blank(height)
	for i, c := range s.Columns {
		first := underRow + float64(len(lines[i])-1)*quiet.pitch()
		s.put(&head, i, lines[i], quiet, first, c.Align)
	}
	head.Add(rule(geom.Point{}, geom.Point{X: s.whole}, ink.Rule))
	head.keeps, head.above = true, 2
	return head
}

// put writes the lines of a cell, the first base line at y.
func (s *setting) put(on *strip, column int, lines []string, as style, y float64, align ink.Align) {
	x := s.left[column]
	switch align {
	case ink.Centred:
		x += s.width[column] / 2
	case ink.RightAligned:
		x += s.width[column]
	}
	for i, words := range lines {
		if words != "" {
			on.Add(as.text(words, geom.Point{X: x, Y: y - float64(i)*as.pitch()}, align))
		}
	}
}

// row returns the strips of one row: one, but of a cell that is higher than
// mostRow as many as it takes. One that goes on keeps with the next, and has no
// rule under it.
func (s *setting) row(cells []string, goesOn bool) []strip {
	lines := make([][]string, len(cells))
	for i, c := range s.Columns {
		if !c.Write {
			lines[i] = styles[c.Weight].wrap(cells[i], s.width[i])
		}
	}
	var list []strip
	for first := true; first || left(lines); first = false {
		list = append(list, s.rowOf(s.taken(lines), first))
	}
	last := &list[len(list)-1]
	if last.keeps = goesOn; !goesOn {
		last.Add(rule(geom.Point{}, geom.Point{X: s.whole}, ink.Ghost))
	}
	return list
}

func left(lines [][]string) bool {
	for _, l := range lines {
		if len(l) > 0 {
			return true
		}
	}
	return false
}

// taken takes from each cell as many lines as a row may have.
func (s *setting) taken(lines [][]string) [][]string {
	part := make([][]string, len(lines))
	for i, c := range s.Columns {
		n := min(len(lines[i]), int(mostRow/styles[c.Weight].pitch()))
		part[i], lines[i] = lines[i][:n], lines[i][n:]
	}
	return part
}

// rowOf returns a row with the first lines of all cells on one base line.
func (s *setting) rowOf(lines [][]string, write bool) strip {
	up, down := 0.0, 0.0
	for i, c := range s.Columns {
		as := styles[c.Weight]
		switch {
		case len(lines[i]) > 0:
			up = math.Max(up, as.height)
			down = math.Max(down, float64(len(lines[i])-1)*as.pitch()+descent*as.height)
		case c.Write && write:
			up = math.Max(up, writeHeight-overRow-underRow)
		}
	}
	height := up + down + overRow + underRow
	r := blank(height)
	for i, c := range s.Columns {
		if c.Write {
			if write {
				low := geom.Point{X: s.left[i], Y: boxPad}
				r.Add(ink.Stroke{Path: geom.Rectangle(low, geom.Point{X: low.X + s.width[i], Y: height - boxPad}), Kind: ink.Rule, Layer: ink.Border})
			}
			continue
		}
		s.put(&r, i, lines[i], styles[c.Weight], height-overRow-up, c.Align)
	}
	return r
}
