package report

import (
	"fmt"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/make/mating"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
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
		a.pages.add(booklet.Paragraph{Words: partText(job.Part), Weight: booklet.Figure})
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
		how := setUp(r, nil)
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
		return "goes " + boundText(r.Goes) + ", stops " + boundText(r.Stops)
	}
	list := values(a.r.Job, r)
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

// values writes each value of a reading as it was read, to the places that the
// instrument shows.
func values(job *trade.Job, r *trade.Reading) []string {
	places := 0
	if with := job.Instrument(r.With); with != nil {
		places = decimals(with.Resolution.String())
	}
	list := make([]string, len(r.Saw))
	for i, s := range r.Saw {
		list[i] = withPlaces(s.X.String(), places)
		if s.Y.Given() {
			list[i] += " / " + withPlaces(s.Y.String(), places)
		}
	}
	return list
}

// decimals counts the figures behind the point of a number with its unit.
func decimals(text string) int {
	number, _, _ := strings.Cut(text, " ")
	_, behind, _ := strings.Cut(number, ".")
	return len(behind)
}

// withPlaces writes a decimal with so many places at least. A fraction stays as
// it is.
func withPlaces(text string, places int) string {
	number, name, named := strings.Cut(text, " ")
	missing := places - decimals(number)
	if !named || missing <= 0 || strings.Contains(text, "/") {
		return text
	}
	if decimals(number) == 0 {
		number += "."
	}
	return number + strings.Repeat("0", missing) + " " + name
}

func boundText(b trade.Bound) string {
	if b.ID != "" {
		return b.ID
	}
	return b.Value.String()
}

// foundSizes lists the sizes in large figures, then what to think of them.
func (a *author) foundSizes() {
	a.pages.begin("Sizes")
	first, second := unit.Millimetre, unit.Inch
	if a.units == unit.Inch {
		first, second = second, first
	}
	t := booklet.Table{Columns: []booklet.Column{
		{Weight: booklet.Strong},
		{Head: first.String(), Weight: booklet.Large, Align: ink.RightAligned},
		{Head: "± 95 %", Weight: booklet.Figure},
		{Head: second.String() + ", ± 95 %", Weight: booklet.Quiet},
		{Head: "nearest 1/64 in", Weight: booklet.Quiet},
		{Head: "checked by", Weight: booklet.Quiet},
		{Head: "what it is", Weight: booklet.Quiet},
	}}
	for _, s := range a.r.Sizes {
		row := plainRow(a.sizeRow(s))
		value, within, _ := strings.Cut(row[1], " ± ")
		t.Rows = append(t.Rows, []string{row[0], value, within, row[2], row[3], row[5], a.r.Job.Size(s.ID).Say})
	}
	if len(t.Rows) > 0 {
		a.pages.add(t)
	}
	for _, write := range []func(){a.agreement, a.places, a.suspects, a.either, a.setAside, a.undetermined, a.warnings} {
		write()
	}
}

// meant lists what the sizes seem to have been, without the terminal's picture.
func (a *author) meant() {
	meaning := a.Found.Meaning()
	if len(meaning.Sizes) == 0 {
		return
	}
	a.pages.begin("")
	a.meaningHead()
	rows := a.meaningTable(meaning)
	for i := range rows {
		rows[i] = rows[i][:3] // the fourth is a picture in letters
	}
	a.table(rows)
	a.openMeanings(meaning)
}

// seriesThreads says which threads they may have been.
func (a *author) seriesThreads() {
	threads := a.Found.Threads()
	for i := range threads {
		a.pages.begin("")
		a.allThreads(threads[i : i+1])
	}
}

// fitted says what to make, how it goes together and what gives way.
func (a *author) fitted() error {
	f, err := a.Found.Fitted()
	if err != nil {
		return err
	}
	a.make(f.Made)
	a.mates(f.Mates)
	a.joints(f.Joints)
	return nil
}

// make says what to work to, with room to write what came of it, and why.
func (a *author) make(made *fit.Result) {
	if len(made.Make) == 0 {
		return
	}
	p := &making{printer: a.printer, f: made}
	a.pages.begin("What to make")
	first, second := unit.Millimetre, unit.Inch
	if a.units == unit.Inch {
		first, second = second, first
	}
	t := booklet.Table{Columns: []booklet.Column{
		{Weight: booklet.Strong},
		{Head: "make to, " + first.String(), Weight: booklet.Large, Align: ink.RightAligned},
		{Head: "limits, " + first.String(), Weight: booklet.Figure},
		{Head: "limits, " + second.String(), Weight: booklet.Quiet},
		{Head: "it", Weight: booklet.Quiet},
		{Head: "made", Write: true},
	}}
	for _, row := range p.makeRows()[1:] {
		row = plainRow(row)
		row[1] = strings.TrimSuffix(row[1], " "+first.String())
		t.Rows = append(t.Rows, append(row, ""))
	}
	a.pages.add(t)
	for _, write := range []func(){p.threads, p.matings, p.rest, p.stacks, p.mindMade} {
		write()
	}
}

// The size of a picture of mating shapes.
const mateWidth, mateHeight = 150.0, 90.0

// mates says how the shapes go together, with a picture.
func (a *author) mates(answers []mating.Answer) {
	for i := range answers {
		m := &answers[i]
		a.pages.begin("")
		a.mate(m)
		picture, err := booklet.Mates(m, a.units, mateWidth, mateHeight)
		switch {
		case err == nil:
			a.pages.add(booklet.Picture{Sheet: picture})
		case m.Known():
			a.paragraph("", sentence(err.Error()))
		}
	}
}

// joints says what gives way first, and to take care.
func (a *author) joints(answers []strength.Answer) {
	for i := range answers {
		a.pages.begin("")
		a.joint(&answers[i])
	}
	if len(answers) > 0 {
		a.pages.begin("")
		a.cautions(answers)
	}
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
func (a *author) working() {
	a.pages.weight = booklet.Small
	for _, write := range []func(){a.formulas, a.relations, a.kit, a.shares} {
		a.pages.begin("")
		write()
	}
}

// granted says what the strengths rest on.
func (a *author) granted() error {
	f, err := a.Found.Fitted()
	if err == nil && len(f.Joints) > 0 {
		a.pages.begin("")
		a.taken(f.Joints)
	}
	return err
}
