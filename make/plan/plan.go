package plan

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/geom"
)

// Plan is all that the part of a job is set up by, in the order of its work.
type Plan struct {
	Job   *trade.Job
	Model *part.Model
	Stock *Stock
	Order *Order
	Steps []*Step // one for each operation in that order, then those that no operation names a machine for
}

// Step is what one operation is set up by. Each of these stands with the operation
// it suits best, once.
type Step struct {
	Turn      *Turn                 // in the order of work; nil where it is of no operation
	Operation *trade.Operation      // nil: of none in the order of work
	Machine   *trade.Machinery      // nil: not known
	Cutter    *trade.Cutter         // nil: none is named
	Held      *hold.Judgement       // nil: nothing is said of how it is held
	Speeds    *lathe.CutSpeeds      // nil: none are known
	Arcs      *lathe.ArcsSetUp      // of a shoe
	Places    *lathe.Coordinates    // of holes
	Divided   []Divided             // hexagons, squares, flats, circles of holes
	Threads   []ScrewCut            // cut with a single point
	Taps      []Tapped              // holes that are tapped
	Tapers    []*lathe.TaperSetting // turned
	Notes     []string              // what is lacking
}

// Divided is something on the part that stands round a circle.
type Divided struct {
	What string // "hexagon", "8 holes"
	*lathe.Dividing
}

// ScrewCut is a thread of the part and the gears to cut it by, nil where the lathe
// has none.
type ScrewCut struct {
	Name    string // among the sizes of the part
	Cutting *lathe.ThreadCutting
	Gears   *lathe.ChangeGears
}

// Tapped is a thread of the part in a hole.
type Tapped struct {
	Name  string
	Count int
	Sheet series.Sheet
	Holes []lathe.TapHole
}

// usualEngagement is how much thread a tap leaves, per cent (common practice, no
// source).
const usualEngagement = 75

// Make says what applies to the part of a job, from part.Build, on which machine
// and in which operation.
// The error, trade.Faults, is what the job asks for and cannot be: a cutter larger
// than the hollow of a shoe, say. What is only not known is a
// note. When the context ends the error is its own.
func Make(ctx context.Context, job *trade.Job, model *part.Model) (*Plan, error) {
	order, err := OrderWork(ctx, job)
	if err != nil {
		return nil, err
	}
	p := &planner{Plan: &Plan{Job: job, Model: model, Order: order}}
	p.stock()
	for i := range p.Order.Turns {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		p.operation(&p.Order.Turns[i])
	}
	p.arcs()
	p.places()
	p.divide()
	p.threads()
	p.taps()
	p.tapers()
	p.unusedData()
	if err := p.faults.Err(); err != nil {
		return nil, err
	}
	return p.Plan, nil
}

// planner makes a plan and gathers what cannot be.
type planner struct {
	*Plan
	faults trade.Faults
}

// refuse takes over what cannot be, with its place where it has none of its own.
func (p *planner) refuse(err error, at trade.Pos) {
	var faults trade.Faults
	if !errors.As(err, &faults) {
		faults = trade.Faults{{Text: err.Error()}}
	}
	for _, f := range faults {
		if f.Pos == (trade.Pos{}) {
			f.Pos = at
		}
		p.faults = append(p.faults, f)
	}
}

// stock plans what to saw, with the kerf of the shop's saw.
func (p *planner) stock() {
	allowances := UsualAllowances(p.Model.Quantity)
	for i := range p.Job.Shop {
		if m := &p.Job.Shop[i]; m.SawKerf.Given() {
			allowances.Kerf = m.SawKerf.Inside()
			break
		}
	}
	p.Stock = SawStock(p.Model, allowances)
}

// operation plans what an operation needs by itself.
func (p *planner) operation(t *Turn) {
	op := t.Operation
	s := &Step{Turn: t, Operation: op, Machine: p.Job.Machinery(op.On)}
	if op.Cutter != "" {
		s.Cutter = s.Machine.Cutter(op.Cutter)
	}
	if op.Holding != nil {
		s.Held = hold.Judge(op.Holding)
	}
	if op.Makes && s.Machine != nil && p.Model.Material != "" {
		p.speeds(s)
	}
	p.Steps = append(p.Steps, s)
}

// cutterWork is what a kind of cutter does in the tables of speeds.
var cutterWork = map[trade.CutterKind]string{
	trade.EndMill: "milling", trade.SlotDrill: "milling", trade.FaceMill: "milling", trade.SlittingSaw: "milling",
	trade.TwistDrill: "drilling", trade.Reamer: "reaming", trade.Tap: "tapping",
}

// speeds looks up at what speed an operation starts: of its cutter, or of the stock
// in a lathe.
func (p *planner) speeds(s *Step) {
	wanted := lathe.CutWanted{Material: p.Model.Material, Spindle: s.Machine.Speeds}
	switch {
	case s.Cutter != nil:
		wanted.Operation, wanted.Tool, wanted.Diameter = cutterWork[s.Cutter.Kind], string(s.Cutter.Material), s.Cutter.Diameter.Inside()
	case s.Machine.Kind == trade.Lathe:
		wanted.Operation, wanted.Diameter = "turning", math.Ceil(p.Stock.Width)
	default:
		return
	}
	var err error
	if s.Speeds, err = lathe.Speeds(wanted); err != nil {
		s.Notes = append(s.Notes, "no speed to start with: "+err.Error())
	}
}

// suits says how well a machine and an operation do for something: 0 not at all.
type suits func(m *trade.Machinery, s *Step) int

// best returns the step that something belongs to: that of the operation on the part
// that suits best, of equal ones one that speaks of it in these words, then the
// first; else one of its own.
func (p *planner) best(fits suits, words ...string) *Step {
	var best *Step
	most := 0
	for _, s := range p.Steps {
		if s.Operation == nil || !s.Operation.Makes || s.Machine == nil {
			continue
		}
		score := 2 * fits(s.Machine, s)
		if score > 0 && speaksOf(s.Operation.Do, words) {
			score++
		}
		if score > most {
			best, most = s, score
		}
	}
	if best != nil {
		return best
	}
	return p.apart(fits)
}

func speaksOf(text string, words []string) bool {
	text = strings.ToLower(text)
	return slices.ContainsFunc(words, func(word string) bool { return strings.Contains(text, word) })
}

// apart returns the step of no operation on the machine of the shop that suits best,
// or on none.
func (p *planner) apart(fits suits) *Step {
	s, most := &Step{}, 0
	for i := range p.Job.Shop {
		if score := fits(&p.Job.Shop[i], s); score > most {
			s.Machine, most = &p.Job.Shop[i], score
		}
	}
	for _, other := range p.Steps {
		if other.Operation == nil && other.Machine == s.Machine {
			return other
		}
	}
	p.Steps = append(p.Steps, s)
	return s
}

// at is where a step was written.
func (s *Step) at() trade.Pos {
	switch {
	case s.Operation != nil:
		return s.Operation.Pos
	case s.Machine != nil:
		return s.Machine.Pos
	}
	return trade.Pos{}
}

// centre is what the readout shows at the centre of the table or the datum.
func (s *Step) centre() geom.Point {
	if s.Operation == nil || !s.Operation.Centre[0].Given() {
		return geom.Point{}
	}
	return sketch.Place(s.Operation.Centre)
}
