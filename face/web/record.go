package web

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// recordPages answer for what is written down of a job.
type recordPages struct{ *desk }

func (s *recordPages) routes(t *table) {
	t.on("GET /job/{job}/record", s.recordPage)
	t.on("POST /job/{job}/record", s.shelve)
	t.on("GET /job/{job}/label.svg", s.label(".svg"))
	t.on("GET /job/{job}/label.pdf", s.label(".pdf"))
}

// recorded is what the record page shows.
type recorded struct {
	*jobView
	Entries   []record.Entry // the last first
	Revisions []record.Revision
	All       bool // of the revisions
	Place     string
	Label     *ink.Sheet
	Form      shelving
	Like      string // id of another job like it
}

// shelving is the form of an entry as it was typed.
type shelving struct {
	Once                                  string
	Made, Fitted, Scrapped                string
	Place, Drawing, Material, How, Better string
	Sizes                                 []cameOut
	Units                                 string // of sizes without any: mm or in
	Wrong                                 []string
}

// cameOut is a length of the part, and what it came out at. What it was to be is on
// the page of the fit, which takes longer to work out.
type cameOut struct {
	Name, Say, Text string
}

// mostShown is how many revisions are listed unless all are asked for.
const mostShown = 30

func (s *recordPages) recordPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	return s.showRecord(w, r, http.StatusOK, v, v.shelving())
}

func (s *recordPages) showRecord(w http.ResponseWriter, r *http.Request, status int, v *jobView, form shelving) error {
	entries, err := s.Record.Shelf(r.Context(), v.ID)
	if err != nil {
		return err
	}
	history, err := s.Record.History(r.Context(), v.ID)
	if err != nil {
		return err
	}
	page := recorded{jobView: v, Form: form, Like: newIdempotencyKey(newJob), All: r.FormValue("all") != "" || len(history) <= mostShown}
	page.Entries = lastFirst(entries)
	for _, e := range entries {
		if e.Place != "" {
			page.Place = e.Place // the last is where they are
		}
	}
	page.Revisions = lastFirst(history)
	if !page.All {
		page.Revisions = page.Revisions[:mostShown]
	}
	if page.Label, err = report.Label(say.Recorded(v.Job)); err != nil {
		page.Label = nil // too much text for a code: the page does without
	}
	return s.show(w, r, status, recordPage(s.lookAt(r, v, "Record"), page))
}

func lastFirst[T any](list []T) []T {
	turned := make([]T, len(list))
	for i := range list {
		turned[len(list)-1-i] = list[i]
	}
	return turned
}

// shelving is the form of a new entry, with what the job says already.
func (v *jobView) shelving() shelving {
	form := shelving{Once: newIdempotencyKey(newEntry), Units: "mm"}
	job := v.worked.Job
	if job == nil {
		return form
	}
	if v.worked.view().Unit() == unit.Inch {
		form.Units = "in"
	}
	if job.Part == nil {
		return form
	}
	form.Material, form.Drawing = job.Part.Material, job.Part.Revision
	for i := range job.Part.Sizes {
		size := &job.Part.Sizes[i]
		if size.From != trade.IsThread && size.Kind.Dimension() == unit.Length {
			form.Sizes = append(form.Sizes, cameOut{Name: size.ID, Say: size.Say})
		}
	}
	return form
}

// shelve records what happened to parts made of a job.
func (s *recordPages) shelve(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	form := v.shelving()
	form.read(r)
	entry := form.entry()
	entry.Job, entry.Stamp = v.ID, s.stamp(r, "")
	if entry.Revision, err = strconv.Atoi(r.FormValue("from")); err != nil || entry.Revision < 1 || entry.Revision > v.Revision {
		entry.Revision = v.Revision
	}
	if len(form.Wrong) == 0 {
		_, err := s.Record.Shelve(r.Context(), entry)
		var faults trade.Faults
		if err != nil && !errors.As(err, &faults) {
			return err
		}
		form.Wrong = said(faults)
	}
	if len(form.Wrong) > 0 {
		return s.showRecord(w, r, http.StatusUnprocessableEntity, v, form)
	}
	return goTo(w, r, v.at("record"))
}

// read takes in what was typed.
func (f *shelving) read(r *http.Request) {
	if id := r.FormValue("once"); isIdempotencyKey(id, newEntry) {
		f.Once = id
	}
	for name, field := range map[string]*string{
		"made": &f.Made, "fitted": &f.Fitted, "scrapped": &f.Scrapped, "place": &f.Place, "drawing": &f.Drawing,
		"material": &f.Material, "how": &f.How, "better": &f.Better, "units": &f.Units,
	} {
		*field = lineOf(r, name)
	}
	for i := range f.Sizes {
		f.Sizes[i].Text = lineOf(r, "size."+f.Sizes[i].Name)
	}
}

// entry is what the form says, and notes what is wrong with it.
func (f *shelving) entry() record.Entry {
	e := record.Entry{
		ID: f.Once, Made: f.count("made", f.Made), Fitted: f.count("fitted", f.Fitted), Scrapped: f.count("scrapped", f.Scrapped),
		Place: f.Place, Drawing: f.Drawing, Material: f.Material, How: f.How, Better: f.Better,
	}
	for _, size := range f.Sizes {
		if size.Text == "" {
			continue
		}
		text := withUnit(size.Text, f.Units)
		length, err := unit.ParseLength(text, unit.Millimetre)
		switch {
		case err != nil:
			f.Wrong = append(f.Wrong, fmt.Sprintf("%s: %v", size.Name, err))
		case length.Sign() <= 0:
			f.Wrong = append(f.Wrong, fmt.Sprintf("%s: %q: a length greater than 0 is wanted", size.Name, size.Text))
		default:
			e.Sizes = append(e.Sizes, record.Size{Name: size.Name, Text: text, MM: length.Inside()})
		}
	}
	if len(f.Wrong) == 0 && e.Made+e.Fitted+e.Scrapped+len(e.Sizes) == 0 && e.Place+e.How+e.Better == "" {
		f.Wrong = append(f.Wrong, "Say what happened: how many were made, fitted or scrapped, or where they are.")
	}
	return e
}

func (f *shelving) count(what, text string) int {
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		f.Wrong = append(f.Wrong, fmt.Sprintf("%s: %q: a whole number is wanted", what, text))
		return 0
	}
	return n
}

// withUnit writes a length with the unit chosen beside it, where it has none of
// its own.
func withUnit(text, word string) string {
	metric, wrongMetric := unit.ParseLength(text, unit.Millimetre)
	inch, wrongInch := unit.ParseLength(text, unit.Inch)
	bare := wrongInch == nil && (wrongMetric != nil || !metric.Equal(inch))
	if !bare || unitsCalled[word] == unit.One {
		return text
	}
	return text + " " + word
}

// label sends the label for the bag of a part.
func (s *recordPages) label(ending string) action {
	kinds := map[string]string{".svg": "image/svg+xml", ".pdf": "application/pdf"}
	return func(w http.ResponseWriter, r *http.Request) error {
		job, err := s.Record.Job(r.Context(), r.PathValue("job"))
		if err != nil {
			return err
		}
		sheet, err := report.Label(say.Recorded(job))
		if err != nil {
			return wrong("%v", err)
		}
		return sendFile(w, r, "label-"+job.ID+ending, kinds[ending], func(w io.Writer) error {
			return writeSheets(w, ending, []*ink.Sheet{sheet}, "Label: "+job.Name, s.Now())
		})
	}
}

// count returns how many parts were ever made, fitted and scrapped.
func (p *recorded) count() (made, fitted, scrapped int) {
	for _, e := range p.Entries {
		made, fitted, scrapped = made+e.Made, fitted+e.Fitted, scrapped+e.Scrapped
	}
	return made, fitted, scrapped
}

// inTotal says what became of the parts.
func (p *recorded) inTotal() string {
	made, fitted, scrapped := p.count()
	return fmt.Sprintf("%d made, %d fitted, %d scrapped", made, fitted, scrapped)
}

// onShelf says how many spares there are, and where.
func (p *recorded) onShelf() string {
	text := strconv.Itoa(p.OnShelf) + " spares"
	switch p.OnShelf {
	case 0:
		return "No spares"
	case 1:
		text = "1 spare"
	}
	return joined(", ", text, p.Place)
}

// joined puts words that say anything one after the other.
func joined(between string, words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(word string) bool { return word == "" }), between)
}

// became says what one entry counts.
func became(e record.Entry) string {
	some := func(n int, word string) string {
		if n == 0 {
			return ""
		}
		return fmt.Sprintf("%d %s", n, word)
	}
	return joined(", ", some(e.Made, "made"), some(e.Fitted, "fitted"), some(e.Scrapped, "scrapped"))
}

// wear says how each thing that was surveyed several times wears.
func (v *jobView) wear() []string {
	if v.worked.Job == nil || len(v.worked.Job.Surveys) == 0 {
		return nil
	}
	judged, err := upkeep.Judge(v.worked.Job)
	if err != nil {
		return nil
	}
	return wearing(judged, v.worked.view().Unit())
}

// wearing says what the trends of surveys are.
func wearing(judged *upkeep.Result, in unit.Unit) []string {
	var list []string
	for _, t := range judged.Trends {
		value, half := shown(t.Value, adjust.Coverage95*t.U, t.Dimension, in)
		rate, rateHalf := shown(t.Rate, adjust.Coverage95*t.RateU, t.Dimension, in)
		text := fmt.Sprintf("%s, %s: %s ± %s on %s, growing by %s ± %s a year", thing(t.Kind, t.Of), t.Name.Shown(unit.View{In: in}), value, half, t.To.Format("2 Jan 2006"), rate, rateHalf)
		if !t.Again.IsZero() {
			text += "; look again by " + t.Again.Format("January 2006")
		}
		if t.Why != "" {
			text += ": " + t.Why
		}
		list = append(list, text)
	}
	return list
}

// thing says what was surveyed.
func thing(kind *survey.Kind, of string) string {
	if of == "" {
		return kind.Title
	}
	return kind.Title + " (" + of + ")"
}
