package adjust

import (
	"math"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/lsq"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// slot is one variable of a reading's model: a column of the adjustment, the
// column of the departure from form where the surface has one, and the value
// of what is exact.
type slot struct {
	column int // -1: exact
	form   int // -1: none
	value  float64
}

func (s slot) at(x []float64) float64 {
	if s.column < 0 {
		return s.value
	}
	value := x[s.column]
	if s.form >= 0 {
		value += x[s.form]
	}
	return value
}

func (s slot) spread(row *lsq.Row, slope float64) {
	if s.column >= 0 {
		row.Add(s.column, slope)
	}
	if s.form >= 0 {
		row.Add(s.form, slope)
	}
}

// argument is what stands in a role: a slot times a factor, or the distance
// between two holes, whose four coordinates are slots.
type argument struct {
	slot     int
	factor   float64
	distance bool
	ends     [4]int // slots of x and y of the one hole, x and y of the other
}

// sigma is what one value of a reading scatters by.
type sigma struct {
	repeat, resolution, feel float64
}

// ofOne returns the standard deviation of one value.
func (s sigma) ofOne() float64 { return s.ofMean(1) }

// ofMean returns the standard deviation of the mean of n values of which each
// was rounded alike.
func (s sigma) ofMean(n int) float64 {
	return math.Sqrt((s.repeat*s.repeat+s.feel*s.feel)/float64(n) + s.resolution*s.resolution/12)
}

// forward predicts what one reading shows.
type forward struct {
	reading   *trade.Reading
	method    *gauge.Method
	slots     []slot
	arguments []argument // of a method of the catalogue
	formula   *expr.Expr // of the general reading; its names are the slots
	line      bool       // of a touch
	sigma     sigma
	zero      int     // column, -1 where there is none
	zeroScale float64 // 1, but for a formula without dimension
	feel      int     // column of the seating where all values share it, -1 otherwise
	dimension unit.Dimension
	middle    float64 // the middle one of what it showed, NaN where nothing is kept
}

// forward builds the model of a reading.
func (m *model) forward(r *trade.Reading) *forward {
	method, ok := gauge.Find(r.By)
	if !ok {
		panic("adjust: the job was not checked: it has a reading by an unknown method")
	}
	f := &forward{reading: r, method: method, zero: -1, zeroScale: 1, feel: -1, dimension: method.Reads}
	if r.By == trade.FormulaMethod {
		f.formula = r.That.Expr()
		f.dimension = dimensionOf(f.formula)
		for _, name := range f.formula.Names() {
			m.slotOf(f, name)
		}
	} else if gauge.Pairs(r.By) {
		m.fillTouch(f)
	} else {
		m.fillRoles(f)
	}
	m.addZero(f)
	return f
}

func (m *model) addZero(f *forward) {
	column, ok := m.zeros[f.reading.With]
	if ok && !f.pair() {
		f.zero = column
	}
	if f.reading.With != "" && f.dimension == unit.Number {
		f.zeroScale = plainScale(m.job, m.job.Instrument(f.reading.With))
	}
	if f.reading.SeatedOnce && f.reading.Feel.Given() && f.reading.Feel.Sign() > 0 {
		f.feel = m.column(unknown{kind: feelUnknown, id: f.reading.ID})
		m.prior(f.feel, 0, f.reading.Feel.Inside(), Source{Kind: fromFeel, ID: f.reading.ID})
	}
}

// plainScale returns what turns an instrument's mm or radians into the plain
// numbers that a formula without dimension is read in.
func plainScale(job *trade.Job, instrument *trade.Instrument) float64 {
	switch {
	case gauge.InstrumentReads(instrument) == unit.Angle:
		return 180 / math.Pi
	case job.Units == unit.Inch:
		return 1 / unit.MillimetresPerInch
	}
	return 1
}

// valueSigma returns what one value of the reading scatters by about its zero.
func valueSigma(job *trade.Job, r *trade.Reading, f *forward) sigma {
	e := errorOf(job.Instrument(r.With))
	s := sigma{repeat: e.Repeat * f.zeroScale, resolution: e.Resolution * f.zeroScale}
	if r.Feel.Given() && !r.SeatedOnce {
		s.feel = r.Feel.Inside()
	}
	return s
}

// countsOnce reports whether several values of a reading are one observation:
// the instrument repeats better than a third of its resolution, and the values
// lie within one step of each other.
func (f *forward) countsOnce(kept []int) bool {
	if f.pair() || len(kept) == 0 || f.sigma.repeat >= f.sigma.resolution/3 {
		return false
	}
	low, high := f.span()
	return high-low <= f.sigma.resolution*(1+1e-9)
}

// span returns the least and the greatest value that is not set aside.
func (f *forward) span() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, seen := range f.reading.Saw {
		if !seen.SetAside {
			low, high = min(low, seen.X.Inside()), max(high, seen.X.Inside())
		}
	}
	return low, high
}

// fillRoles puts the reading's arguments in the roles of its method.
func (m *model) fillRoles(f *forward) {
	f.arguments = make([]argument, len(f.method.Roles))
	ends := map[string]string{}
	given := map[int]bool{}
	for _, arg := range f.reading.Of {
		if arg.Role == "from" || arg.Role == "to" {
			ends[arg.Role] = arg.ID
			continue
		}
		role := f.method.Role(arg.Role)
		given[role] = true
		f.arguments[role] = m.argument(f, f.method.Roles[role], arg)
	}
	if len(ends) > 0 {
		role := f.method.Role(f.method.HolesFor)
		given[role] = true
		f.arguments[role] = m.distance(f, ends["from"], ends["to"])
	}
	for i, role := range f.method.Roles {
		if !given[i] {
			f.arguments[i] = argument{slot: f.constant(role.Default), factor: 1}
		}
	}
}

func (f *forward) constant(value float64) int {
	f.slots = append(f.slots, slot{column: -1, form: -1, value: value})
	return len(f.slots) - 1
}

func (m *model) argument(f *forward, role gauge.Role, arg trade.Arg) argument {
	if arg.ID == "" {
		return argument{slot: f.constant(arg.Value.Inside()), factor: 1}
	}
	factor := 1.0
	if size := m.size(arg.ID); size != nil {
		factor = role.Kind.Factor(size.Kind)
	}
	return argument{slot: m.slotOf(f, arg.ID), factor: factor}
}

// slotOf returns the slot of a size or piece, making one at its first use. A
// size with form has a departure of its own at every reading that touches it.
func (m *model) slotOf(f *forward, id string) int {
	if value, ok := m.exact[id]; ok {
		return f.constant(value)
	}
	column, isSize := m.sizes[id]
	if !isSize {
		column = m.pieces[id]
	}
	for i, s := range f.slots {
		if s.column == column {
			return i
		}
	}
	f.slots = append(f.slots, slot{column: column, form: m.formColumn(f.reading, id)})
	return len(f.slots) - 1
}

func (m *model) formColumn(r *trade.Reading, id string) int {
	size := m.size(id)
	if size == nil || !size.Form.Given() || size.Form.Sign() == 0 {
		return -1
	}
	column := m.column(unknown{kind: formUnknown, id: id})
	m.prior(column, 0, spread(size.Form, unit.Quantity{}), Source{Kind: fromForm, ID: r.ID})
	m.forms[id] = append(m.forms[id], formAt{reading: r.ID, column: column})
	return column
}

// distance makes an argument of the distance between two holes of a plan.
func (m *model) distance(f *forward, from, to string) argument {
	a := argument{distance: true}
	for i, hole := range []string{from, to} {
		for axis, column := range m.places[hole] {
			f.slots = append(f.slots, slot{column: column, form: -1})
			a.ends[2*i+axis] = len(f.slots) - 1
		}
	}
	return a
}

// args returns the values in the roles at x, with gradients over the slots.
func (f *forward) args(x []float64) [grad.Width]grad.Number {
	var args [grad.Width]grad.Number
	for i, a := range f.arguments {
		if !a.distance {
			args[i] = f.variable(x, a.slot).Times(a.factor)
			continue
		}
		dx := f.variable(x, a.ends[2]).Sub(f.variable(x, a.ends[0]))
		dy := f.variable(x, a.ends[3]).Sub(f.variable(x, a.ends[1]))
		args[i] = dx.Sq().Add(dy.Sq()).Sqrt()
	}
	return args
}

// roles returns the values in the roles at x.
func (f *forward) roles(x []float64) []float64 {
	args := f.args(x)
	values := make([]float64, len(f.arguments))
	for i := range values {
		values[i] = args[i].X
	}
	return values
}

func (f *forward) variable(x []float64, slot int) grad.Number {
	s := f.slots[slot]
	if s.column < 0 {
		return grad.Const(s.value)
	}
	return grad.Var(s.at(x), slot)
}

// predict returns what the instrument would show at x, and adds the gradient
// to row unless that is nil.
func (f *forward) predict(x []float64, row *lsq.Row) float64 {
	var value float64
	if f.formula != nil {
		value = f.evaluate(x, row)
	} else {
		args := f.args(x)
		value = f.gather(f.method.Model(args[:len(f.arguments)]), row)
	}
	if f.zero >= 0 {
		value += f.zeroScale * x[f.zero]
		addTo(row, f.zero, f.zeroScale)
	}
	if f.feel >= 0 {
		value += x[f.feel]
		addTo(row, f.feel, 1)
	}
	return value
}

func addTo(row *lsq.Row, column int, value float64) {
	if row != nil {
		row.Add(column, value)
	}
}

// gather hands a gradient over the slots on to the columns.
func (f *forward) gather(n grad.Number, row *lsq.Row) float64 {
	if row != nil {
		for i, s := range f.slots {
			s.spread(row, n.D[i])
		}
	}
	return n.X
}

// touch returns by how much a touch at (px, py) misses the path of the stylus.
func (f *forward) touch(x []float64, px, py float64, row *lsq.Row) float64 {
	args := f.args(x)
	if f.line {
		return f.gather(gauge.TouchLine(px, py, args[:len(f.arguments)]), row)
	}
	return f.gather(gauge.TouchCircle(px, py, args[:len(f.arguments)]), row)
}

// evaluate returns the value of the formula at x.
func (f *forward) evaluate(x []float64, row *lsq.Row) float64 {
	values := make([]float64, len(f.slots), 16)
	for i, s := range f.slots {
		values[i] = s.at(x)
	}
	if row == nil {
		return f.formula.Eval(values, nil)
	}
	gradient := make([]float64, len(f.slots), 16)
	value := f.formula.Eval(values, gradient)
	for i, s := range f.slots {
		s.spread(row, gradient[i])
	}
	return value
}

// place returns the id of the circle or line that a touch meets.
func (f *forward) place() string {
	for _, arg := range f.reading.Of {
		if arg.Role == "circle" || arg.Role == "line" {
			return arg.ID
		}
	}
	return ""
}

// inOrder returns the values in the roles at x in the order of the method. For
// a touch these are the circle's diameter (none for a line), stylus and side.
func (f *forward) inOrder(x []float64) []float64 {
	values := f.roles(x)
	switch {
	case !f.pair():
		return values
	case f.line:
		return append([]float64{math.NaN()}, values[2:]...)
	}
	return values[2:]
}

// fillTouch puts a touch's arguments in order: the place's two coordinates, a
// circle's diameter, the stylus and its side.
func (m *model) fillTouch(f *forward) {
	place := m.job.Place(f.place())
	f.line = place.Kind == trade.Line
	for _, column := range m.places[place.ID] {
		f.slots = append(f.slots, slot{column: column, form: -1})
		f.arguments = append(f.arguments, argument{slot: len(f.slots) - 1, factor: 1})
	}
	if !f.line {
		diameter := trade.Arg{ID: place.Diameter.ID, Value: place.Diameter.Value}
		f.arguments = append(f.arguments, m.argument(f, gauge.Role{Kind: gauge.Diameter}, diameter))
	}
	for _, name := range []string{"stylus", "side"} {
		for _, arg := range f.reading.Of {
			if arg.Role == name {
				f.arguments = append(f.arguments, m.argument(f, f.method.Roles[f.method.Role(name)], arg))
			}
		}
	}
}

// nearest returns the place on the path of the stylus nearest to a touch.
func (f *forward) nearest(x []float64, touch [2]float64) [2]float64 {
	values := f.roles(x)
	var px, py float64
	if f.line {
		px, py = gauge.NearestOnLine(touch[0], touch[1], values)
	} else {
		px, py = gauge.NearestOnCircle(touch[0], touch[1], values)
	}
	return [2]float64{px, py}
}

// pair reports whether the reading shows pairs.
func (f *forward) pair() bool { return f.method.Pairs }
