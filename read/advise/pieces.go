package advise

import (
	"maps"
	"math"
	"slices"
	"strings"
	"sync"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/grad"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// choices returns what of the kit may stand in an open role: pieces of a
// fitting kind, and whatever has stood there; nothing too where it may be left
// out.
func (s *survey) choices(sh *shape, role *gauge.Role) []trade.Arg {
	var list []trade.Arg
	if role.Optional {
		list = append(list, trade.Arg{})
	}
	kinds := open(role)
	for _, p := range s.r.Job.Pieces {
		if slices.Contains(kinds, p.Kind) {
			list = append(list, trade.Arg{Role: role.Name, ID: p.ID})
		}
	}
	for _, arg := range sh.stood[role.Name] {
		if !slices.ContainsFunc(list, func(a trade.Arg) bool { return same(a, arg) }) {
			list = append(list, arg)
		}
	}
	return list
}

// fillings returns every choice of pieces for the open roles of a shape.
func (s *survey) fillings(sh *shape) [][]trade.Arg {
	list := [][]trade.Arg{nil}
	for i := range sh.method.Roles {
		role := &sh.method.Roles[i]
		if open(role) == nil {
			continue
		}
		var longer [][]trade.Arg
		for _, filling := range list {
			for _, arg := range s.choices(sh, role) {
				longer = append(longer, append(slices.Clone(filling), arg))
			}
		}
		list = longer
	}
	return list
}

// The grades that a borrowed piece is taken to be of: what a bearing shop and a
// toolroom have (common practice, no source).
const (
	ballGrade = "G28"
	pinClass  = "ZZ"
)

// standard is a piece of a standard set.
type standard struct {
	trade.Piece
	diameter float64
}

// balls returns the balls of the trade, of a lot sorted to the nominal gauge.
var balls = sync.OnceValue(func() []standard {
	tolerance := 0.0
	for _, g := range facts.BallGrades() {
		if g.Grade == ballGrade {
			tolerance = (g.Interval + g.LotVariation) / 2
		}
	}
	var list []standard
	for _, b := range facts.Balls() {
		text := b.Designation + " in"
		if b.Metric {
			text = b.Designation + " mm"
		}
		size, err := unit.ParseLength(text, unit.Millimetre)
		if err != nil {
			panic("advise: a ball of the table has no size")
		}
		list = append(list, newStandard(trade.Ball, size, tolerance))
	}
	return list
})

// pins returns the pins of the boxed sets, from one thousandth of an inch to
// the next.
var pins = sync.OnceValue(func() []standard {
	var list []standard
	for _, set := range facts.PinSets() {
		for _, thou := range set.Sizes() {
			size, err := unit.New(int64(thou), 1000, unit.Inch)
			if err != nil {
				panic("advise: a pin of the table has no size")
			}
			list = append(list, newStandard(trade.Pin, size, pinTolerance(size.Inside())))
		}
	}
	return list
})

func pinTolerance(diameter float64) float64 {
	for _, c := range facts.PinClasses() {
		if c.Class == pinClass && c.Over < diameter && diameter <= c.To {
			return c.Tolerance
		}
	}
	panic("advise: the table has no tolerance for a pin of its own sets")
}

// newStandard returns a piece with an id made from its size.
func newStandard(kind trade.PieceKind, size unit.Quantity, tolerance float64) standard {
	t, err := inside(tolerance, unit.Length)
	if err != nil {
		panic("advise: a piece of a standard set has no tolerance")
	}
	name := strings.NewReplacer(" ", "_", "/", "_", ".", "_").Replace(size.String())
	return standard{
		Piece:    trade.Piece{ID: string(kind) + "_" + name, Kind: kind, Size: size, Tolerance: t},
		diameter: size.Inside(),
	}
}

// lent returns the standard set that is lent for a role: balls for balls, and
// pins for all that is round and long. Those written as the job is stand first,
// and what the kit has is left out.
func (s *survey) lent(kind trade.PieceKind) []standard {
	if gauge.PieceOf(kind).From != gauge.BallSet {
		return pins()
	}
	var native, foreign []standard
	for _, p := range balls() {
		if p.Size.Unit() == s.r.Job.Units {
			native = append(native, p)
		} else {
			foreign = append(foreign, p)
		}
	}
	return append(native, foreign...)
}

// owns reports whether the kit has a piece of this kind and size.
func (s *survey) owns(p standard) bool {
	return slices.ContainsFunc(s.r.Job.Pieces, func(own trade.Piece) bool {
		return own.Kind == p.Kind && math.Abs(own.Size.Inside()-p.diameter) < 1e-6
	})
}

// margin is how far a borrowed piece keeps from where its method ends, as a
// part of its size: near there a small error counts for much.
const margin = 0.02

// most is how many pieces of a set are tried: the uncertainty changes little
// from one to the next.
const most = 24

// borrowable returns the pieces worth trying in a role, the other roles filled:
// those that the method's rules allow and that are near enough to what has
// stood there, where the rules do not say how large the work's own room is.
func (s *survey) borrowable(sh *shape, filling []trade.Arg, role int) []trade.Piece {
	low, high, ok := sh.bounds(role, s.r)
	if !ok {
		return nil
	}
	values := valuesOf(sh.method, append(slices.Collect(maps.Values(sh.of)), filling...), s.r)
	sound := func(d float64) bool { return sh.sound(values, role, d) }
	var list []trade.Piece
	for _, p := range s.lent(open(&sh.method.Roles[role])[0]) {
		d := p.diameter
		if d < low || d > high || s.owns(p) || !sound(d) || !sound(d*(1-margin)) || !sound(d*(1+margin)) {
			continue
		}
		for s.inJob(p.ID) {
			p.ID += "_lent"
		}
		list = append(list, p.Piece)
	}
	return spread(list)
}

// inJob reports whether an id stands for something in the job.
func (s *survey) inJob(id string) bool {
	job := s.r.Job
	plan, _ := job.Hole(id)
	return job.Size(id) != nil || job.Piece(id) != nil || job.Instrument(id) != nil || job.Place(id) != nil || plan != nil
}

// spread returns at most a few of a list, its ends among them.
func spread(list []trade.Piece) []trade.Piece {
	if len(list) <= most {
		return list
	}
	var few []trade.Piece
	for i := range most {
		few = append(few, list[i*(len(list)-1)/(most-1)])
	}
	return few
}

// bounds returns the diameters between which a borrowed piece is known to find
// room: not over the largest that has stood in the role, unless the method's
// rules or a height given say how large it may be, and not under half the
// smallest. It returns false where nothing says.
func (sh *shape) bounds(role int, r *adjust.Result) (low, high float64, ok bool) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, arg := range sh.stood[sh.method.Roles[role].Name] {
		d := sizeOf(arg, r)
		low, high = min(low, d/2), max(high, d)
	}
	if sh.roomGiven() || sh.method.Roles[role].RulesLargest {
		high = math.Inf(1)
	}
	if sh.method.Roles[role].RulesSmallest {
		low = 0
	}
	return low, high, low < high
}

// roomGiven reports whether the work says how large a piece it has room for,
// such as by the height of a wall.
func (sh *shape) roomGiven() bool {
	return slices.ContainsFunc(sh.method.Roles, func(r gauge.Role) bool {
		_, given := sh.of[r.Name]
		return given && r.Room
	})
}

// sound reports whether a set-up can be with this in a role and these values in
// the others.
func (sh *shape) sound(values []float64, role int, size float64) bool {
	values[role] = size
	args := make(gauge.Args, len(values))
	for i, x := range values {
		args[i] = grad.Const(x)
	}
	m := sh.method
	reading := m.Model(args).X
	if math.IsNaN(reading) || reading <= 0 && !m.Signed {
		return false
	}
	return m.Valid == nil || !slices.ContainsFunc(m.Valid(values), func(r gauge.Remark) bool { return r.Broken })
}
