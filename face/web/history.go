package web

import (
	"bytes"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

// historyPages answer for the job as it was.
type historyPages struct{ *desk }

func (s *historyPages) routes(t *table) {
	t.on("GET /job/{job}/as/{number}", s.asPage)
	t.on("GET /job/{job}/as-on", s.asOn)
	t.on("GET /job/{job}/compare", s.comparePage)
	t.on("POST /job/{job}/undo", s.undo)
	t.on("POST /job/{job}/bring-back", s.bringBack)
}

// then is a job as a revision had it.
type then struct {
	record.Revision
	worked
	Source []byte
}

// figures are the sizes that were found then.
func (t *then) figures() []figure { return (&jobView{worked: t.worked}).figures() }

// asPage shows the sizes and the text of one revision.
func (s *historyPages) asPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	t, err := s.then(r, v, r.PathValue("number"))
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, asPage(s.lookAt(r, v, fmt.Sprintf("As revision %d", t.Number)), t))
}

// then finds a revision of a job by its number, as it was written in a path.
func (s *historyPages) then(r *http.Request, v *jobView, number string) (*then, error) {
	history, err := s.Record.History(r.Context(), v.ID)
	if err != nil {
		return nil, err
	}
	n, err := strconv.Atoi(number)
	if err != nil || n < 1 || n > len(history) {
		return nil, wrong("%s has no revision %q: they go from 1 to %d", v.Name, number, len(history))
	}
	source, err := s.Record.Source(r.Context(), v.ID, n)
	if err != nil {
		return nil, err
	}
	return &then{Revision: history[n-1], worked: s.work(source, personOf(r).Units), Source: source}, nil
}

// asOn leads to the revision that was current at the end of a day.
func (s *historyPages) asOn(w http.ResponseWriter, r *http.Request) error {
	job, err := s.Record.Job(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	day, err := time.ParseInLocation(time.DateOnly, lineOf(r, "day"), time.Local)
	if err != nil {
		return wrong("%q is no day: write it as 2024-03-01", lineOf(r, "day"))
	}
	revision, err := s.Record.AsOn(r.Context(), job.ID, day.AddDate(0, 0, 1).Add(-time.Millisecond))
	if err != nil {
		return err
	}
	return goTo(w, r, fmt.Sprintf("/job/%s/as/%d", job.ID, revision.Number))
}

// comparePage shows what changed between two revisions.
func (s *historyPages) comparePage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	older, err := s.then(r, v, r.FormValue("old"))
	if err != nil {
		return err
	}
	newer, err := s.then(r, v, r.FormValue("new"))
	if err != nil {
		return err
	}
	title := fmt.Sprintf("Revisions %d and %d", older.Number, newer.Number)
	return s.show(w, r, http.StatusOK, comparePage(s.lookAt(r, v, title), older, newer, difference(older.Source, newer.Source)))
}

// undo takes back the current revision.
func (s *historyPages) undo(w http.ResponseWriter, r *http.Request) error {
	number, _ := strconv.Atoi(r.FormValue("number"))
	saved, err := s.Record.Undo(r.Context(), r.PathValue("job"), number, s.stamp(r, ""))
	if err != nil {
		return err
	}
	return goTo(w, r, "/job/"+saved.Job+"/record")
}

// bringBack makes the text of an earlier revision the current one, unless it is
// that already.
func (s *historyPages) bringBack(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	t, err := s.then(r, v, r.FormValue("number"))
	if err != nil {
		return err
	}
	if !bytes.Equal(t.Source, v.Source) {
		if _, err := s.Record.Restore(r.Context(), v.ID, t.Number, s.stamp(r, "")); err != nil {
			return err
		}
	}
	return goTo(w, r, v.at("record"))
}

// savedWhen says when a revision was saved.
func savedWhen(r record.Revision) string { return r.When.Local().Format("2 Jan 2006 15:04") }

// whoSaved says who saved a revision, and why.
func whoSaved(r record.Revision) string { return joined(": ", r.Who, r.Note) }

// whatSaved says how a revision stands to others, where it does not just follow
// the one before.
func whatSaved(r record.Revision) string {
	switch {
	case r.Restores > 0:
		return fmt.Sprintf("brings back revision %d", r.Restores)
	case r.Merges > 0:
		return fmt.Sprintf("takes in version %d", r.Merges)
	case r.Branch > 0:
		return fmt.Sprintf("beside the others, made from revision %d", r.From)
	}
	return ""
}
