package report

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/picture"
	"codeberg.org/oddleg/oddleg/show/say"
)

// Contents says what of a job is wanted on paper, or on a page.
type Contents struct {
	Found   *reckon.Found
	Stages  []reckon.Stage // in any order; nil: all that the job has
	Headed  bool           // begins with what the job is about, and room to say who did it
	Drawing draw.Options   // of the part
}

// Chapters says it for the bench, in the words that a terminal shows too. An
// error is trade.Faults: what is wrong with the job at one of the stages.
func Chapters(c Contents) ([]booklet.Chapter, error) {
	job := c.Found.Result.Job
	a := &author{Contents: c, printer: &printer{r: c.Found.Result, units: job.Shown(), doubts: c.Found.Doubts(), style: Style{Colour: true}, pages: &pages{}}}
	if c.Headed {
		a.job()
	}
	for _, write := range []struct {
		stage reckon.Stage
		it    func(*author) error
	}{
		{reckon.Readings, said((*author).readings)},
		{reckon.Sizes, said((*author).foundSizes)},
		{reckon.Meant, said((*author).meant)},
		{reckon.Meant, said((*author).seriesThreads)},
		{reckon.Fit, (*author).fitted},
		{reckon.Part, said((*author).drawing)},
		{reckon.SetUps, said((*author).setUps)},
		{reckon.Checks, (*author).checks},
		{reckon.Upkeep, said((*author).upkeep)},
		{reckon.Working, said((*author).working)},
		{reckon.Fit, (*author).granted},
	} {
		if !slices.Contains(reckon.Stages(job), write.stage) || c.Stages != nil && !slices.Contains(c.Stages, write.stage) {
			continue
		}
		if err := write.it(a); err != nil {
			return nil, err
		}
	}
	return a.pages.all(), nil
}

// said is a chapter in which nothing can go wrong.
func said(write func(*author)) func(*author) error {
	return func(a *author) error { write(a); return nil }
}

// author writes the chapters of one job.
type author struct {
	*printer
	Contents
}

// job says what it is about and leaves room to say who did it.
func (a *author) job() {
	job := a.r.Job
	a.pages.begin(job.Name)
	if m := machineText(job.Machine); m != "" {
		a.pages.add(booklet.Paragraph{Words: m, Weight: booklet.Figure})
	}
	if job.Part != nil {
		a.pages.add(booklet.Said{Block: doc.Paragraph{Words: say.PartText(job.Part), Weight: doc.Figures}})
	}
	a.pages.add(booklet.Room{Label: "by, and notes", Lines: 2})
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
func (a *author) readings() {
	a.pages.begin("Readings")
	t := booklet.Table{Columns: []booklet.Column{
		{Weight: booklet.Strong},
		{Head: "how"},
		{Head: "with", Weight: booklet.Quiet},
		{Head: "saw", Weight: booklet.Figure},
		{Head: "again", Write: true},
	}}
	for i := range a.r.Job.Readings {
		r := &a.r.Job.Readings[i]
		how := say.SetUp(r, nil)
		if r.Say != "" {
			how += "; " + r.Say
		}
		t.Rows = append(t.Rows, []string{r.ID, how, r.With, a.sawText(r), ""})
	}
	a.pages.add(t)
}

// sawText writes the values of a reading as they were read: to the places that
// the instrument shows, the unit behind the last.
func (a *author) sawText(r *trade.Reading) string {
	if r.GoNoGo() {
		return say.GoesAndStops(r)
	}
	list := say.AsRead(a.r.Job, r)
	for i := range r.Saw {
		s := &r.Saw[i]
		if i+1 < len(r.Saw) && r.Saw[i+1].X.Unit() == s.X.Unit() {
			list[i] = strings.ReplaceAll(list[i], " "+s.X.Unit().String(), "")
		}
		if s.SetAside {
			list[i] += " (set aside)"
		}
	}
	return strings.Join(list, ", ")
}

// foundSizes lists the sizes, then what to think of them.
func (a *author) foundSizes() { a.say(say.SizesChapter(a.r, a.doubts)) }

// say adds what a document says, as somebody reads it.
func (a *author) say(d *doc.Document) { a.pages.say(d, unit.View{In: a.units}) }

// meant lists what the sizes seem to have been.
func (a *author) meant() { a.say(say.Meant(a.r, a.Found.Meaning())) }

// seriesThreads says which threads they may have been.
func (a *author) seriesThreads() { a.say(say.Threads(a.Found.Threads())) }

// fitted says what to make, how it goes together and what gives way.
func (a *author) fitted() error {
	f, err := a.Found.Fitted()
	if err != nil {
		return err
	}
	a.say(say.MakeChapter(f.Made))
	a.mates(f.Mates)
	a.say(say.Joints(f.Joints))
	return nil
}

// The size of a picture of mating shapes.
const mateWidth, mateHeight = 150.0, 90.0

// mates says how the shapes go together, with a picture.
func (a *author) mates(answers []mating.Answer) {
	for i := range answers {
		m := &answers[i]
		a.say(say.Mate(m))
		picture, err := picture.Mates(m, a.units, mateWidth, mateHeight)
		switch {
		case err == nil:
			a.pages.add(booklet.Picture{Sheet: picture})
		case m.Known():
			a.paragraph("", sentence(err.Error()))
		}
	}
}

// checks says how the part is proved, with how it stands, and how the machine goes
// together again.
func (a *author) checks() error {
	checked, err := a.Found.Proved()
	if err == nil {
		a.say(say.CheckChapters(checked))
	}
	return err
}

// drawing shows the part, or says why it cannot.
func (a *author) drawing() {
	a.pages.begin("Drawing")
	sheet, err := a.Found.Drawing(a.Drawing)
	if err != nil {
		a.paragraph("", "There is none: "+err.Error())
		return
	}
	a.pages.add(booklet.Picture{Sheet: sheet})
}

// working shows how the sizes came about.
func (a *author) working() { a.say(say.Working(a.r)) }

// granted says what the strengths rest on.
func (a *author) granted() error {
	f, err := a.Found.Fitted()
	if err == nil {
		a.say(say.Granted(f.Joints))
	}
	return err
}
