package adjust

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// nearSingular is the condition of the scaled adjustment above which a small
// error of a reading becomes a large one of a size.
const nearSingular = 1e4

// warnings gathers what makes the result doubtful.
func (f *findings) warnings(r *Result) []Warning {
	var list []Warning
	add := func(reading, format string, args ...any) {
		list = append(list, Warning{Reading: reading, Text: unit.Say(format, args...)})
	}
	if !f.Converged {
		add("", "the adjustment did not settle; give the sizes a `guess:` near the truth, or set a doubtful reading aside")
	}
	if r.Scatters() {
		add("", "the readings scatter more than the kit says (chi-square %.1f where about %d is expected, chance %.2g): a reading is wrong, or an instrument or seating is worse than stated",
			r.Chi2, f.Dof, r.P)
	}
	for _, forward := range f.forwards {
		if f.isImpossible(forward) {
			add(forward.reading.ID, "no sizes suit this reading and the others at once: the set-up could not be; it is left out of the sizes")
		}
	}
	f.validity(add)
	f.calipers(add)
	f.radii(add)
	f.nearlyAlike(add)
	f.mirrors(add)
	return list
}

func (f *findings) isImpossible(forward *forward) bool {
	return slices.ContainsFunc(f.impossible, func(i int) bool {
		values := f.observations[i].values
		return len(values) > 0 && f.values[values[0]].reading == forward
	})
}

// validity asks every method used whether it holds at the sizes found.
func (f *findings) validity(add func(reading, format string, args ...any)) {
	for _, forward := range f.forwards {
		if forward.method.Valid == nil || !f.used[forward] || !f.determined(forward) {
			continue
		}
		for _, remark := range forward.method.Valid(forward.inOrder(f.X)) {
			add(forward.reading.ID, "%s", remark.Text)
		}
	}
}

func (f *findings) determined(forward *forward) bool {
	return !slices.ContainsFunc(forward.slots, func(s slot) bool { return s.column >= 0 && !f.Determined(s.column) })
}

// calipers warns of one caliper used in several ways: its outside jaws, inside
// points and depth rod each have a zero of their own.
func (f *findings) calipers(add func(reading, format string, args ...any)) {
	for _, instrument := range f.job.Instruments {
		if kind, _ := gauge.InstrumentOf(instrument.Kind); !kind.OwnZeros {
			continue
		}
		var ways []string
		for _, forward := range f.forwards {
			way := wayOf(forward.method.Jaw)
			if forward.reading.With == instrument.ID && way != "" && !slices.Contains(ways, way) {
				ways = append(ways, way)
			}
		}
		if len(ways) > 1 {
			add("", "%s reads %s: jaws, points and rod have zeros of their own; list it once for each", instrument.ID, list(ways))
		}
	}
}

// mirrors warns of holes that hang on two others only, and so may as well lie
// on the other side of them. In a plan of three the third lies above the axis.
func (f *findings) mirrors(add func(reading, format string, args ...any)) {
	for _, plan := range f.job.Plans {
		partners := f.partners()
		for _, hole := range plan.Holes {
			_, guessed := plan.Guess[hole]
			if list := partners[hole]; len(plan.Holes) > 3 && len(list) == 2 && !guessed {
				add("", "%s hangs on %s and %s only: it may as well lie on the other side of the line between them; give it a `guess:`, or read a third distance",
					hole, list[0], list[1])
			}
		}
	}
}

// partners returns for each hole the others whose distance from it is read.
func (f *findings) partners() map[string][]string {
	found := map[string][]string{}
	for _, forward := range f.forwards {
		from, to, ok := forward.ends()
		if ok && f.used[forward] && !slices.Contains(found[from], to) {
			found[from] = append(found[from], to)
			found[to] = append(found[to], from)
		}
	}
	return found
}

func wayOf(jaw gauge.Jaw) string {
	switch jaw {
	case gauge.Closing:
		return "outside"
	case gauge.Opening:
		return "inside"
	case gauge.Reaching:
		return "depth"
	}
	return ""
}

// radii warns of a radius read as it stands by jaws, which span a diameter.
func (f *findings) radii(add func(reading, format string, args ...any)) {
	for _, forward := range f.forwards {
		for _, arg := range forward.reading.Of {
			size := f.model.size(arg.ID)
			role := forward.method.Role(arg.Role)
			if size == nil || role < 0 || size.Kind != trade.Radius || forward.method.Roles[role].Kind != gauge.AnyLength {
				continue
			}
			if forward.method.Jaw == gauge.Closing || forward.method.Jaw == gauge.Opening {
				add(forward.reading.ID, "%s is a radius, but jaws span the whole round; it is taken as it stands: make it a diameter if the reading is one", size.ID)
			}
		}
	}
}

// nearlyAlike warns of sizes that the readings hardly tell apart.
func (f *findings) nearlyAlike(add func(reading, format string, args ...any)) {
	if f.Condition < nearSingular {
		return
	}
	if names := f.correlated(); len(names) > 0 {
		add("", "%s are hardly told apart by these readings: a small error in one is taken up by the others; %s",
			list(names), "take a reading of one of them by itself, or one further away")
		return
	}
	for column, u := range f.unknowns {
		if u.kind == sizeUnknown && f.Determined(column) && Coverage95*f.u(column) > 0.1*math.Abs(f.X[column]) {
			add("", "%s is hardly determined: its uncertainty, %s, is a large part of it", u.id, unit.Told{Value: Coverage95 * f.u(column), Dimension: f.job.Size(u.id).Kind.Dimension()})
		}
	}
}

// correlated returns the sizes that are determined but correlated above 0.999.
func (f *findings) correlated() []string {
	var names []string
	for i, a := range f.unknowns {
		for j, b := range f.unknowns[:i] {
			if a.kind != sizeUnknown || b.kind != sizeUnknown || !f.Determined(i) || !f.Determined(j) {
				continue
			}
			if math.Abs(f.Cofactor(i, j)) > 0.999*f.u(i)*f.u(j) && f.u(i) > 0 && f.u(j) > 0 {
				for _, name := range []string{b.id, a.id} {
					if !slices.Contains(names, name) {
						names = append(names, name)
					}
				}
			}
		}
	}
	return names
}
