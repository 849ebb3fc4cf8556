package web

import (
	"fmt"
	"math"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"github.com/a-h/templ"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/say"
)

// readingPages answer for the list of readings and what is done with each.
type readingPages struct{ *desk }

func (s *readingPages) routes(t *table) {
	t.on("GET /job/{job}/readings", s.readingsPage)
	t.on("GET /job/{job}/next", s.nextPage)
	t.on("POST /job/{job}/readings/{reading}/more", s.readMore)
	t.on("POST /job/{job}/readings/{reading}/aside", s.setAside)
	t.on("POST /job/{job}/readings/{reading}/drop", s.dropReading)
	t.on("GET /job/{job}/ties", s.tiesPage)
	t.on("POST /job/{job}/ties", s.tie)
	t.on("POST /job/{job}/ties/{tie}/drop", s.untie)
}

// readingsPage lists what was read, the latest first.
func (s *readingPages) readingsPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "readings")
	if err != nil {
		return err
	}
	return s.showReadings(w, r, v, nil)
}

// showReadings shows the list, with what could not be done and what was typed.
func (s *readingPages) showReadings(w http.ResponseWriter, r *http.Request, v *jobView, failed *failed) error {
	status := http.StatusOK
	if failed != nil {
		status = http.StatusUnprocessableEntity
	}
	l := s.lookAt(r, v, "Readings")
	l.Scripts = []string{"take.js"}
	return s.show(w, r, status, readingsPage(l, s.taken(v), failed))
}

// failed is a form that could not be saved: what it was of, what was typed, and
// what is wrong with it.
type failed struct {
	ID, Text, Why string
	Wrong         []string
}

// typed returns what was typed in the form of a reading that could not be saved.
func (f *failed) typed(id string) string {
	if f == nil || f.ID != id {
		return ""
	}
	return f.Text
}

// takenReading is a reading as it is listed.
type takenReading struct {
	*trade.Reading
	How    string
	Values []takenValue
	Mind   []string // what to mind about it
}

// takenValue is one value of a reading.
type takenValue struct {
	Index     int
	Saw       string
	Aside     bool
	Agrees    string   // with the others: by how much it reads high or low
	Suspect   []string // what is wrong with it, then what may have happened
	Unchecked bool     // nothing would show that it is wrong
}

// takenList is the readings, the latest first, and what is doubtful beside them.
type takenList struct {
	Readings []takenReading
	Doubts   [][]string // of what is no reading, each with what may have happened
	Either   []string
	Loose    []string // what ties sizes together: relations
}

// taken lists what was read.
func (s *readingPages) taken(v *jobView) takenList {
	var list takenList
	if v.worked.Job == nil {
		return list
	}
	words := say.WordsOn(v.worked.Job, v.Found, v.worked.view())
	values := map[string][]adjust.Value{}
	if v.Found != nil {
		for _, value := range v.Found.Result.Readings {
			values[value.ID] = append(values[value.ID], value)
		}
		list.Either = words.Either()
		list.Doubts = otherDoubts(words)
	}
	for i := range slices.Backward(v.worked.Job.Readings) {
		reading := &v.worked.Job.Readings[i]
		list.Readings = append(list.Readings, takenReading{
			Reading: reading, How: words.SetUp(reading), Values: v.values(words, reading, values[reading.ID]), Mind: v.mind(reading.ID),
		})
	}
	for _, tie := range v.worked.Job.Relations {
		list.Loose = append(list.Loose, tieText(tie))
	}
	return list
}

// otherDoubts are about gauge pieces, zeros, known sizes and relations.
func otherDoubts(words *say.Words) [][]string {
	var list [][]string
	for _, source := range words.Suspects() {
		if source.Kind != adjust.FromReading {
			list = append(list, words.Suspect(source))
		}
	}
	return list
}

// values are what a reading showed, each with how it stands against the others.
func (v *jobView) values(words *say.Words, r *trade.Reading, found []adjust.Value) []takenValue {
	var list []takenValue
	for i, saw := range words.Saw(r) {
		value := takenValue{Index: i, Saw: saw, Aside: i < len(r.Saw) && r.Saw[i].SetAside}
		if i < len(found) {
			value.Agrees = v.agrees(found[i])
			value.Suspect = words.Suspect(adjust.Source{Kind: adjust.FromReading, ID: r.ID, Index: i})
			value.Unchecked = !value.Aside && found[i].Redundancy < leastRedundancy
		}
		list = append(list, value)
	}
	return list
}

// leastRedundancy is that of a value of which a slip would be seen at all.
const leastRedundancy = 1e-6

// agrees says by how much a value is off what the others give, nothing where
// they give nothing.
func (v *jobView) agrees(value adjust.Value) string {
	if value.Unknown || value.Pair || value.Redundancy < leastRedundancy && !value.SetAside {
		return ""
	}
	off := value.Residual
	text := smallAmount(off, value.Dimension, v.worked.view().Unit())
	switch {
	case text == "":
		return "agrees"
	case value.Normalised*value.Normalised < 1.96*1.96 && !value.SetAside:
		return "agrees within " + text
	case len(v.suspects()) > 0 && !value.SetAside:
		return "" // it may be pulled by what is suspect
	case off > 0:
		return "reads " + text + " high"
	}
	return "reads " + text + " low"
}

// smallAmount writes a difference, nothing where it is less than is shown.
func smallAmount(x float64, d unit.Dimension, in unit.Unit) string {
	text := ""
	switch x = math.Abs(x); d {
	case unit.Angle:
		text = unit.ShowAngle(x)
	case unit.Length:
		text = unit.ShowLength(x, in)
	default:
		text, _ = unit.WithUncertainty(x, x)
	}
	if strings.Trim(text, "0. °min") == "" {
		return ""
	}
	return text
}

// mind is what the result warns about a reading.
func (v *jobView) mind(id string) []string {
	if v.Found == nil {
		return nil
	}
	var list []string
	for _, w := range v.Found.Result.Warnings {
		if w.Reading == id {
			list = append(list, w.Text.Shown(v.worked.view()))
		}
	}
	return list
}

// readingAnchor is where a reading stands in its page.
func readingAnchor(id string) string { return "reading-" + id }

// readMore adds values to a reading: the same set-up, read again.
func (s *readingPages) readMore(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("reading")
	return s.reread(w, r, failed{ID: id, Text: r.FormValue("saw")}, "reading "+id+" read again", func(source []byte) ([]byte, error) {
		job, err := readJob(source)
		if err != nil {
			return nil, err
		}
		t := taking{Values: r.PostForm}
		var saw []string
		for _, value := range t.seen() {
			saw = append(saw, t.value(value, job.Units))
		}
		if len(saw) == 0 {
			return nil, wrong("type what it showed")
		}
		keep(w, typingCookie, r.FormValue("unit"))
		return jobedit.AddSaw(source, id, pairs(saw, r.PostForm["saw.y"])...)
	})
}

// pairs puts the y of each touch behind its x.
func pairs(x, y []string) []string {
	if len(y) == 0 {
		return x
	}
	var list []string
	for i := range min(len(x), len(y)) {
		list = append(list, x[i], strings.TrimSpace(y[i]))
	}
	return list
}

// setAside leaves a value out, or takes it back.
func (s *readingPages) setAside(w http.ResponseWriter, r *http.Request) error {
	id, why, aside := r.PathValue("reading"), strings.TrimSpace(r.FormValue("why")), r.FormValue("aside") == "yes"
	note := "a value of reading " + id + " taken back"
	if aside {
		note = "a value of reading " + id + " set aside"
	}
	return s.reread(w, r, failed{ID: id, Why: why}, note, func(source []byte) ([]byte, error) {
		index, err := strconv.Atoi(r.FormValue("index"))
		if err != nil {
			return nil, wrong("choose which value")
		}
		if aside && why == "" {
			return nil, wrong("say why it is set aside: whoever reads this next wants to know")
		}
		return jobedit.SetAside(source, id, index, why, aside)
	})
}

// dropReading takes a reading out. The history has it still.
func (s *readingPages) dropReading(w http.ResponseWriter, r *http.Request) error {
	id := r.PathValue("reading")
	return s.reread(w, r, failed{ID: id}, "reading "+id+" taken out", func(source []byte) ([]byte, error) {
		return jobedit.Drop(source, "readings", id)
	})
}

// reread changes the readings and shows them again, with what was typed where it
// cannot be done. A change after which the job could not be read is none.
func (s *readingPages) reread(w http.ResponseWriter, r *http.Request, was failed, note string, edit func(source []byte) ([]byte, error)) error {
	saved, err := s.change(w, r, note, s.readable(edit))
	if was.Wrong = untold(err); was.Wrong != nil {
		v, err := s.view(r, "readings")
		if err != nil {
			return err
		}
		return s.showReadings(w, r, v, &was)
	}
	if err != nil {
		return err
	}
	return s.after(w, r, saved, "/job/"+saved.Job+"/readings")
}

// readable is an edit of which the outcome is read, too.
func (s *desk) readable(edit func(source []byte) ([]byte, error)) func(source []byte) ([]byte, error) {
	return func(source []byte) ([]byte, error) {
		edited, err := edit(source)
		if err == nil {
			_, err = readJob(edited)
		}
		return edited, err
	}
}

// tieText says what ties sizes together.
func tieText(r trade.Relation) string {
	text := r.That.Text + " = " + r.Is.Text
	if r.Within.Given() {
		text += " ± " + r.Within.String()
	}
	if r.U.Given() {
		text += fmt.Sprintf(", to a standard deviation of %s", r.U)
	}
	if r.Say != "" {
		text += ": " + r.Say
	}
	return text
}

// tying is what ties sizes together, as it is typed.
type tying struct {
	That, Is, Within, Say string
	Wrong                 []string
}

func (s *readingPages) tiesPage(w http.ResponseWriter, r *http.Request) error {
	return s.showTies(w, r, http.StatusOK, tying{})
}

func (s *readingPages) showTies(w http.ResponseWriter, r *http.Request, status int, t tying) error {
	v, err := s.view(r, "readings")
	if err != nil {
		return err
	}
	return s.show(w, r, status, tiesPage(s.lookAt(r, v, "Tie sizes"), t))
}

// tie says that one expression over the sizes equals another.
func (s *readingPages) tie(w http.ResponseWriter, r *http.Request) error {
	field := func(name string) string { return strings.TrimSpace(r.FormValue(name)) }
	t := tying{That: field("that"), Is: field("is"), Within: field("within"), Say: field("say")}
	saved, err := s.change(w, r, "sizes tied: "+t.That+" = "+t.Is, s.readable(func(source []byte) ([]byte, error) {
		if t.That == "" || t.Is == "" {
			return nil, wrong("write both sides: what equals what")
		}
		fields := []record.Field{{Key: "that", Text: t.That}, {Key: "is", Text: t.Is}}
		for _, f := range []record.Field{{Key: "within", Text: t.Within}, {Key: "say", Text: t.Say}} {
			if f.Text != "" {
				fields = append(fields, f)
			}
		}
		return jobedit.Put(source, record.Item{Section: "relations", Fields: fields})
	}))
	if t.Wrong = untold(err); t.Wrong != nil {
		return s.showTies(w, r, http.StatusUnprocessableEntity, t)
	}
	if err != nil {
		return err
	}
	return s.after(w, r, saved, "/job/"+saved.Job+"/readings#ties")
}

// untie takes a relation out, by its place from 1.
func (s *readingPages) untie(w http.ResponseWriter, r *http.Request) error {
	return s.reread(w, r, failed{}, "a relation taken out", func(source []byte) ([]byte, error) {
		return jobedit.Drop(source, "relations", r.PathValue("tie"))
	})
}

// sends are the attributes of a form after which a part of the page and the
// answer are shown anew; the whole page where scripts do not run.
func sends(path, part string) templ.Attributes {
	return templ.Attributes{
		"method": "post", "action": path, "hx-post": path, "hx-target": "#" + part, "hx-select": "#" + part, "hx-select-oob": "#answer,#next",
		"hx-swap": "outerHTML",
	}
}

// asideWhy is why values are set aside, as it stands or was typed.
func asideWhy(r takenReading, f *failed) string {
	if f != nil && f.ID == r.ID && f.Why != "" {
		return f.Why
	}
	return r.Why
}

// asideWords says that values are set aside, and why.
func (r takenReading) asideWords() string {
	if r.Why == "" {
		return "set aside"
	}
	return "set aside: " + r.Why
}

// words is the value as it is chosen in a list.
func (v takenValue) words() string {
	if v.Aside {
		return v.Saw + ", set aside"
	}
	return v.Saw
}
