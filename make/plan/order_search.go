package plan

import (
	"cmp"
	"maps"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// mostSets is how many sets of as many operations are gone through: those of
// sixteen that need nothing of each other.
const mostSets = 1 << 14

// reached is how a set of operations is done with the fewest pairs turned round.
type reached struct {
	turned int
	last   int // the operation done last
}

// searched is what a search came to: an order, or nil and how far it goes at most,
// or untried.
type searched struct {
	order   []int
	far     set
	untried bool
}

// search finds the order in which the fewest pairs stand the other way round than
// written, layer by layer of as many operations done. Of each set that can be
// reached the best way is kept, whatever comes after it.
func (s *sequence) search() searched {
	layers := []map[set]reached{{0: {last: -1}}}
	for range s.job.Work {
		if s.ctx.Err() != nil {
			return searched{untried: true}
		}
		next := s.layer(layers[len(layers)-1])
		if len(next) == 0 {
			return searched{far: readiest(layers[len(layers)-1])}
		}
		if len(next) > mostSets {
			return searched{untried: true}
		}
		layers = append(layers, next)
	}
	return searched{order: wayTo(layers)}
}

// layer returns what is reached with one operation more.
func (s *sequence) layer(from map[set]reached) map[set]reached {
	next := map[set]reached{}
	for done, so := range from {
		for i := range s.job.Work {
			if done.has(i) || s.obstacle(i, done) != none {
				continue
			}
			way := reached{so.turned + (before(i) &^ done).size(), i}
			if best, there := next[done.with(i)]; !there || closer(way, best) < 0 {
				next[done.with(i)] = way
			}
		}
	}
	return next
}

// before is the set of the operations written before one.
func before(i int) set { return 1<<i - 1 }

func closer(a, b reached) int {
	return cmp.Or(cmp.Compare(a.turned, b.turned), cmp.Compare(a.last, b.last))
}

// readiest returns the set with the fewest pairs turned round.
func readiest(layer map[set]reached) set {
	return slices.MinFunc(slices.Collect(maps.Keys(layer)), func(a, b set) int {
		return cmp.Or(closer(layer[a], layer[b]), cmp.Compare(a, b))
	})
}

// wayTo follows the last layer, of all operations, back to the first.
func wayTo(layers []map[set]reached) []int {
	order := make([]int, len(layers)-1)
	done := before(len(order))
	for n := len(order); n > 0; n-- {
		order[n-1] = layers[n][done].last
		done &^= 1 << order[n-1]
	}
	return order
}

// waits says what each operation waits for that is not done: first those that want
// a machine.
func (s *sequence) waits(done set) []Wait {
	var forMachines, forOthers []Wait
	for i := range s.job.Work {
		if done.has(i) {
			continue
		}
		if w := s.lacks(i, done); w.Machine != "" {
			forMachines = append(forMachines, *w)
		} else {
			forOthers = append(forOthers, *w)
		}
	}
	return append(forMachines, forOthers...)
}

// instead says which kinds of machine may do the work of another, besides its own
// kind (common practice, no source).
var instead = map[trade.MachineKind][]trade.MachineKind{
	trade.Drill:  {trade.Mill, trade.Lathe},
	trade.Mill:   {trade.Shaper, trade.Planer},
	trade.Shaper: {trade.Planer, trade.Mill},
	trade.Planer: {trade.Shaper, trade.Mill},
}

// waysRound finds which machine alone would make an order possible if it were not
// wanted while in pieces. Where none would, it finds a set of them that would, none
// of which can be left out, and reports that.
func (s *sequence) waysRound() (list []WayRound, together bool) {
	var apart []string
	for i := range s.job.Shop {
		id := s.job.Shop[i].ID
		if slices.ContainsFunc(s.job.Work, func(op trade.Operation) bool { return op.Apart == id }) {
			apart = append(apart, id)
		}
	}
	for _, id := range apart {
		list = append(list, s.helping(id)...)
	}
	if len(list) > 0 {
		return list, false
	}
	enough := slices.Clone(apart)
	for _, id := range apart {
		without := slices.DeleteFunc(slices.Clone(enough), func(other string) bool { return other == id })
		if s.with(without...).search().order != nil {
			enough = without
		}
	}
	return s.helping(enough...), true
}

// with returns the same where some machines are whole whenever they are wanted.
func (s *sequence) with(helped ...string) *sequence {
	other := *s
	other.machine = slices.Clone(s.machine)
	other.helped = map[string]bool{}
	for _, id := range helped {
		other.helped[id] = true
	}
	return &other
}

// helping returns the ways round if these machines are helped, none if that makes
// no order possible.
func (s *sequence) helping(machines ...string) []WayRound {
	order := s.with(machines...).search().order
	if order == nil {
		return nil
	}
	var list []WayRound
	for _, id := range machines {
		w := WayRound{Machine: id}
		var wanted set
		for _, t := range s.turns(order) {
			w.Order = append(w.Order, t.Operation)
			if t.Operation.On == id && slices.Contains(t.Apart, id) {
				w.Operations, wanted = append(w.Operations, t.Operation), wanted.with(t.Number-1)
			}
		}
		others := slices.DeleteFunc(slices.Clone(machines), func(other string) bool { return other == id })
		w.Instead = s.standIns(id, wanted, others)
		list = append(list, w)
	}
	return list
}

// standIns returns the machines on which these operations could be done instead,
// so that there is an order: those of the same kind first.
func (s *sequence) standIns(machine string, wanted set, helped []string) []string {
	kind := s.job.Machinery(machine).Kind
	var list []string
	for _, fit := range append([]trade.MachineKind{kind}, instead[kind]...) {
		for k := range s.job.Shop {
			m := &s.job.Shop[k]
			if m.Kind != fit || m.ID == machine || slices.Contains(helped, m.ID) {
				continue
			}
			other := s.with(helped...)
			for i := range other.machine {
				if wanted.has(i) {
					other.machine[i] = m.ID
				}
			}
			if other.search().order != nil {
				list = append(list, m.ID)
			}
		}
	}
	return list
}
