package plan

import (
	"fmt"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// onLathe suits what is turned; one that cuts threads does better.
func onLathe(m *trade.Machinery, _ *Step) int {
	switch {
	case m.Kind != trade.Lathe:
		return 0
	case len(m.Gears) > 0:
		return 2
	}
	return 1
}

// arcs plans both faces of a shoe, on a rotary table with a cutter.
func (p *planner) arcs() {
	wanted, round := lathe.ShoeArcs(p.Model)
	if !round {
		return
	}
	s := p.best(func(m *trade.Machinery, s *Step) int {
		if m.Table == nil || s.Operation != nil && s.Cutter == nil {
			return 0
		}
		return 1
	}, "arc", "face", "radi", "shoe")
	if s.Cutter == nil {
		s.Notes = append(s.Notes, "the round faces of the shoe: name a cutter in an operation on a machine that has a rotary table")
		return
	}
	wanted.Cutter, wanted.Mill, wanted.Centre, wanted.Units = s.Cutter.Diameter.Inside(), s.Machine, s.centre(), p.Job.Units
	wanted.Leave = s.Operation.Leave.InsideOr(0)
	var err error
	if s.Arcs, err = lathe.Arcs(wanted); err != nil {
		p.refuse(err, s.Operation.Pos)
	}
}

// places plans where holes stand, on a machine that drills; with a drill in it, it
// does better.
func (p *planner) places() {
	if p.Model.Prism == nil || len(p.Model.Prism.Holes) == 0 {
		return
	}
	s := p.best(func(m *trade.Machinery, s *Step) int {
		switch {
		case m.Kind != trade.Mill && m.Kind != trade.Drill:
			return 0
		case s.Operation != nil && s.Operation.Datum != nil:
			return 3
		case s.Cutter != nil && cutterWork[s.Cutter.Kind] != "milling":
			return 2
		}
		return 1
	}, "hole", "drill", "bore")
	var err error
	if s.Places, err = lathe.PlaceHoles(s.Machine, s.datum(), lathe.HolesOf(p.Model.Prism)); err != nil {
		p.refuse(err, s.datumAt())
		return
	}
	s.Places.MindEdges(p.Model.Prism.Outline)
}

// divide plans what stands round a circle, on a table or a dividing head, best
// where holes are placed anyway.
func (p *planner) divide() {
	list := p.round()
	if len(list) == 0 || len(p.Job.Shop) == 0 {
		return
	}
	s := p.best(func(m *trade.Machinery, s *Step) int {
		switch {
		case m.Table == nil:
			return 0
		case s.Places != nil:
			return 2
		}
		return 1
	}, "hex", "square", "flat", "divid", "index", "circle")
	if s.Machine == nil {
		s.Notes = append(s.Notes, "dividing is not planned: the shop lists no rotary table or dividing head")
		return
	}
	if !lathe.Divides(s.Machine.Table) {
		s.Notes = append(s.Notes, "dividing is not planned: neither hole circles (plates) nor the divisions of a dial are known of the table of the "+s.Machine.ID)
		return
	}
	for _, d := range list {
		var err error
		if d.Dividing, err = lathe.Divide(s.Machine.Table, lathe.DividingWanted{Count: d.count}); err != nil {
			p.refuse(err, s.at())
			return
		}
		s.Divided = append(s.Divided, d.Divided)
	}
}

// counted is something round a circle, and how often it stands there.
type counted struct {
	Divided
	count int
}

// round lists what stands round a circle, each number of it once.
func (p *planner) round() []counted {
	var list []counted
	add := func(what string, n int) {
		for _, d := range list {
			if d.count == n {
				return
			}
		}
		list = append(list, counted{Divided{What: what}, n})
	}
	if t := p.Model.Turned; t != nil {
		for _, segment := range t.Segments {
			switch segment.Form {
			case part.Hexagonal:
				add("hexagon", 6)
			case part.Squared:
				add("square", 4)
			}
		}
		if len(t.Flats) > 1 {
			add(fmt.Sprintf("%d flats", len(t.Flats)), len(t.Flats))
		}
	}
	for _, h := range p.Job.Part.Shape.Holes() {
		if h.Circle.Given() {
			add(fmt.Sprintf("%d holes", h.Count), h.Count)
		}
	}
	return list
}

// turned returns what is turned of the part, nil where nothing is.
func (p *planner) turned() *part.Turned {
	switch m := p.Model; {
	case m.Turned != nil:
		return m.Turned
	case m.Prism != nil && m.Prism.Stem != nil:
		return &m.Prism.Stem.Turned
	}
	return nil
}

// threads plans the threads that are cut with a single point.
func (p *planner) threads() {
	t := p.turned()
	if t == nil {
		return
	}
	for i, list := range [][]part.Segment{t.Segments, t.Bores} {
		for _, segment := range list {
			if segment.Thread != nil {
				p.screwCut(segment.Thread, i == 1)
			}
		}
	}
}

func (p *planner) screwCut(thread *part.Thread, inside bool) {
	s := p.best(onLathe, "thread", "screw")
	for _, cut := range s.Threads {
		if cut.Name == thread.Name {
			return
		}
	}
	row, err := facts.ThreadNamed(thread.Designation)
	cut := ScrewCut{Name: thread.Name}
	if err == nil {
		cut.Cutting, err = lathe.CutThread(lathe.ThreadWanted{Thread: row, Inside: inside, Left: thread.Left, Lathe: s.Machine})
	}
	if err != nil {
		s.Notes = append(s.Notes, thread.Name+": "+err.Error())
		return
	}
	p.gears(s, &cut, row)
	s.Threads = append(s.Threads, cut)
}

// gears finds the change gears for a thread, where the lathe has some.
func (p *planner) gears(s *Step, cut *ScrewCut, row facts.Thread) {
	if s.Machine == nil || len(s.Machine.Gears) == 0 || !s.Machine.Leadscrew.Given() {
		s.Notes = append(s.Notes, cut.Name+": no change gears are planned: the shop lists no lathe with a leadscrew and gears")
		return
	}
	pitch, err := unit.ParsePitch(pitchText(row), unit.Millimetre)
	if err != nil {
		panic("setup: a thread of the tables has no pitch")
	}
	if cut.Gears, err = lathe.FindTrains(s.Machine, lathe.GearsWanted{Pitch: pitch}); err != nil {
		p.refuse(err, s.Machine.Pos)
	}
}

// pitchText writes the pitch of a thread as its standard states it.
func pitchText(row facts.Thread) string {
	if row.TPI != 0 {
		return fmt.Sprintf("%g tpi", row.TPI)
	}
	return fmt.Sprintf("%g mm", row.Pitch)
}

// taps plans the holes that are tapped: those of a plan, across the axis, and the
// bores.
func (p *planner) taps() {
	var threads []*part.Thread
	if m := p.Model.Prism; m != nil {
		for _, h := range m.Holes {
			threads = append(threads, h.Thread)
		}
	}
	if t := p.turned(); t != nil {
		for _, h := range t.Cross {
			threads = append(threads, h.Thread)
		}
		for _, b := range t.Bores {
			threads = append(threads, b.Thread)
		}
	}
	for _, thread := range threads {
		if thread != nil {
			p.tap(thread)
		}
	}
}

func (p *planner) tap(thread *part.Thread) {
	s := p.best(func(m *trade.Machinery, s *Step) int {
		switch {
		case s.Cutter != nil && s.Cutter.Kind == trade.Tap:
			return 3
		case m.Kind == trade.Drill || m.Kind == trade.Mill && p.Model.Prism != nil || m.Kind == trade.Lathe && p.Model.Turned != nil:
			return 1
		}
		return 0
	}, "tap", "hole", "drill")
	for i := range s.Taps {
		if s.Taps[i].Name == thread.Name {
			s.Taps[i].Count++
			return
		}
	}
	tapped := Tapped{Name: thread.Name, Count: 1}
	row, err := facts.ThreadNamed(thread.Designation)
	if err == nil {
		tapped.Sheet = series.ThreadSheet(row)
		tapped.Holes, err = lathe.TapHoles(tapped.Sheet, usualEngagement)
	}
	if err != nil {
		s.Notes = append(s.Notes, thread.Name+": "+err.Error())
		return
	}
	s.Taps = append(s.Taps, tapped)
}

// tapers plans the tapers that are turned.
func (p *planner) tapers() {
	t := p.turned()
	if t == nil {
		return
	}
	for _, wanted := range lathe.Tapers(t) {
		s := p.best(onLathe, "taper", "cone")
		setting, err := lathe.SetTaper(wanted)
		if err != nil {
			p.refuse(err, s.at())
			continue
		}
		s.Tapers = append(s.Tapers, setting)
	}
}
