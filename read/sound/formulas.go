package sound

import (
	"errors"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/expr"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// scope is what a formula may name.
type scope uint8

const (
	ofTheJob  scope = iota // sizes and gauge pieces
	ofThePart              // these, and sizes of the part as part.ID
	asMade                 // these, and the diameters of its threads as part.ID.effective
)

// named returns what the thing of a name measures, whether that is sure, and
// whether there is such a thing in scope. A thread counts by its diameter.
func (c *check) named(name string, s scope) (d unit.Dimension, sure, known bool) {
	if id, ofPart := strings.CutPrefix(name, keys.PartPrefix); ofPart && s != ofTheJob {
		i, there := c.madeNamed(id, s)
		if !there {
			return d, false, false
		}
		d, sure = c.dimensionMade(i)
		return d, sure, true
	}
	o, there := c.owners[name]
	if !there || o.thing != aSize && o.thing != aPiece {
		return d, false, false
	}
	d, sure = c.dimensionOf(o)
	return d, sure, true
}

// dimensionOf returns what the owner of an id measures, false for a size whose
// kind is wrong.
func (c *check) dimensionOf(o owner) (unit.Dimension, bool) {
	if o.thing != aSize {
		return unit.Length, o.thing == aPiece
	}
	kind := c.job.Sizes[o.index].Kind
	return kind.Dimension(), slices.Contains(trade.SizeKinds, kind)
}

// madeNamed returns the index of the size of the part with this name: its id, of a
// thread that was made also with that of another of its diameters.
func (c *check) madeNamed(name string, s scope) (index int, there bool) {
	id, diameter, dotted := strings.Cut(name, ".")
	i, there := c.made[id]
	if !there || !dotted {
		return i, there
	}
	thread := s == asMade && c.job.Part.Sizes[i].From == trade.IsThread
	return i, thread && (diameter == trade.EffectiveDiameter || diameter == trade.MinorDiameter)
}

// dimensionMade returns what the size of the part with this index measures, false
// for one whose kind or origin is wrong.
func (c *check) dimensionMade(i int) (unit.Dimension, bool) {
	size := &c.job.Part.Sizes[i]
	if size.From == trade.IsThread {
		return unit.Length, true
	}
	return size.Kind.Dimension(), slices.Contains(trade.SizeKinds, size.Kind)
}

// madeNames returns the sizes of the part as they are written outside of it, with
// all diameters of the threads.
func (c *check) madeNames() []string {
	var names []string
	for id, i := range c.made {
		names = append(names, keys.PartPrefix+id)
		if c.job.Part.Sizes[i].From == trade.IsThread {
			names = append(names, keys.PartPrefix+id+"."+trade.EffectiveDiameter,
				keys.PartPrefix+id+"."+trade.MinorDiameter)
		}
	}
	slices.Sort(names)
	return names
}

// sizeMade faults what is no size of the part that measures d.
func (c *check) sizeMade(id, about string, pos trade.Pos, d unit.Dimension) {
	i, there := c.made[id]
	if !there {
		c.unknown(id, about, string(aPartSize), pos, c.madeIDs())
		return
	}
	found, sure := c.dimensionMade(i)
	switch {
	case c.job.Part.Sizes[i].From == trade.IsThread:
		c.fault(pos, "%s: %s is a thread where %s should be", about, quote(id), dimensionNames[d])
	case sure && found != d:
		c.fault(pos, "%s: %s is %s where %s should be", about, quote(id), dimensionNames[found], dimensionNames[d])
	}
}

// threadMade faults what is no thread of the part.
func (c *check) threadMade(id, about string, pos trade.Pos) {
	i, there := c.made[id]
	switch {
	case !there:
		c.unknown(id, about, string(aPartSize), pos, c.madeIDs())
	case c.job.Part.Sizes[i].From != trade.IsThread:
		c.fault(pos, "%s: %s is no thread; a size of the part is one by its %q", about, quote(id), trade.IsThread)
	}
}

func (c *check) madeIDs() []string {
	var ids []string
	for id := range c.made {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	return ids
}

// parser is one of the ways to read a formula.
type parser func(text string, env expr.Env) (*expr.Expr, error)

// rightSide returns the parser of what something of this dimension equals.
func rightSide(d expr.Dimension) parser {
	return func(text string, env expr.Env) (*expr.Expr, error) { return expr.ParseRightSide(text, d, env) }
}

// longestFormula is the most characters a formula may have.
const longestFormula = 10_000

// formula reads a formula and leaves what it says with it; nil where it cannot be
// read.
func (c *check) formula(f *trade.Formula, about string, s scope, parse parser) *expr.Expr {
	e := c.read(f.Text, about, f.Pos, s, parse)
	if e != nil {
		f.Resolve(e)
	}
	return e
}

func (c *check) read(text, about string, pos trade.Pos, s scope, parse parser) *expr.Expr {
	if len(text) > longestFormula {
		c.fault(pos, "%s: the expression has more than %d characters", about, longestFormula)
		return nil
	}
	unsure := false
	env := expr.Env{Bare: c.job.Units, Lookup: func(name string) (expr.Symbol, bool) {
		d, sure, known := c.named(name, s)
		unsure = unsure || known && !sure
		return expr.Symbol{Dimension: d}, known
	}}
	if len(c.faults) < mostGuesses {
		env.Names = c.likely(s)
	}
	e, err := parse(text, env)
	if err == nil {
		return e
	}
	var wrong *expr.Error
	if !errors.As(err, &wrong) {
		panic("sound: the formula reading returned an error that has no column")
	}
	// A size whose kind is wrong has a fault of its own; what follows from it is none.
	if !unsure {
		c.fault(pos, "%s: %s", about, c.formulaFault(wrong, s))
	}
	return nil
}

// likely returns what a formula may have meant, gathered once.
func (c *check) likely(s scope) []string {
	if c.names == nil {
		c.names = c.ids(aSize, aPiece)
	}
	if s == ofTheJob {
		return c.names
	}
	if c.partNames == nil {
		c.partNames = append(c.madeNames(), c.names...)
	}
	return c.partNames
}

// formulaFault says what is wrong in a formula.
func (c *check) formulaFault(wrong *expr.Error, s scope) string {
	_, made := c.made[wrong.Text]
	switch {
	case wrong.Text == "":
		return wrong.Want
	case made && s != ofTheJob:
		return quote(wrong.Text) + ": a size of the part is written " + keys.PartPrefix + wrong.Text
	}
	return quote(wrong.Text) + ": " + wrong.Want
}

// measured returns the dimension of a formula as that of a quantity, false for
// powers of lengths.
func measured(d expr.Dimension) (unit.Dimension, bool) {
	switch {
	case d.IsLength():
		return unit.Length, true
	case d.IsAngle():
		return unit.Angle, true
	}
	return unit.Number, d.IsNumber()
}

// namesSize reports whether one of the formulas names a size.
func (c *check) namesSize(formulas ...*expr.Expr) bool {
	for _, e := range formulas {
		if slices.ContainsFunc(e.Names(), func(id string) bool { return c.owners[id].thing == aSize }) {
			return true
		}
	}
	return false
}

// speaksOfPart reports whether a formula names a size of the part.
func speaksOfPart(e *expr.Expr) bool {
	return slices.ContainsFunc(e.Names(), func(name string) bool { return strings.HasPrefix(name, keys.PartPrefix) })
}
