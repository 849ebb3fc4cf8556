package web

import (
	"bytes"
	"context"
	"errors"
	"net/http"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"

	"github.com/a-h/templ"
)

// show sends a page. It is made whole first: one that cannot be made is not
// half there.
func (s *desk) show(w http.ResponseWriter, r *http.Request, status int, page templ.Component) error {
	var b bytes.Buffer
	if err := page.Render(r.Context(), &b); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, err := b.WriteTo(w)
	return ignoreGone(r.Context(), err)
}

// ignoreGone drops the error of writing to a client that has gone.
func ignoreGone(ctx context.Context, err error) error {
	if err != nil && ctx.Err() != nil {
		return nil
	}
	return err
}

// errNotThere is for a page that does not exist.
var errNotThere = errors.New("there is no such page here")

// complain says what went wrong: what the user can put right in full, what they
// cannot without its inside.
func (s *desk) complain(w http.ResponseWriter, r *http.Request, err error) {
	if errors.Is(err, context.Canceled) {
		return
	}
	status, said := http.StatusInternalServerError, []string{"Something went wrong inside the program. Nothing that was saved is lost. Try again; if it happens again, stop and start oddleg."}
	var faults trade.Faults
	var large *http.MaxBytesError
	switch {
	case errors.Is(err, errNotThere):
		status, said = http.StatusNotFound, []string{"There is no such page here. What you were looking for may have been put away."}
	case errors.As(err, &faults):
		status, said = http.StatusUnprocessableEntity, nil
		for _, f := range faults {
			said = append(said, f.Error())
		}
	case errors.Is(err, http.ErrNotMultipart), errors.Is(err, http.ErrMissingFile):
		status, said = http.StatusUnprocessableEntity, []string{"No file was chosen."}
	case errors.As(err, &large):
		status, said = http.StatusRequestEntityTooLarge, []string{"That is too much at once for this page. Go back: what you typed is still there."}
	case errors.Is(err, record.ErrFull), errors.Is(err, record.ErrReadOnly), errors.Is(err, record.ErrBusy):
		status, said = http.StatusInsufficientStorage, []string{err.Error()}
	default:
		s.Log.Error("a page failed", "path", r.URL.Path, "why", err)
	}
	if err := s.show(w, r, status, wrongPage(s.look(r, "That did not work"), said, typedIn(r)...)); err != nil {
		s.Log.Error("a page cannot be shown", "path", r.URL.Path, "why", err)
	}
}

// look is what every page needs to know of who looks at what.
type look struct {
	person
	Title string
	Path  string // of this page, to come back to
	Job   *jobView

	Scripts []string // modules of this page beside the one of all pages
}

func (s *desk) look(r *http.Request, title string) look {
	return look{person: personOf(r), Title: title, Path: r.URL.RequestURI()}
}

// back leads to where a form was, by a path of this server and no other.
func back(r *http.Request, otherwise string) string {
	to := r.FormValue("back")
	if len(to) > 1 && to[0] == '/' && to[1] != '/' && to[1] != '\\' {
		return to
	}
	return otherwise
}

// goTo sends the browser to another page after something was done.
func goTo(w http.ResponseWriter, r *http.Request, path string) error {
	http.Redirect(w, r, path, http.StatusSeeOther)
	return nil
}
