package web

import (
	"context"
	"net/http"
	"slices"
	"strconv"
	"time"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/say"
)

// checksSection is that of a job's text with the readings of the finished part.
const checksSection = "checks"

// checkPages answer for the proving of the part.
type checkPages struct{ *desk }

func (s *checkPages) routes(t *table) {
	t.on("GET /job/{job}/checks", s.checksPage)
	t.on("POST /job/{job}/checks", s.saveCheck)
	t.on("POST /job/{job}/checks/old", s.saveOldCheck)
}

// checkLine is one size of the inspection sheet, with how it stands.
type checkLine struct {
	Size     string
	How      string
	Shows    string
	Before   []string
	With     string // the instrument that is proposed; empty: one that the kit lacks
	Readable bool
	Length   bool // what the instrument shows is one
	Verdicts []checkVerdict
}

// checkVerdict is how the size of one piece stands.
type checkVerdict struct {
	Piece       int
	Says, Found string
	Besides     []string
	Right, Off  bool
}

// checksPage shows the inspection sheet, with a place to type what was read.
// Working it out takes longer than a page may: until then it says so.
func (s *checkPages) checksPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Checks))
	if err != nil {
		return err
	}
	if v.Found == nil || v.worked.Job.Part == nil {
		return s.show(w, r, http.StatusOK, checksPage(s.lookAt(r, v, "Checks"), nil, nil, said(v.Faults), ""))
	}
	if t, err := s.proving(v); t != nil || err != nil {
		return s.showWaiting(w, r, v, "Checks", t, err)
	}
	proved, err := v.Found.Proved()
	if err != nil {
		return s.show(w, r, http.StatusOK, checksPage(s.lookAt(r, v, "Checks"), nil, nil, said(faultsOf(err)), ""))
	}
	rest := v.spoken(say.BesidesSheet(proved)) // which is shown line by line
	return s.show(w, r, http.StatusOK, checksPage(s.lookAt(r, v, "Checks"), s.checkLines(proved, v.worked.view()), rest, nil, typingUnit(r, v)))
}

// proving sets the proving of a part going and waits a little for it: nil where
// it is done.
func (s *desk) proving(v *jobView) (*task, error) {
	asked := &task{ID: taskID("proving", v.ID, string(v.Source)), Job: v.ID, Title: "How the part is proved", Path: v.at("checks")}
	t, err := s.tasks.begin(asked, func(context.Context, func(done, all int)) (*doc.Document, error) {
		_, err := v.Found.Proved()
		return nil, err
	})
	if err != nil {
		return nil, err
	}
	select {
	case <-t.ended:
		return nil, nil
	case <-time.After(soon):
		return t, nil
	}
}

// showWaiting says that something is still being worked out, and looks again.
func (s *desk) showWaiting(w http.ResponseWriter, r *http.Request, v *jobView, title string, t *task, err error) error {
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, waitingPage(s.lookAt(r, v, title), title, t))
}

// typingUnit is the unit that a person types figures in.
func typingUnit(r *http.Request, v *jobView) string {
	if typed := cookie(r, typingCookie); unitsCalled[typed] != unit.One {
		return typed
	}
	return v.worked.Job.Units.String()
}

// checkLines are the sizes of the sheet in the order of making.
func (s *checkPages) checkLines(c *inspect.Result, view unit.View) []checkLine {
	var list []checkLine
	for i := range c.Sheet {
		step := &c.Sheet[i]
		line := checkLine{Size: step.Made.Size.ID, Readable: step.Reading != nil, Length: step.Reads == unit.Length}
		how, shows, before := say.InspectionStep(c, step)
		line.How, line.Shows, line.Before = how.Shown(view), shows.Shown(view), before
		if step.Reading != nil && step.Lent == nil {
			line.With = step.Reading.With
		}
		for _, piece := range c.Pieces {
			for j := range piece.Verdicts {
				if v := &piece.Verdicts[j]; v.Made.Size.ID == line.Size && len(v.Readings) > 0 {
					line.Verdicts = append(line.Verdicts, s.checkVerdict(view, piece.Number, v))
				}
			}
		}
		list = append(list, line)
	}
	return list
}

func (s *checkPages) checkVerdict(view unit.View, piece int, v *inspect.Verdict) checkVerdict {
	told := checkVerdict{Piece: piece, Right: v.Says == inspect.Conforming, Off: v.Says == inspect.NotConforming && (v.Take == nil || v.Take.Off == 0)}
	says, found, more := say.VerdictWords(v)
	told.Says, told.Found = says.Shown(view), found.Shown(view)
	for _, words := range more {
		told.Besides = append(told.Besides, words.Shown(view))
	}
	return told
}

// saveCheck takes a reading of the part as the sheet proposes it.
func (s *checkPages) saveCheck(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Checks))
	if err != nil {
		return err
	}
	if v.Found == nil {
		return v.Faults
	}
	proved, err := v.Found.Proved()
	if err != nil {
		return faultsOf(err)
	}
	i := slices.IndexFunc(proved.Sheet, func(step inspect.Step) bool { return step.Made.Size.ID == r.FormValue("size") && step.Reading != nil })
	if i < 0 {
		return wrong("the inspection sheet has no reading of a size %q", r.FormValue("size"))
	}
	step := &proved.Sheet[i]
	if step.Reads == unit.Length {
		keep(w, typingCookie, r.FormValue("unit"))
	}
	saved, err := s.change(w, r, "check of "+step.Made.Size.ID, func(source []byte) ([]byte, error) {
		return s.withCheck(r, v.worked.Job, source, step)
	})
	if err != nil {
		return err
	}
	return s.after(w, r, saved, v.at("checks#check-"+step.Made.Size.ID))
}

// withCheck writes a check into a text, and the gauge pieces that the kit lacked
// for it. What makes the text wrong is not written.
func (s *checkPages) withCheck(r *http.Request, job *trade.Job, source []byte, step *inspect.Step) ([]byte, error) {
	var err error
	for _, piece := range step.Borrow {
		if job.Piece(piece.ID) != nil {
			continue
		}
		item := record.Item{Section: "kit", ID: piece.ID, Fields: []record.Field{{Key: "kind", Text: string(piece.Kind)}, {Key: "size", Text: piece.Size.String()}}}
		if source, err = jobedit.Put(source, item); err != nil {
			return nil, err
		}
	}
	with := r.FormValue("with")
	if job.Instrument(with) == nil {
		return nil, wrong("with which instrument was it read? %q is not in the kit of this job", with)
	}
	fields := append(setUpFields(step.Reading), record.Field{Key: "with", Text: with}, record.Field{Key: "saw", List: sawTyped(r, step.Reads)})
	if r.FormValue("in-machine") == "yes" {
		fields = append(fields, record.Field{Key: "in-machine", Text: "yes"})
	}
	for _, key := range []string{"piece", "at-temp", "with-temp", "say"} {
		if text := r.FormValue(key); text != "" && !(key == "piece" && text == "1") {
			fields = append(fields, record.Field{Key: key, Text: text})
		}
	}
	return s.putCheck(source, fields)
}

// putCheck writes a check that is nobody's yet, and reads what came of it.
func (s *checkPages) putCheck(source []byte, fields []record.Field) ([]byte, error) {
	source, err := jobedit.Put(source, record.Item{Section: checksSection, ID: jobedit.NextID(source, checksSection, "k1"), Fields: fields})
	if err == nil {
		_, err = readJob(source)
	}
	return source, err
}

// setUpFields are a set-up as the text has it.
func setUpFields(x *trade.Reading) []record.Field {
	fields := []record.Field{{Key: "by", Text: x.By}}
	if x.That.Given() {
		return append(fields, record.Field{Key: "that", Text: x.That.Text})
	}
	var of []record.Field
	for _, arg := range x.Of {
		text := arg.ID
		if text == "" {
			text = arg.Value.String()
		}
		of = append(of, record.Field{Key: arg.Role, Text: text})
	}
	return append(fields, record.Field{Key: "of", Map: of})
}

// sawTyped are the values that were typed, each with its unit where they are
// lengths.
func sawTyped(r *http.Request, d unit.Dimension) []string {
	list := listed(r.FormValue("saw"))
	if d == unit.Length {
		for i := range list {
			list[i] = withUnit(list[i], r.FormValue("unit"))
		}
	}
	return list
}

// oldReadings are the readings that can be taken once more on the bare old part.
func (v *jobView) oldReadings() []entryChoice {
	var list []entryChoice
	for i := range v.worked.Job.Readings {
		if x := &v.worked.Job.Readings[i]; repeats(x) {
			list = append(list, entryChoice{x.ID, x.ID})
		}
	}
	return list
}

// repeats reports whether a reading is one value of an instrument.
func repeats(x *trade.Reading) bool { return !x.GoNoGo() && x.With != "" && !gauge.Pairs(x.By) }

// reads is what the instrument of a reading shows.
func (v *jobView) reads(x *trade.Reading) unit.Dimension {
	if with := v.worked.Job.Instrument(x.With); with != nil {
		return gauge.InstrumentReads(with)
	}
	return unit.Length
}

// saveOldCheck takes a reading of the old part once more, now that it is apart.
func (s *checkPages) saveOldCheck(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Checks))
	if err != nil {
		return err
	}
	if v.worked.Job == nil {
		return v.Faults
	}
	i := slices.IndexFunc(v.worked.Job.Readings, func(x trade.Reading) bool { return x.ID == r.FormValue("reading") && repeats(&x) })
	if i < 0 {
		return wrong("there is no reading %q that could be taken once more", r.FormValue("reading"))
	}
	x := &v.worked.Job.Readings[i]
	saved, err := s.change(w, r, "check of the old part, "+x.ID, func(source []byte) ([]byte, error) {
		fields := append(setUpFields(x), record.Field{Key: "with", Text: x.With}, record.Field{Key: "on", Text: "old"},
			record.Field{Key: "saw", List: sawTyped(r, v.reads(x))})
		return s.putCheck(source, fields)
	})
	if err != nil {
		return err
	}
	return s.after(w, r, saved, v.at("checks"))
}

// inMachine reports whether the latest check was made in the machine: the next is
// likely to be.
func (v *jobView) inMachine() bool {
	checks := v.worked.Job.Checks
	return len(checks) > 0 && checks[len(checks)-1].InMachine
}

// pieces are the numbers of the parts that are made.
func (v *jobView) pieces() []entryChoice {
	var list []entryChoice
	for n := 1; n <= max(1, v.worked.Job.Part.Quantity); n++ {
		list = append(list, entryChoice{strconv.Itoa(n), strconv.Itoa(n)})
	}
	return list
}
