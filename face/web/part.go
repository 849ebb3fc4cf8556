package web

import (
	"net/http"
	"strconv"
	"strings"
	"sync"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// partPages answer for the part to be made.
type partPages struct {
	*desk
	begun func() []pattern // the parts to begin with
}

func newPartPages(s *desk) *partPages {
	p := &partPages{desk: s}
	p.begun = sync.OnceValue(p.drawPatterns)
	return p
}

func (s *partPages) routes(t *table) {
	t.on("GET /job/{job}/part", s.partPage)
	t.on("POST /job/{job}/part", s.savePart)
	t.on("POST /job/{job}/part/begin", s.beginPart)
}

// partPage shows the drawing of the part, or where there is none yet the patterns
// to begin with.
func (s *partPages) partPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Part))
	if err != nil {
		return err
	}
	if job := v.worked.Job; job != nil && job.Part == nil {
		return s.show(w, r, http.StatusOK, noPartPage(s.lookAt(r, v, "Part"), s.begun()))
	}
	return s.showPart(w, r, http.StatusOK, v, s.partForm(v))
}

// showPart shows the drawing as it is asked for, with what may be changed.
func (s *partPages) showPart(w http.ResponseWriter, r *http.Request, status int, v *jobView, f *entryForm) error {
	asked := askedOf(r)
	var wrong []string
	var sheet *ink.Sheet
	switch {
	case v.Found == nil:
		wrong = said(v.Faults)
	default:
		drawn, err := s.drawing(r, v, asked)
		sheet, wrong = drawn, said(faultsOf(err))
	}
	return s.show(w, r, status, partPage(s.lookAt(r, v, "Part"), asked, sheet, wrong, f))
}

// partForm is the head of the part: what it is called, what it is made of and how
// many.
func (s *partPages) partForm(v *jobView) *entryForm {
	f := &entryForm{Title: "The part", Section: "part", From: v.Revision, Back: "part", Fields: []entryField{
		{Key: "name", Label: "Name"},
		{Key: "material", Label: "Material", Known: materialNames(), Hint: "as the tables call it, with its condition: 080M40 R"},
		{Key: "quantity", Label: "How many", Hint: "1 where nothing is said"},
		{Key: "holds", Label: "How closely this shop works ±", Hint: "0.02 mm"},
		{Key: "revision", Label: "Revision of the drawing"},
	}}
	if job := v.worked.Job; job != nil && job.Part != nil {
		p := job.Part
		f.was(map[string]string{
			"name": p.Name, "material": p.Material, "quantity": strconv.Itoa(p.Quantity), "holds": quantityText(p.Holds), "revision": p.Revision,
		})
	}
	return f
}

// materialNames are what the tables call materials.
func materialNames() []string {
	var names []string
	for _, m := range facts.Materials() {
		names = append(names, m.Short())
	}
	return names
}

// savePart changes the head of the part.
func (s *partPages) savePart(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Part))
	if err != nil {
		return err
	}
	f := s.partForm(v)
	f.typed(r)
	saved, err := s.change(w, r, "the part: "+f.value("name"), func(source []byte) ([]byte, error) {
		var fields []record.Field
		for _, field := range f.changed() {
			field.Key = "part." + field.Key
			fields = append(fields, field)
		}
		source, err := jobedit.SetHead(source, fields...)
		if err == nil {
			_, err = readJob(source)
		}
		return source, err
	})
	if faults := asFaults(err); faults != nil {
		f.blame(faults)
		return s.showPart(w, r, http.StatusUnprocessableEntity, v, f)
	}
	if err != nil {
		return err
	}
	return s.after(w, r, saved, v.at("part"))
}

// beginPart puts a pattern into a job that has no part.
func (s *partPages) beginPart(w http.ResponseWriter, r *http.Request) error {
	name := r.FormValue("pattern")
	saved, err := s.change(w, r, "a part begun: "+name, func(source []byte) ([]byte, error) {
		text, err := jobedit.Section(source, "part")
		if err != nil {
			return nil, err
		}
		if strings.TrimSpace(text) != "" {
			return nil, wrong("this job has a part already: change it, or its text")
		}
		for _, p := range examples.Parts() {
			if p.Name == name {
				return jobedit.SetSection(source, "part", string(p.Source))
			}
		}
		return nil, wrong("there is no pattern called %q", name)
	})
	if err != nil {
		return err
	}
	return s.after(w, r, saved, "/job/"+r.PathValue("job")+"/part")
}
