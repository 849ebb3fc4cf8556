package web

import (
	"net/http"
	"slices"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
)

// madeSizes is the section of a job's text with the sizes of the part.
const madeSizes = "part.sizes"

// fitPages answer for what to make the part to.
type fitPages struct{ *desk }

func (s *fitPages) routes(t *table) {
	t.on("GET /job/{job}/fit", s.fitPage)
	t.on("GET /job/{job}/fit/new", s.madeSizePage)
	t.on("POST /job/{job}/fit/new", s.saveMadeSize)
	t.on("GET /job/{job}/fit/{entry}", s.madeSizePage)
	t.on("POST /job/{job}/fit/{entry}", s.saveMadeSize)
	t.on("POST /job/{job}/fit/{entry}/drop", s.drops(madeSizes, "fit"))
}

// fitPage says what to make, and lists the sizes of the part to be changed.
func (s *fitPages) fitPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Fit))
	if err != nil {
		return err
	}
	list, wrong := s.told(v, reckon.Fit)
	return s.show(w, r, http.StatusOK, fitPage(s.lookAt(r, v, "Fit"), list, wrong))
}

// madeSizePage shows the form of one size of the part.
func (s *fitPages) madeSizePage(w http.ResponseWriter, r *http.Request) error {
	v, f, err := s.madeSizeForm(r)
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, entryPage(s.lookAt(r, v, f.Title), f, ""))
}

func (s *fitPages) saveMadeSize(w http.ResponseWriter, r *http.Request) error {
	v, f, err := s.madeSizeForm(r)
	if err != nil {
		return err
	}
	return s.saveEntry(w, r, v, f, madeSizeFields)
}

// The fields of a form that are no keys of the text: how a size goes is the key of
// what it goes by.
const (
	howKey = "how"
	ofKey  = "of"
)

// origins are how a size of the part may go.
var origins = []entryChoice{
	{string(trade.GoesIn), "goes into its mate"},
	{string(trade.GoesOver), "goes over its mate"},
	{string(trade.Copies), "is as the old part is, or was meant to be"},
	{string(trade.Is), "is a size of its own"},
	{string(trade.IsThread), "is a thread"},
}

// madeSizeForm is the form of the size that a request is about, as the text has
// it.
func (s *fitPages) madeSizeForm(r *http.Request) (*jobView, *entryForm, error) {
	v, err := s.view(r, string(reckon.Fit))
	if err != nil {
		return nil, nil, err
	}
	job := v.worked.Job
	if job == nil || job.Part == nil {
		return nil, nil, wrong("this job has no part yet: choose one to begin with")
	}
	f := &entryForm{
		Title: "A size of the part", Section: madeSizes, Stem: "size", Named: true, Back: "fit", At: "fit", From: v.Revision,
		Say: bareFigures(job), Fields: madeSizeKeys(job),
	}
	if id := r.PathValue("entry"); id != "" {
		size := job.Part.Size(id)
		if size == nil {
			return nil, nil, errNotThere
		}
		f.ID, f.Title = id, "Size "+id+" of the part"
		f.was(madeSizeValues(size))
	}
	return v, f, nil
}

// bareFigures says what a figure without a unit is taken for.
func bareFigures(job *trade.Job) string {
	if job.Units == unit.Inch {
		return "A figure without a unit is taken for inches."
	}
	return "A figure without a unit is taken for mm."
}

// madeSizeKeys are what may be said of a size of the part.
func madeSizeKeys(job *trade.Job) []entryField {
	var names []string
	for _, size := range job.Sizes {
		names = append(names, size.ID)
	}
	return []entryField{
		{Key: howKey, Label: "It", Choices: origins, Value: string(trade.GoesIn)},
		{Key: ofKey, Label: "Its mate, what it copies, or the value", Known: names, Hint: "a size of the job, a formula over them, a value, or a thread: guide, gib + play, 62 mm, 7/16 BSW"},
		{Key: "kind", Label: "Kind", Choices: choicesOf("a thread needs none", trade.SizeKinds...), Value: string(trade.Diameter)},
		{Key: "clearance", Label: "Clearance wanted", Hint: "to go in or over, on the diameter for diameters: 0.01..0.04 mm; less than 0 is tight"},
		{Key: "fit", Label: "Or a fit", Hint: "H7/g6, RC5: in place of a clearance"},
		{Key: "within", Label: "Within ±", Hint: "of a size that is copied, or its own"},
		{Key: "tolerance", Label: "Or a tolerance class", Hint: "h6: in place of within"},
		{Key: "surface", Label: "Surface", Choices: choicesOf("follows from how it goes", trade.Outside, trade.Inside)},
		{Key: "class", Label: "Class of the thread", Hint: "medium, close, 6g"},
		{Key: "rework", Label: "Eased after trying", Choices: choicesOf("not said", trade.Reworks...)},
		{Key: "holds", Label: "How closely this shop works here ±", Hint: "where not as for the whole part"},
		{Key: "say", Label: "To know of it"},
	}
}

// madeSizeValues is what the text says of a size.
func madeSizeValues(size *trade.NewSize) map[string]string {
	of := size.Of.Text
	if size.From == trade.IsThread {
		of = size.Thread
	}
	return map[string]string{
		howKey: string(size.From), ofKey: of, "kind": string(size.Kind), "clearance": spanText(size.Clearance), "fit": size.Fit,
		"within": quantityText(size.Within), "tolerance": size.Tolerance, "surface": string(size.Surface), "class": size.Class,
		"rework": string(size.Rework), "holds": quantityText(size.Holds), "say": size.Say,
	}
}

// quantityText writes a quantity as the text of a job has it, nothing where there
// is none.
func quantityText(q unit.Quantity) string {
	if !q.Given() {
		return ""
	}
	return q.String()
}

func spanText(r unit.Range) string {
	if !r.Given() {
		return ""
	}
	return r.Low.String() + ".." + r.High.String()
}

// madeSizeFields is what is to be written of a size: what it goes by under how it
// goes, and none of the other ways; of a thread no kind.
func madeSizeFields(f *entryForm) []record.Field {
	var list []record.Field
	for _, key := range f.changed() {
		switch {
		case key.Key == howKey, key.Key == ofKey:
		case key.Key == "kind" && f.value(howKey) == string(trade.IsThread):
		default:
			list = append(list, key)
		}
	}
	if f.ID == "" {
		return append(list, record.Field{Key: f.value(howKey), Text: f.value(ofKey)})
	}
	return append(list, f.movedOrigin()...)
}

// movedOrigin is the way that a size goes, where that is another than before or
// by something else. A tight fit that has a clearance now is no interference.
func (f *entryForm) movedOrigin() []record.Field {
	var list []record.Field
	how := slices.IndexFunc(f.Fields, func(e entryField) bool { return e.Key == howKey })
	of := slices.IndexFunc(f.Fields, func(e entryField) bool { return e.Key == ofKey })
	if f.Fields[how].Value != f.Fields[how].Was {
		list = append(list, record.Field{Key: f.Fields[how].Was})
	}
	if f.Fields[how].Value != f.Fields[how].Was || f.Fields[of].Value != f.Fields[of].Was {
		list = append(list, record.Field{Key: f.Fields[how].Value, Text: f.Fields[of].Value})
	}
	for _, key := range f.Fields {
		if key.Key == "clearance" && key.Value != key.Was {
			list = append(list, record.Field{Key: "interference"})
		}
	}
	return list
}

// goesText says how a size of the part goes.
func goesText(size *trade.NewSize) string {
	values := madeSizeValues(size)
	said := map[trade.Origin]string{
		trade.GoesIn: "goes in ", trade.GoesOver: "goes over ", trade.Copies: "copies ", trade.Is: "is ", trade.IsThread: "thread ",
	}[size.From] + values[ofKey]
	for _, more := range []struct{ before, key string }{{", clearance ", "clearance"}, {", ", "fit"}, {", ± ", "within"}, {", ", "tolerance"}, {", ", "class"}} {
		if value := values[more.key]; value != "" {
			said += more.before + value
		}
	}
	return said
}
