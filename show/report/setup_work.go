package report

import (
	"fmt"
	"math"

	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// speedsOf writes at what speed an operation starts.
func (p *settingUp) speedsOf(s *plan.Step) {
	if s.Speeds == nil {
		return
	}
	p.line("")
	p.speedsHeading(s.Speeds, s.Machine.ID)
	p.feed(s.Speeds)
	for _, warning := range s.Speeds.Warnings {
		p.paragraph("", p.paint(yellow, warning))
	}
	for _, row := range s.Speeds.Rows {
		p.sources.add(row.Material+", "+row.Operation, row.Source)
	}
}

// length writes a length in the units of the job.
func (p *settingUp) length(mm float64) string { return unit.ShowLength(mm, p.units) }

func (p *settingUp) at(q geom.Point) string { return p.length(q.X) + ", " + p.length(q.Y) }

// move writes how far a handle is turned, nothing where there is no dial.
func move(h lathe.HandleMove) string {
	switch {
	case !h.Known():
		return ""
	case h.Turns == 0:
		return decimal(h.Divisions, 1) + " divisions"
	}
	return fmt.Sprintf("%s and %s divisions", plural(h.Turns, "turn"), decimal(h.Divisions, 1))
}

// shoe writes how both round faces are milled.
func (p *settingUp) shoe(a *lathe.ArcsSetUp) {
	if a == nil {
		return
	}
	p.line("\n  %s", p.paint(bold, "Both round faces from one clamping"))
	p.paragraph("", fmt.Sprintf("The middle of the shoe stands %s from the table's centre, the blank from %s to %s on its middle line.",
		p.length(a.Middle), p.length(a.Near), p.length(a.Far)))
	scenes := a.Scenes(p.units)
	for i := range a.Faces {
		p.face(&a.Faces[i])
		p.picture(scenes[i])
	}
	for _, text := range a.Warnings {
		p.paragraph("- ", p.paint(yellow, text))
	}
	for _, text := range a.Advice {
		p.paragraph("- ", text)
	}
}

func (p *settingUp) face(f *lathe.ArcFace) {
	name, way := "hollow", "anticlockwise"
	if f.Convex {
		name = "convex"
	}
	if f.Clockwise {
		way = "clockwise"
	}
	p.line("\n  %s face, radius %s: cutter %s from the table's centre", name, p.length(f.Radius), p.bold(p.length(f.Offset)))
	if !math.IsNaN(f.FromStud) {
		p.line("  %s from the middle of its stud or hole to the face", p.length(f.FromStud))
	}
	p.line("  table from %s to %s, %s while it cuts", unit.ShowAngle(f.Start), unit.ShowAngle(f.Stop), way)
	if start, stop := move(f.ToStart), move(f.ToStop); start != "" {
		p.line("  by its handle: start at %s, stop at %s from angle 0", start, stop)
	}
	p.facePasses(f)
	p.paragraph("", fmt.Sprintf("Where the offset is out by %s the radius is out by %s. The edge that the cutter sweeps was compared with the arc: within %.0e mm.",
		p.length(lathe.ArcError), p.length(math.Abs(f.Errors.Offset)), math.Max(f.Deviation, 1e-12)))
}

func (p *settingUp) bold(text string) string { return p.paint(bold, text) }

func (p *settingUp) facePasses(f *lathe.ArcFace) {
	rows := [][]string{{"pass", "radius", "offset", "readout x, y", "dial"}}
	for i, pass := range f.Passes {
		name := count(i + 1)
		if pass.Finishing {
			name += ", finishing"
		}
		rows = append(rows, []string{name, p.length(pass.Radius), p.length(pass.Offset), p.at(pass.Readout), move(pass.Dial)})
	}
	p.table(filled(rows))
}

// holes writes where holes stand.
func (p *settingUp) holes(s *plan.Step) {
	c := s.Places
	if c == nil {
		return
	}
	p.line("\n  %s", p.bold("Where the holes stand"))
	rows := [][]string{{"hole", "diameter", "x", "y", "handle x", "handle y"}}
	for _, h := range c.Holes {
		rows = append(rows, []string{h.Name, p.length(h.Diameter), p.length(h.Readout.X), p.length(h.Readout.Y), move(h.X), move(h.Y)})
	}
	p.table(filled(rows))
	p.datum(c)
	p.picture(c.Scene(p.plan.Outline(), p.units))
	p.chords(c.Chords)
	for _, text := range c.Warnings {
		p.paragraph("- ", p.paint(yellow, text))
	}
	for _, text := range c.Advice {
		p.paragraph("- ", text)
	}
}

// datum writes what the readout is set to, and how.
func (p *settingUp) datum(c *lathe.Coordinates) {
	for _, touch := range c.Touches {
		p.paragraph("", fmt.Sprintf("With the finder of %s against the %s edge set %s to %s.",
			p.length(c.Datum.Finder), c.Datum.Side(touch.Axis), touch.Axis, p.bold(p.length(touch.Set))))
	}
	stands := ""
	if c.Datum.Turned != 0 {
		stands = fmt.Sprintf(", the part turned by %s on the table", unit.ShowAngle(c.Datum.Turned))
	}
	p.paragraph("", fmt.Sprintf("The datum shows %s; on the plan of the part it is at %s%s.", p.at(c.Datum.Shows), p.at(c.Datum.At), stands))
}

func (p *settingUp) chords(list []lathe.Chord) {
	if len(list) == 0 {
		return
	}
	rows := [][]string{{"check", "centres", "over plugs", "between plugs"}}
	for _, k := range list {
		rows = append(rows, []string{k.From + " to " + k.To, p.length(k.Centres), whereGiven(k.Over, p.length), whereGiven(k.Inside, p.length)})
	}
	p.line("")
	p.table(rows)
}

// divided writes how a table or dividing head is turned.
func (p *settingUp) divided(list []plan.Divided) {
	for _, d := range list {
		p.line("\n  %s", p.bold("Dividing: "+d.What))
		p.dividing(d.Dividing)
	}
}

// mostTrains is how many sets of change gears are shown for one thread.
const mostTrains = 3

// threadsOf writes how the threads of the part are cut, and by which gears.
func (p *settingUp) threadsOf(s *plan.Step) {
	for _, t := range s.Threads {
		p.line("\n  %s", p.bold("Thread "+t.Name+", "+t.Cutting.Sheet.Thread.Designation))
		p.screwcutting(t.Cutting, &p.sources)
		p.sources.add(t.Cutting.Sheet.Thread.Designation, t.Cutting.Sheet.Thread.Source)
		if t.Gears == nil {
			continue
		}
		p.line("\n  %s", p.bold(fmt.Sprintf("Change gears for %v on a leadscrew of %v", t.Gears.Wanted.Pitch, s.Machine.Leadscrew)))
		p.trains(t.Gears, t.Gears.Trains, 0, mostTrains)
		p.gearsDoubts(t.Gears)
	}
}

// tapsOf writes the holes that are tapped.
func (p *settingUp) tapsOf(list []plan.Tapped) {
	for _, t := range list {
		p.line("\n  %s", p.bold(fmt.Sprintf("Tapped: %s, %s", t.Name, plural(t.Count, "hole"))))
		for _, h := range t.Holes {
			p.tapHole(h, &p.sources)
		}
	}
}

func (p *settingUp) tapersOf(list []*lathe.TaperSetting) {
	for _, s := range list {
		p.line("")
		p.taperSetting(s)
	}
}
