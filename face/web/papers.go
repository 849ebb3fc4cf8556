package web

import (
	"bytes"
	"fmt"
	"net/http"
	"net/url"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/report"
)

// paperPages answer for the drawing and the sheet as files, and the sheet page by
// page.
type paperPages struct{ *desk }

func (s *paperPages) routes(t *table) {
	for _, ending := range flatEndings {
		t.on("GET /job/{job}/drawing"+ending, s.drawingFile(ending))
	}
	for _, ending := range bodyEndings {
		t.on("GET /job/{job}/body"+ending, s.bodyFile(ending))
	}
	t.on("GET /job/{job}/sheet", s.sheetPage)
	t.on("GET /job/{job}/sheet.pdf", s.sheetFile)
}

// The formats of a drawing and of the part as a body, by the endings of files.
var (
	flatEndings = []string{".pdf", ".svg", ".dxf"}
	bodyEndings = []string{".stl", ".3mf", ".step"}
	fileKinds   = map[string]string{
		".pdf": "application/pdf", ".svg": "image/svg+xml", ".dxf": "image/vnd.dxf",
		".stl": "model/stl", ".3mf": "model/3mf", ".step": "model/step",
	}
)

// asked is how a drawing is wanted: the words of its address.
type asked struct {
	Paper, Lies, Angle, Units, Scale, What string
}

// What is drawn beside the drawing itself.
const aTemplate = "template"

// The choices of a drawing.
var (
	paperChoices = []entryChoice{{"", "the smallest that does"}, {"a4", "A4"}, {"a3", "A3"}, {"letter", "Letter"}}
	liesChoices  = []entryChoice{{"", "across"}, {"upright", "upright"}}
	angleChoices = []entryChoice{{"", "first angle"}, {"third", "third angle"}}
	sizeChoices  = []entryChoice{{"", "as they are shown"}, {"mm", "mm"}, {"in", "inch"}, {"both", "mm, inches in brackets"}}
	whatChoices  = []entryChoice{{"", "the drawing"}, {aTemplate, "a template to cut to, 1:1"}}
	papersCalled = map[string]ink.Paper{"": ink.AnyPaper, "a4": ink.A4, "a3": ink.A3, "letter": ink.Letter}
)

func askedOf(r *http.Request) asked {
	q := r.URL.Query()
	return asked{q.Get("paper"), q.Get("lies"), q.Get("angle"), q.Get("units"), strings.TrimSpace(q.Get("scale")), q.Get("what")}
}

// query is how it is asked for.
func (a asked) query() string {
	q := url.Values{}
	for key, value := range map[string]string{"paper": a.Paper, "lies": a.Lies, "angle": a.Angle, "units": a.Units, "scale": a.Scale, "what": a.What} {
		if value != "" {
			q.Set(key, value)
		}
	}
	if len(q) == 0 {
		return ""
	}
	return "?" + q.Encode()
}

// options are those of the drawing.
func (s *desk) options(r *http.Request, v *jobView, a asked) (draw.Options, error) {
	paper, known := papersCalled[a.Paper]
	if !known {
		return draw.Options{}, wrong("paper %q: a4, a3 or letter is wanted", a.Paper)
	}
	o := draw.Options{
		Paper: paper, Portrait: a.Lies == "upright", ThirdAngle: a.Angle == "third", Units: v.worked.view().Unit(), Dual: a.Units == "both",
		Job: v.Name, Drawn: personOf(r).Name, Date: s.today(),
	}
	switch a.Units {
	case "in":
		o.Units = unit.Inch
	case "mm", "both":
		o.Units = unit.Millimetre
	}
	if a.Scale == "" {
		return o, nil
	}
	var err error
	if o.Scale, err = draw.ParseScale(a.Scale); err != nil {
		return o, wrong("%v", err)
	}
	return o, nil
}

func (s *desk) today() string { return s.Now().Format("2006-01-02") }

// model is the part of a job.
func (v *jobView) model() (*part.Model, error) {
	switch {
	case v.Found == nil:
		return nil, v.Faults
	case v.worked.Job.Part == nil:
		return nil, trade.Faults{{Text: "this job has no part yet: there is nothing to draw"}}
	}
	return v.Found.Model()
}

// drawing draws the part as it is asked for.
func (s *desk) drawing(r *http.Request, v *jobView, a asked) (*ink.Sheet, error) {
	model, err := v.model()
	if err != nil {
		return nil, err
	}
	o, err := s.options(r, v, a)
	if err != nil {
		return nil, err
	}
	if a.What == aTemplate {
		return draw.Template(model, o)
	}
	return draw.Part(model, o)
}

// drawingFile sends the drawing as a file. Where it cannot be made the page says
// why.
func (s *paperPages) drawingFile(ending string) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		v, err := s.view(r, string(reckon.Part))
		if err != nil {
			return err
		}
		sheet, err := s.drawing(r, v, askedOf(r))
		if err != nil {
			return faultsOf(err)
		}
		var b bytes.Buffer
		if err := writeSheets(&b, ending, []*ink.Sheet{sheet}, sheet.Title, s.Now()); err != nil {
			return faultsOf(err)
		}
		return send(w, r, v.Name, ending, b.Bytes())
	}
}

// bodyFile sends the part as a body.
func (s *paperPages) bodyFile(ending string) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		v, err := s.view(r, string(reckon.Part))
		if err != nil {
			return err
		}
		model, err := v.model()
		if err != nil {
			return faultsOf(err)
		}
		var b bytes.Buffer
		if err := writeBody(&b, ending, model); err != nil {
			return faultsOf(err)
		}
		return send(w, r, v.Name, ending, b.Bytes())
	}
}

// send sends a file to be kept.
func send(w http.ResponseWriter, r *http.Request, name, ending string, data []byte) error {
	attach(w, fileName(name)+ending, fileKinds[ending])
	_, err := w.Write(data)
	return ignoreGone(r.Context(), err)
}

// sheetPages lays out the sheet of a job.
func (s *paperPages) sheetPages(r *http.Request, v *jobView) ([]*ink.Sheet, error) {
	if v.Found == nil {
		return nil, v.Faults
	}
	o, err := s.options(r, v, askedOf(r))
	if err != nil {
		return nil, err
	}
	return report.OnPaper(v.Found, reckon.Stages(v.worked.Job), o)
}

// sheetPage shows the sheet page by page, as on paper.
func (s *paperPages) sheetPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Part))
	if err != nil {
		return err
	}
	if v.Found != nil && v.worked.Job.Part != nil {
		if t, err := s.proving(v); t != nil || err != nil {
			return s.showWaiting(w, r, v, "The sheet", t, err)
		}
	}
	pages, err := s.sheetPages(r, v)
	return s.show(w, r, http.StatusOK, sheetPages(s.lookAt(r, v, "The sheet"), pages, said(faultsOf(err))))
}

// sheetFile sends the sheet to be printed.
func (s *paperPages) sheetFile(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Part))
	if err != nil {
		return err
	}
	pages, err := s.sheetPages(r, v)
	if err != nil {
		return faultsOf(err)
	}
	var b bytes.Buffer
	if err := writeSheets(&b, ".pdf", pages, v.Name, s.Now()); err != nil {
		return err
	}
	return send(w, r, v.Name+" sheet", ".pdf", b.Bytes())
}

// paperClass names the paper of a sheet, so that it is printed on paper of its size.
func paperClass(s *ink.Sheet) string {
	return fmt.Sprintf("sheet paper p%.0fx%.0f", s.Width, s.Height)
}
