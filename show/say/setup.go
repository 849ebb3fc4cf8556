package say

import (
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/hold"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/plan"
	"codeberg.org/oddleg/oddleg/make/sketch"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
)

// SetUps says how the part of a job is set up for, operation by operation. What to
// mind at the machines comes last and is always there.
func SetUps(p *plan.Plan) *doc.Document {
	s := &settingUp{page: titled(p.Job.Name), plan: p}
	m := p.Model
	said := []string{string(m.Kind)}
	if m.Material != "" {
		said = append(said, m.Material)
	}
	s.Add(doc.Line(0, doc.Plain(fmt.Sprintf("%s: %s, %d off", m.Name, strings.Join(said, ", "), m.Quantity))))
	s.all()
	return &s.Document
}

// SetUpChapter says the same as a chapter of the sheet.
func SetUpChapter(p *plan.Plan) *doc.Document {
	s := &settingUp{page: &page{}, plan: p}
	s.all()
	return &s.Document
}

// The size of a picture of a set-up on a page, in mm.
const setUpWidth, setUpHeight = 150.0, 85.0

// settingUp puts the set-ups of one part into words.
type settingUp struct {
	*page
	plan    *plan.Plan
	sourced sourceList
}

// all says all of it.
func (p *settingUp) all() {
	p.stock(p.plan.Stock)
	p.order()
	p.steps()
	p.holdingNotes()
	p.atTheMachine()
	if len(p.sourced) > 0 {
		p.sources(p.sourced)
	}
}

// picture shows a set-up as it looks from above, with its figures in the units of
// who reads.
func (p *settingUp) picture(s sketch.Scene) {
	p.Add(doc.Picture{Draw: func(v unit.View) (*ink.Sheet, error) { return picture.SetUp(s, v.Unit(), setUpWidth, setUpHeight) }})
}

// headed begins what belongs to one question of an operation.
func (p *settingUp) headed(title string) {
	p.Add(doc.Paragraph{Words: strong(title), Space: doc.Apart, Keeps: true})
}

// steps says each operation, then what no operation was named for.
func (p *settingUp) steps() {
	for i, s := range p.plan.Steps {
		p.stepHeading(i, s)
		p.held(s.Held)
		p.speedsOf(s)
		p.shoe(s.Arcs)
		p.holes(s)
		for _, d := range s.Divided {
			p.headed("Dividing: " + d.What)
			p.dividing(d.Dividing)
		}
		p.threadsOf(s)
		for _, t := range s.Taps {
			p.headed(fmt.Sprintf("Tapped: %s, %s", t.Name, number(t.Count, "hole")))
			for _, h := range t.Holes {
				p.tapHole(h, &p.sourced)
			}
		}
		for _, t := range s.Tapers {
			p.Add(doc.Paragraph{Words: doc.In(doc.Strong, taperTitle(t)), Space: doc.Apart, Keeps: true})
			p.taperSetting(t)
		}
		for _, note := range s.Notes {
			p.item("%s", sentence(note))
		}
	}
}

func (p *settingUp) stepHeading(i int, s *plan.Step) {
	op := s.Operation
	switch {
	case op == nil && s.Machine == nil:
		p.section("On a machine that the shop does not list")
		return
	case op == nil:
		p.section("On the %s, of no operation in the order of work", s.Machine.ID)
		return
	case op.On == "":
		p.section("%d. %s", i+1, op.Do)
	default:
		p.section("%d. %s, on the %s", i+1, op.Do, op.On)
	}
	p.setBy(s)
	for _, text := range s.Turn.Cautions(p.plan.Job) {
		p.item("%s", warning(doc.Plain(text)))
	}
	if op.Say != "" {
		p.say("%s", sentence(op.Say))
	}
}

// setBy says what the operation does to machines, and its cutter.
func (p *settingUp) setBy(s *plan.Step) {
	op := s.Operation
	if op.Back != "" {
		p.say("Puts the %s back.", op.Back)
	}
	if op.Apart != "" {
		p.say("%s", warning(doc.Say("The %s is in pieces from here on, until it is put back.", op.Apart)))
	}
	if c := s.Cutter; c != nil {
		p.say("cutter: %s (%s, %v)", c.ID, strings.ReplaceAll(string(c.Kind), "-", " "), c.Diameter)
	}
}

// held says what keeps the work in its place.
func (p *settingUp) held(h *hold.Judgement) {
	if h == nil {
		return
	}
	p.headed("How it is held")
	p.shares(h)
	p.say("%s", freedom(h))
	for _, text := range h.Said {
		p.say("%s", doc.In(heldTone(h.Verdict), doc.Show(sentenceOf(text))))
	}
	for _, text := range h.Warnings {
		p.item("%s", warning(doc.Show(sentenceOf(text))))
	}
	p.picture(h.Scene(p.plan.Outline()))
}

// heldTone is how loudly a verdict on holding is said.
func heldTone(v hold.Verdict) doc.Tone {
	switch v {
	case hold.Slips, hold.Unseated:
		return doc.Alarm
	case hold.ByFriction, hold.Hardly:
		return doc.Warning
	}
	return doc.Strong
}

// freedom says which motions the contacts leave free.
func freedom(h *hold.Judgement) unit.Text {
	var free []unit.Text
	for _, m := range h.Free {
		free = append(free, m.Text())
	}
	switch len(free) {
	case 0:
		return unit.Words("Stops, jaws and screws leave it no way to move, even without friction.")
	case 1:
		return unit.Say("Without friction it %s, and not otherwise.", free[0])
	}
	return unit.Say("Without friction it %s; and any of these together.", unit.Join(free, "; it "))
}

// shares says what each contact presses with.
func (p *settingUp) shares(h *hold.Judgement) {
	if len(h.Shares) == 0 {
		return
	}
	t := &doc.Table{Name: "contacts", Columns: []doc.Column{plain("contact"), {Name: "kind"}, plain("at rest"), plain("cutting"), plain("heel")}}
	rubs := false
	for _, s := range h.Shares {
		row := doc.Cells{
			"contact": doc.Plain(s.Contact.ID), "kind": doc.Plain(contactText(s.Contact)), "at rest": doc.Plain(forceRange(s.Rest)),
		}
		if h.Verdict != hold.NoForce {
			row["cutting"] = doc.Plain(forceRange(s.Cutting))
		}
		if s.Contact.Kind == trade.ClampContact {
			row["heel"] = doc.Plain(strength.ForceText(s.Heel))
		}
		t.Add(row)
		rubs = rubs || s.Rubs
	}
	p.Add(t.Filled())
	if rubs {
		p.say("Without friction these do not balance, so what rubs is counted in them.")
	}
}

func contactText(c *trade.Contact) string {
	if c.Kind == trade.JawContact && c.Clamping.Given() {
		return "jaw that moves"
	}
	return string(c.Kind)
}

// forceRange writes what a contact may press with.
func forceRange(s strength.Span) string {
	switch {
	case math.IsNaN(s.Low):
		return "gives way"
	case math.IsInf(s.High, 1):
		return strength.ForceText(s.Low) + " or more"
	}
	return spanText(s, strength.ForceText)
}

// holdingNotes says what every judgement of holding rests on, once.
func (p *settingUp) holdingNotes() {
	held, straps := false, false
	for _, s := range p.plan.Steps {
		if s.Held == nil {
			continue
		}
		held = true
		for _, c := range s.Held.Holding.Contacts {
			straps = straps || c.Kind == trade.ClampContact
		}
	}
	if !held {
		return
	}
	p.section("Of holding")
	p.item("Reckoned in one plane, the work rigid and its weight not counted: whether the cutter lifts or tips it is not looked at. The cutting "+
		"force is yours. Friction is judged at %g, and %g times the force is wanted of it (common practice, no source).",
		hold.JudgedFriction, float64(hold.SafeFactor))
	if straps {
		p.item("Strap clamps: heel packing level with the work or a little high, the bolt nearer the work than the heel (common practice, no source).")
	}
}

// speedsOf says at what speed an operation starts.
func (p *settingUp) speedsOf(s *plan.Step) {
	if s.Speeds == nil {
		return
	}
	p.Add(doc.Paragraph{Words: doc.In(doc.Strong, speedsTitle(s.Speeds)), Space: doc.Apart, Keeps: true})
	p.speeds(s.Speeds, s.Machine.ID)
	p.feed(s.Speeds, doc.Next)
	for _, text := range s.Speeds.Warnings {
		p.say("%s", warning(doc.Plain(text)))
	}
	for _, row := range s.Speeds.Rows {
		p.sourced.add(row.Material+", "+row.Operation, row.Source)
	}
}

func placed(q geom.Point) doc.Text { return doc.Say("%s, %s", length(q.X), length(q.Y)) }

// shoe says how both round faces are milled.
func (p *settingUp) shoe(a *lathe.ArcsSetUp) {
	if a == nil {
		return
	}
	p.headed("Both round faces from one clamping")
	p.say("The middle of the shoe stands %s from the table's centre, the blank from %s to %s on its middle line.",
		length(a.Middle), length(a.Near), length(a.Far))
	for i := range a.Faces {
		p.face(&a.Faces[i])
		p.picture(a.Scenes()[i])
	}
	p.warned(a.Warnings, a.Advice)
}

// warned says warnings and advice, an item each.
func (p *settingUp) warned(warnings []unit.Text, advice []string) {
	for _, text := range warnings {
		p.item("%s", warning(doc.Show(text)))
	}
	for _, text := range advice {
		p.item("%s", text)
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
	p.apart("%s face, radius %s: cutter %s from the table's centre", name, length(f.Radius), doc.In(doc.Strong, doc.Show(length(f.Offset))))
	if !math.IsNaN(f.FromStud) {
		p.under(0, "%s from the middle of its stud or hole to the face", length(f.FromStud))
	}
	p.under(0, "table from %s to %s, %s while it cuts", amount(f.Start, unit.Angle), amount(f.Stop, unit.Angle), way)
	if start, stop := move(f.ToStart), move(f.ToStop); start != "" {
		p.under(0, "by its handle: start at %s, stop at %s from angle 0", start, stop)
	}
	p.facePasses(f)
	p.say("Where the offset is out by %s the radius is out by %s. The edge that the cutter sweeps was compared with the arc: within %.0e mm.",
		length(lathe.ArcError), length(math.Abs(f.Errors.Offset)), math.Max(f.Deviation, 1e-12))
}

func (p *settingUp) facePasses(f *lathe.ArcFace) {
	t := &doc.Table{Name: "passes", Columns: []doc.Column{
		plain("pass"), plain("radius"), plain("offset"), {Name: "readout", Head: doc.Plain("readout x, y")}, plain("dial"),
	}}
	for i, pass := range f.Passes {
		name := fmt.Sprint(i + 1)
		if pass.Finishing {
			name += ", finishing"
		}
		t.Add(doc.Cells{
			"pass": doc.Plain(name), "radius": doc.Show(length(pass.Radius)), "offset": doc.Show(length(pass.Offset)),
			"readout": placed(pass.Readout), "dial": doc.Plain(move(pass.Dial)),
		})
	}
	p.Add(t.Filled())
}

// holes says where holes stand.
func (p *settingUp) holes(s *plan.Step) {
	c := s.Places
	if c == nil {
		return
	}
	p.headed("Where the holes stand")
	t := &doc.Table{Name: "holes", Columns: doc.Columns("hole", "diameter", "x", "y", "handle x", "handle y")}
	for _, h := range c.Holes {
		t.Add(doc.Cells{
			"hole": doc.Plain(h.Name), "diameter": doc.Show(length(h.Diameter)), "x": doc.Show(length(h.Readout.X)), "y": doc.Show(length(h.Readout.Y)),
			"handle x": doc.Plain(move(h.X)), "handle y": doc.Plain(move(h.Y)),
		})
	}
	p.Add(t.Filled())
	p.datum(c)
	p.picture(c.Scene(p.plan.Outline()))
	p.chords(c.Chords)
	p.warned(c.Warnings, c.Advice)
}

// datum says what the readout is set to, and how.
func (p *settingUp) datum(c *lathe.Coordinates) {
	for _, touch := range c.Touches {
		p.say("With the finder of %s against the %s edge set %s to %s.",
			length(c.Datum.Finder), string(c.Datum.Side(touch.Axis)), touch.Axis, doc.In(doc.Strong, doc.Show(length(touch.Set))))
	}
	var stands doc.Text
	if c.Datum.Turned != 0 {
		stands = doc.Say(", the part turned by %s on the table", amount(c.Datum.Turned, unit.Angle))
	}
	p.say("The datum shows %s; on the plan of the part it is at %s%s.", placed(c.Datum.Shows), placed(c.Datum.At), stands)
}

func (p *settingUp) chords(list []lathe.Chord) {
	t := &doc.Table{Name: "chords", Space: doc.Apart, Columns: doc.Columns("check", "centres", "over plugs", "between plugs")}
	orNone := func(mm float64) doc.Text {
		if math.IsNaN(mm) {
			return doc.Plain("-")
		}
		return doc.Show(length(mm))
	}
	for _, k := range list {
		t.Add(doc.Cells{
			"check": doc.Plain(k.From + " to " + k.To), "centres": doc.Show(length(k.Centres)), "over plugs": orNone(k.Over), "between plugs": orNone(k.Inside),
		})
	}
	if len(t.Rows) > 0 {
		p.Add(t)
	}
}

// mostTrains is how many sets of change gears are shown for one thread.
const mostTrains = 3

// threadsOf says how the threads of the part are cut, and by which gears.
func (p *settingUp) threadsOf(s *plan.Step) {
	for _, t := range s.Threads {
		thread := t.Cutting.Sheet.Thread
		p.headed("Thread " + t.Name + ", " + thread.Designation)
		p.screwcutting(t.Cutting, &p.sourced)
		p.sourced.add(thread.Designation, thread.Source)
		if t.Gears == nil {
			continue
		}
		p.headed(fmt.Sprintf("Change gears for %v on a leadscrew of %v", t.Gears.Wanted.Pitch, s.Machine.Leadscrew))
		p.trains(t.Gears, t.Gears.Trains, 0, mostTrains)
		p.gearsDoubts(t.Gears)
	}
}
