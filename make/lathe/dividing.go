package lathe

import (
	"cmp"
	"math"
	"math/big"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// DividingWanted is so many equal divisions of a circle, or steps of an angle:
// one of the two.
type DividingWanted struct {
	Count int
	Angle unit.Quantity
}

// Dividing is how a rotary table or dividing head is turned by one step.
type Dividing struct {
	Wanted DividingWanted
	Table  *trade.RotaryTable
	Turns  *big.Rat // of the handle for one step, exact

	// Plain are the ways with one circle of holes: where some are exact those, the
	// largest circle first, else the nearest on each circle, best first.
	Plain []Indexing

	// Compound and Differential are sought where no plain way is exact, the latter
	// for divisions where gears are given.
	Compound     []CompoundIndexing
	Differential []DifferentialIndexing

	Dial     HandleMove // by the dial on the handle, not known where it has none
	Warnings []string
	Advice   []string
}

// Indexing is a move of the handle by whole turns and holes on a circle. Errors
// are those of the table's angle, in rad, 0 only where the way is exact.
type Indexing struct {
	Turns, Holes, Circle int
	Error                float64 // of one step
	Last                 float64 // at the end of the circle, where each step is taken from the one before
	Counted              float64 // the largest, where each step is counted from the first to the nearest hole
}

// The bounds of what is divided.
const (
	mostDivisions = 100_000
	mostTurns     = 1000 // of the handle for one of the table
	mostCircles   = 100
)

// Divide works out the moves:
//
//	turns of the handle = ratio / divisions = ratio · angle / 360°
//
// in exact arithmetic. The error, trade.Faults, says what is wrong with the table
// or with what is wanted.
func Divide(table *trade.RotaryTable, wanted DividingWanted) (*Dividing, error) {
	if err := wanted.check(table); err != nil {
		return nil, err
	}
	step := wanted.step()
	d := &Dividing{Wanted: wanted, Table: table, Turns: new(big.Rat).Mul(step, big.NewRat(int64(table.Ratio), 1))}
	d.Dial = turnOf(&trade.Machinery{Table: table}, 2*math.Pi*nearest(step))
	d.plain()
	if len(d.Plain) > 0 && d.Plain[0].Error != 0 {
		d.compound()
		d.differential()
	}
	d.advise()
	return d, nil
}

// step returns one step in turns of the table.
func (w DividingWanted) step() *big.Rat {
	if w.Count > 0 {
		return big.NewRat(1, int64(w.Count))
	}
	return w.Angle.Turns()
}

func (w DividingWanted) check(table *trade.RotaryTable) error {
	var faults trade.Faults
	wrong := func(format string, args ...any) { faults.Add(table.Pos, format, args...) }
	if table.Ratio < 1 || table.Ratio > mostTurns {
		wrong("the handle turns %d times for one turn of the table: from 1 to %d are wanted", table.Ratio, mostTurns)
	}
	if !Divides(table) {
		wrong("neither hole circles nor a dial on the handle are known: there is nothing to divide by")
	}
	if len(table.Plates) > mostCircles || len(table.Gears) > mostGears {
		wrong("%d circles and %d gears: at most %d and %d are wanted", len(table.Plates), len(table.Gears), mostCircles, mostGears)
	}
	for _, circle := range table.Plates {
		if circle < 1 || circle > mostTeeth {
			wrong("a circle of %d holes: from 1 to %d are wanted", circle, mostTeeth)
		}
	}
	for _, teeth := range table.Gears {
		if teeth < 1 || teeth > mostTeeth {
			wrong("a gear of %d teeth: from 1 to %d are wanted", teeth, mostTeeth)
		}
	}
	switch {
	case w.Angle.Given() == (w.Count != 0):
		wrong("either a number of divisions is wanted or an angle")
	case w.Count != 0 && (w.Count < 2 || w.Count > mostDivisions):
		wrong("%d divisions: from 2 to %d are wanted", w.Count, mostDivisions)
	case w.Angle.Given() && (w.Angle.IsTaper() || w.Angle.Sign() <= 0 || w.Angle.Turns().Cmp(big.NewRat(1, 1)) >= 0):
		wrong("a step of %v: an angle greater than 0 and less than 360° is wanted", w.Angle)
	}
	return faults.Err()
}

// Divides reports whether there is anything on a table to divide by.
func Divides(table *trade.RotaryTable) bool { return len(table.Plates) > 0 || table.Divisions > 0 }

// circles returns the numbers of holes, each once, largest first.
func (d *Dividing) circles() []int {
	list := sorted(d.Table.Plates)
	slices.Reverse(list)
	return slices.Compact(list)
}

// plain finds the ways with one circle.
func (d *Dividing) plain() {
	for _, circle := range d.circles() {
		d.Plain = append(d.Plain, d.on(circle))
	}
	slices.SortStableFunc(d.Plain, func(a, b Indexing) int { return cmp.Compare(math.Abs(a.Error), math.Abs(b.Error)) })
	if inexact := slices.IndexFunc(d.Plain, func(i Indexing) bool { return i.Error != 0 }); inexact > 0 {
		d.Plain = d.Plain[:inexact]
	}
}

// on returns the nearest move on a circle: one hole at least.
func (d *Dividing) on(circle int) Indexing {
	holes := max(1, wholeNearest(new(big.Rat).Mul(d.Turns, big.NewRat(int64(circle), 1))))
	i := Indexing{Turns: holes / circle, Holes: holes % circle, Circle: circle, Error: d.off(big.NewRat(int64(holes), int64(circle)))}
	i.Last, i.Counted = i.Error, math.Abs(i.Error)
	if d.Wanted.Count > 0 {
		i.Last, i.Counted = float64(d.Wanted.Count)*i.Error, d.counted(circle)
	}
	return i
}

// off returns what the table turns too far where the handle turns so often.
func (d *Dividing) off(turns *big.Rat) float64 {
	over := new(big.Rat).Sub(turns, d.Turns)
	return nearest(over) * 2 * math.Pi / float64(d.Table.Ratio)
}

// counted returns the largest error of a step that is counted from the first to
// the nearest hole. k steps are k·p/q holes, and round the whole circle what they
// lack of whole holes takes every value from 0 to (q - 1)/q.
func (d *Dividing) counted(circle int) float64 {
	holes := new(big.Rat).Mul(d.Turns, big.NewRat(int64(circle), 1))
	half := new(big.Int).Quo(holes.Denom(), big.NewInt(2))
	return nearest(new(big.Rat).SetFrac(half, holes.Denom())) / float64(circle) * 2 * math.Pi / float64(d.Table.Ratio)
}

// wholeNearest returns the whole number nearest to x, x >= 0, the greater of two.
func wholeNearest(x *big.Rat) int {
	half := new(big.Rat).Add(x, big.NewRat(1, 2))
	return int(new(big.Int).Quo(half.Num(), half.Denom()).Int64())
}

// advise says what is doubtful and how the ways are used (common practice, no
// source).
func (d *Dividing) advise() {
	if len(d.Plain) > 0 && d.Plain[0].Error != 0 {
		d.Warnings = append(d.Warnings, "No circle of holes gives this exactly.")
	}
	d.Advice = append(d.Advice, "Turn the handle one way only. Where you have gone past a hole go back half a turn and come to it again, for the play of the worm.")
	if len(d.Plain) > 0 {
		d.Advice = append(d.Advice, "Set the sector arms so that the holes counted are between them: the hole that the pin is in is not one of them.")
	}
	if len(d.Compound) > 0 {
		d.Advice = append(d.Advice, "Compound: turn the handle by the first, then draw the back pin and turn handle and plate together by the second; negative is backwards. Both circles must be on one plate.")
	}
	if len(d.Differential) > 0 {
		d.Advice = append(d.Advice, "Differential: gear the plate to the table's spindle, and let the back pin out. Try over one turn that the plate goes the way that is told; an idler more or less turns it round. Spiral work cannot be done so.")
	}
}
