package say

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Contents says what of a job is wanted on its sheet.
type Contents struct {
	Found   *reckon.Found
	Stages  []reckon.Stage // in any order; nil: all that the job has
	Headed  bool           // begins with what the job is about, and room to say who did it
	Drawing draw.Options   // of the part; its units are those of who reads
}

// Sheet says all that is found of a job, stage by stage. An error is trade.Faults:
// what is wrong with the job at one of the stages.
func Sheet(c Contents) (*doc.Document, error) {
	job := c.Found.Result.Job
	s := &sheet{page: &page{}, Contents: c}
	if c.Headed {
		s.head()
	}
	for _, chapter := range []struct {
		stage reckon.Stage
		write func(*sheet) error
	}{
		{reckon.Readings, (*sheet).readings},
		{reckon.Sizes, (*sheet).sizes},
		{reckon.Meant, (*sheet).meant},
		{reckon.Fit, (*sheet).fitted},
		{reckon.Part, (*sheet).drawing},
		{reckon.SetUps, (*sheet).setUps},
		{reckon.Checks, (*sheet).checks},
		{reckon.Upkeep, (*sheet).kept},
		{reckon.Working, (*sheet).working},
		{reckon.Fit, (*sheet).rests},
	} {
		if !slices.Contains(reckon.Stages(job), chapter.stage) || c.Stages != nil && !slices.Contains(c.Stages, chapter.stage) {
			continue
		}
		if err := chapter.write(s); err != nil {
			return nil, err
		}
	}
	return &s.Document, nil
}

// sheet is the sheet of one job being written.
type sheet struct {
	*page
	Contents
}

// head says what it is about and leaves room to say who did it.
func (s *sheet) head() {
	job := s.Found.Result.Job
	s.chapter("%s", job.Name)
	if m := machineText(job.Machine); m != "" {
		s.Add(doc.Paragraph{Words: doc.Plain(m), Weight: doc.Figures})
	}
	if job.Part != nil {
		s.Add(doc.Paragraph{Words: PartText(job.Part), Weight: doc.Figures})
	}
	s.Add(doc.Form{Label: doc.Plain("by, and notes"), Lines: 2})
}

// machineText says which machine is being mended.
func machineText(m trade.Machine) string {
	said := []string{}
	if m.What != "" {
		said = append(said, m.What)
	}
	if m.Built > 0 {
		said = append(said, fmt.Sprintf("built %d", m.Built))
	}
	if m.Country != "" {
		said = append(said, m.Country)
	}
	return strings.Join(said, ", ")
}

// readings lists what was read, with room to read it again.
func (s *sheet) readings() error {
	job := s.Found.Result.Job
	s.chapter("Readings")
	t := &doc.Table{Name: "readings", Columns: []doc.Column{
		{Name: "id"},
		plain("how"),
		{Name: "with", Head: doc.Plain("with"), Tone: doc.Quiet},
		{Name: "saw", Head: doc.Plain("saw"), Weight: doc.Figures},
		{Name: "again", Head: doc.Plain("again"), Where: doc.ByHand},
	}}
	for i := range job.Readings {
		r := &job.Readings[i]
		how := SetUp(r, nil)
		if r.Say != "" {
			how += "; " + r.Say
		}
		t.Add(doc.Cells{
			"id": doc.Name(doc.Reading, r.ID), "how": doc.Plain(how), "with": doc.Name(doc.Instrument, r.With), "saw": doc.Plain(sawText(job, r)),
		})
	}
	s.Add(t)
	return nil
}

// sawText writes the values of a reading as they were read: to the places that the
// instrument shows, the unit behind the last.
func sawText(job *trade.Job, r *trade.Reading) string {
	if r.GoNoGo() {
		return GoesAndStops(r)
	}
	list := AsRead(job, r)
	for i := range r.Saw {
		saw := &r.Saw[i]
		if i+1 < len(r.Saw) && r.Saw[i+1].X.Unit() == saw.X.Unit() {
			list[i] = strings.ReplaceAll(list[i], " "+saw.X.Unit().String(), "")
		}
		if saw.SetAside {
			list[i] += " (set aside)"
		}
	}
	return strings.Join(list, ", ")
}

func (s *sheet) sizes() error {
	f := &findings{s.page, s.Found.Result, s.Found.Doubts()}
	s.chapter("Sizes")
	f.sizes()
	return nil
}

func (s *sheet) meant() error {
	(&meanings{&findings{page: s.page, r: s.Found.Result}}).meant(s.Found.Meaning())
	s.allThreads(s.Found.Threads())
	return nil
}

// fitted says what to make, how it goes together and what gives way.
func (s *sheet) fitted() error {
	f, err := s.Found.Fitted()
	if err != nil {
		return err
	}
	if len(f.Made.Make) > 0 {
		s.chapter("What to make")
		(&making{&findings{page: s.page, r: f.Made.Found}, f.Made}).all()
	}
	for i := range f.Mates {
		s.mate(&f.Mates[i])
	}
	for i := range f.Joints {
		s.joint(&f.Joints[i])
	}
	s.cautions(f.Joints)
	return nil
}

// drawing shows the part, or says why it cannot.
func (s *sheet) drawing() error {
	s.chapter("Drawing")
	s.Add(doc.Picture{Draw: func(v unit.View) (*ink.Sheet, error) {
		o := s.Drawing
		o.Units = v.Unit()
		return s.Found.Drawing(o)
	}})
	return nil
}

// setUps says how the part is set up for, or why that cannot be said.
func (s *sheet) setUps() error {
	s.chapter("Set-ups")
	planned, err := s.Found.SetUps()
	if err != nil {
		s.say("There are none: %v", err)
		return nil
	}
	(&settingUp{page: s.page, plan: planned}).all()
	return nil
}

// checks says how the part is proved, with how it stands, and how the machine goes
// together again.
func (s *sheet) checks() error {
	c, err := s.Found.Proved()
	if err == nil {
		(&checking{&findings{page: s.page, r: c.Made.Found}, c}).all()
	}
	return err
}

// kept says what the surveys of the machine tell, or why that cannot be said.
func (s *sheet) kept() error {
	s.chapter("Upkeep")
	r, err := s.Found.Upkeep()
	if err != nil {
		s.say("Nothing can be said of it: %v", err)
		return nil
	}
	s.upkeep(r)
	return nil
}

// working shows how the sizes came about.
func (s *sheet) working() error {
	f := &findings{page: s.page, r: s.Found.Result}
	f.formulas()
	f.relations()
	f.kit()
	f.shares()
	return nil
}

// rests says what the strengths rest on.
func (s *sheet) rests() error {
	f, err := s.Found.Fitted()
	if err == nil {
		s.granted(f.Joints)
	}
	return err
}
