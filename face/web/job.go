package web

import (
	"net/http"
	"strconv"

	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/say"
)

// jobView is a job as one person sees it: at its current revision.
type jobView struct {
	record.Job
	worked
	Source []byte
	Stage  string // the path of the page it is shown on
}

// step is one page of a job.
type step struct{ path, name string }

// stageNames are the stages that a page shows in the words of the sheet.
var stageNames = []struct {
	stage reckon.Stage
	name  string
}{
	{reckon.Readings, "Readings"},
	{reckon.Sizes, "Sizes"},
	{reckon.Meant, "Meant"},
	{reckon.Fit, "Fit"},
	{reckon.Part, "Part"},
	{reckon.SetUps, "Set-ups"},
	{reckon.Checks, "Checks"},
	{reckon.Upkeep, "Upkeep"},
}

// way lists the pages of the job. Readings and the part are always there, to
// begin with.
func (v *jobView) way() []step {
	has := map[reckon.Stage]bool{reckon.Readings: true, reckon.Part: true}
	if v.worked.Job != nil {
		for _, stage := range reckon.Stages(v.worked.Job) {
			has[stage] = true
		}
	}
	var list []step
	for _, s := range stageNames {
		if has[s.stage] {
			list = append(list, step{string(s.stage), s.name})
		}
	}
	return append(list, step{"record", "Record"}, step{"photographs", "Photographs"}, step{"text", "Text"})
}

// at is the path of one of its pages.
func (v *jobView) at(page string) string { return "/job/" + v.ID + "/" + page }

// view finds the job of a request and works it out.
func (s *desk) view(r *http.Request, stage string) (*jobView, error) {
	ctx := r.Context()
	job, err := s.Record.Job(ctx, r.PathValue("job"))
	if err != nil {
		return nil, err
	}
	source, err := s.Record.Source(ctx, job.ID, job.Revision)
	if err != nil {
		return nil, err
	}
	return &jobView{Job: job, worked: s.work(source, personOf(r).Units), Source: source, Stage: stage}, nil
}

// lookAt is look for a page of a job.
func (s *desk) lookAt(r *http.Request, v *jobView, title string) look {
	l := s.look(r, title+" · "+v.Name)
	l.Job = v
	return l
}

// told returns what a stage has to say, and what is wrong.
func (s *desk) told(v *jobView, stage ...reckon.Stage) (*spoken, []string) {
	if v.Found == nil {
		return nil, said(v.Faults)
	}
	d, err := say.Sheet(say.Contents{
		Found: v.Found, Stages: stage, Drawing: draw.Options{Job: v.Name, Date: s.Now().Format("2006-01-02")},
	})
	return v.spoken(d), said(faultsOf(err))
}

// said lists faults in words.
func said(list trade.Faults) []string {
	var words []string
	for _, f := range list {
		words = append(words, f.Error())
	}
	return words
}

// change makes a new revision of a job out of the one that a form was shown with.
// Its field `from` says which that was: what others saved since is not
// overwritten, and the same form sent twice is saved once.
func (s *desk) change(w http.ResponseWriter, r *http.Request, note string, edit func(source []byte) ([]byte, error)) (record.Saved, error) {
	ctx, id := r.Context(), r.PathValue("job")
	from, err := strconv.Atoi(r.FormValue("from"))
	if err != nil {
		return record.Saved{}, wrong("the form does not say which revision it was made from; open the page again")
	}
	source, err := s.Record.Source(ctx, id, from)
	if err != nil {
		return record.Saved{}, err
	}
	source, err = edit(source)
	if err != nil {
		return record.Saved{}, err
	}
	job, err := s.Record.Job(ctx, id)
	if err != nil {
		return record.Saved{}, err
	}
	return s.Record.Save(ctx, record.Save{Stamp: s.stamp(r, note), Job: job.ID, From: from, Source: source, Index: s.indexOf(r, job, source)})
}

// indexOf is what a job is found by: worked out once, for the page that comes next
// too. One whose text cannot be read keeps its name, its machine and its part.
func (s *desk) indexOf(r *http.Request, job record.Job, source []byte) record.Index {
	is := s.work(source, personOf(r).Units)
	if is.Job == nil || is.Job.Name == "" {
		return record.Index{Name: job.Name, Machine: job.Machine, Part: job.Part}
	}
	return index.Of(is.Job, is.Found)
}

// after leads on after a change: to the page it was made on, or to where two
// changes are put together.
func (s *desk) after(w http.ResponseWriter, r *http.Request, saved record.Saved, otherwise string) error {
	if len(saved.Later) > 0 {
		return goTo(w, r, "/job/"+saved.Job+"/both/"+strconv.Itoa(saved.Branch))
	}
	return goTo(w, r, back(r, otherwise))
}
