package plan

import (
	"context"
	"fmt"
	"math/bits"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Order is the order of work: as it is written where that never needs a machine
// that is in pieces; else the one nearest to it that does not; else what waits for
// what, and the ways round.
type Order struct {
	Turns    []Turn // in the order to work by; as written where there is none
	Written  bool   // that is the written order, and it works
	Broken   *Wait  // what the written order fails at; nil where it works
	Stuck    []Wait // no order works: what waits, once all else is done
	Ways     []WayRound
	Together bool // a way round is wanted for each machine; else one of them does
	Untried  bool // the written order fails, and there are too many others to try
}

// Turn is one operation in its turn.
type Turn struct {
	Operation *trade.Operation
	Number    int      // in the written order, from 1
	After     []string // ids of what it waits for, said or not, without what these wait for
	Apart     []string // ids of the machines in pieces while it is done
}

// Wait is an operation that cannot be done, and why.
type Wait struct {
	Operation *trade.Operation
	Machine   string // that it would have, and that is in pieces; empty: it waits for others
	Why       string
}

// WayRound is how a machine can be done without, or with, while it is in pieces:
// the operations that would have it then, the machines that may do them instead,
// and the order that it makes possible. The machine can always be helped up
// meanwhile, with a temporary part or with the old one.
type WayRound struct {
	Machine    string
	Operations []*trade.Operation
	Instead    []string
	Order      []*trade.Operation
}

// Works reports whether there is an order to work by.
func (o *Order) Works() bool { return o.Written || o.Broken != nil && len(o.Stuck) == 0 && !o.Untried }

// OrderWork finds the order of work.
//
// An operation comes after those that it needs. Where it does not say what it
// needs, that is all that is written before it but for what waits itself for
// something later, and but for the mere taking apart of machines; which, where it
// says nothing, needs nothing. A machine is in pieces from the operation that takes
// it apart to the one that puts it back, which has it in use already.
//
// Of all orders that work the one is taken in which the fewest pairs of operations
// stand the other way round than written, of equal ones always the same. The search
// goes over the sets of what can have been done, and is exact; when the context ends
// the error is its own.
func OrderWork(ctx context.Context, job *trade.Job) (*Order, error) {
	s := newSequence(job)
	s.ctx = ctx
	o := &Order{Turns: s.turns(s.written())}
	if o.Broken = s.breaks(s.written()); o.Broken == nil {
		o.Written = true
		return o, nil
	}
	found := s.search()
	switch {
	case found.untried:
		o.Untried = true
	case found.order != nil:
		o.Turns = s.turns(found.order)
	default:
		o.Stuck = s.waits(found.far)
		o.Ways, o.Together = s.waysRound()
	}
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return o, nil
}

// set is a set of operations by their numbers in the written order, from 0.
type set uint64

func (s set) has(i int) bool     { return s>>i&1 == 1 }
func (s set) with(i int) set     { return s | 1<<i }
func (s set) holds(all set) bool { return all&^s == 0 }
func (s set) size() int          { return bits.OnesCount64(uint64(s)) }

// sequence is what bears on the order of work.
type sequence struct {
	ctx         context.Context // its end ends the search
	job         *trade.Job
	needs, all  []set           // what each operation needs; with what that needs in turn
	apart, back map[string]set  // what takes each machine apart, and puts it back
	machine     []string        // that each operation is done on
	helped      map[string]bool // machines taken to be whole whenever they are wanted
}

func newSequence(job *trade.Job) *sequence {
	if len(job.Work) > 64 {
		panic("setup: more operations than a set holds")
	}
	s := &sequence{job: job, apart: map[string]set{}, back: map[string]set{}}
	for i := range job.Work {
		op := &job.Work[i]
		s.machine = append(s.machine, op.On)
		s.apart[op.Apart] = s.apart[op.Apart].with(i)
		s.back[op.Back] = s.back[op.Back].with(i)
	}
	s.settleNeeds()
	s.all = closed(s.needs)
	return s
}

// settleNeeds gathers what each operation needs, said or not.
func (s *sequence) settleNeeds() {
	s.needs = s.saidNeeds()
	all := closed(s.needs)
	for i := range s.needs {
		if op := &s.job.Work[i]; op.Needs != nil || takesApartOnly(op) {
			continue
		}
		for k := range i {
			if waitsForLater := all[k]>>i != 0; !waitsForLater && !takesApartOnly(&s.job.Work[k]) {
				s.needs[i] = s.needs[i].with(k)
			}
		}
	}
}

func (s *sequence) saidNeeds() []set {
	list := make([]set, len(s.job.Work))
	for i := range list {
		for k := range s.job.Work {
			if slices.Contains(s.job.Work[i].Needs, s.job.Work[k].ID) {
				list[i] = list[i].with(k)
			}
		}
	}
	return list
}

// takesApartOnly reports whether an operation does nothing but take a machine
// apart.
func takesApartOnly(op *trade.Operation) bool {
	return op.Apart != "" && op.Back == "" && op.On == "" && !op.Makes
}

// closed returns what each operation needs, and what that needs in turn.
func closed(needs []set) []set {
	all := slices.Clone(needs)
	for range all {
		for i := range all {
			for k := range all {
				if all[i].has(k) {
					all[i] |= all[k]
				}
			}
		}
	}
	return all
}

// written is the order in which the operations are written.
func (s *sequence) written() []int {
	order := make([]int, len(s.job.Work))
	for i := range order {
		order[i] = i
	}
	return order
}

// inPieces reports whether a machine is in pieces once these operations are done.
func (s *sequence) inPieces(machine string, done set) bool {
	return machine != "" && (s.apart[machine]&done).size() > (s.back[machine]&done).size()
}

// obstacle is what stands in the way of an operation.
type obstacle uint8

const (
	none obstacle = iota
	needsOthers
	nothingToPutBack
	machineInPieces
	apartAlready
)

// obstacle returns what stands in the way of an operation once these are done.
func (s *sequence) obstacle(i int, done set) obstacle {
	op, on := &s.job.Work[i], s.machine[i]
	switch {
	case !done.holds(s.needs[i]):
		return needsOthers
	case op.Back != "" && !s.inPieces(op.Back, done):
		return nothingToPutBack
	case on != op.Back && s.inPieces(on, done) && !s.helped[on]:
		return machineInPieces
	case s.inPieces(op.Apart, done):
		return apartAlready
	}
	return none
}

// lacks says why an operation cannot be done once these are, nil where it can.
func (s *sequence) lacks(i int, done set) *Wait {
	op := &s.job.Work[i]
	w := &Wait{Operation: op}
	switch s.obstacle(i, done) {
	case none:
		return nil
	case needsOthers:
		w.Why = "it needs " + strings.Join(s.ids(s.direct(i)&^done), ", ")
	case nothingToPutBack:
		w.Why = fmt.Sprintf("the %s is not in pieces then", op.Back)
	case machineInPieces:
		w.Machine = s.machine[i]
		w.Why = fmt.Sprintf("the %s is in pieces %s", w.Machine, s.untilWhen(i, w.Machine, done))
	case apartAlready:
		w.Why = fmt.Sprintf("the %s is in pieces already, %s", op.Apart, s.untilWhen(i, op.Apart, done))
	}
	return w
}

// untilWhen says since when a machine is in pieces, and what would put it back.
func (s *sequence) untilWhen(i int, machine string, done set) string {
	ids := s.ids(s.apart[machine] & done)
	since := "from " + ids[len(ids)-1] + " on"
	back := s.back[machine] &^ done
	for k := range s.job.Work {
		if back.has(k) && !s.all[k].has(i) {
			return since + ", until " + s.job.Work[k].ID
		}
	}
	if back == 0 {
		return since + ", and nothing puts it back"
	}
	return fmt.Sprintf("%s, and %s, which puts it back, waits for %s", since, strings.Join(s.ids(back), ", "), s.job.Work[i].ID)
}

// direct returns what an operation needs without what these need in turn.
func (s *sequence) direct(i int) set {
	direct := s.needs[i]
	for k := range s.job.Work {
		if s.needs[i].has(k) {
			direct &^= s.all[k]
		}
	}
	return direct
}

func (s *sequence) ids(of set) []string {
	var list []string
	for i := range s.job.Work {
		if of.has(i) {
			list = append(list, s.job.Work[i].ID)
		}
	}
	return list
}

// breaks returns what an order fails at first, nil where it works.
func (s *sequence) breaks(order []int) *Wait {
	var done set
	for _, i := range order {
		if wait := s.lacks(i, done); wait != nil {
			return wait
		}
		done = done.with(i)
	}
	return nil
}

// turns says of each operation in an order what there is to say.
func (s *sequence) turns(order []int) []Turn {
	var done set
	list := make([]Turn, len(order))
	for n, i := range order {
		op := &s.job.Work[i]
		list[n] = Turn{Operation: op, Number: i + 1, After: s.ids(s.direct(i))}
		for m := range s.job.Shop {
			if id := s.job.Shop[m].ID; id != op.Back && s.inPieces(id, done) {
				list[n].Apart = append(list[n].Apart, id)
			}
		}
		done = done.with(i)
	}
	return list
}
