package web

import (
	"bytes"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
)

// branchPages answer where two people changed one job.
type branchPages struct{ *desk }

func (s *branchPages) routes(t *table) {
	t.on("GET /job/{job}/both/{branch}", s.bothPage)
	t.on("POST /job/{job}/both/{branch}", s.putTogether)
}

// twoVersions is a job of which two versions were made from one.
type twoVersions struct {
	Branch                     int
	Base                       record.Revision // both were made from it; number 0: there is none
	Mine, Theirs               record.Revision // the last of the branch, and the current one
	base, mine, theirs         []byte
	Merged                     []byte // mine where they clash
	Clashes                    []record.Clash
	Text                       string // put together by hand, empty: by choice
	Wrong                      []string
	MineChanged, TheirsChanged []changedLine
}

// errAlone is for a version that is not open any more.
var errAlone = errors.New("these versions have been put together already")

func (s *branchPages) bothPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	two, err := s.twoVersions(r, v)
	if errors.Is(err, errAlone) {
		return goTo(w, r, v.at("record"))
	}
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, bothPage(s.lookAt(r, v, "Two versions"), two))
}

// twoVersions finds both versions and what they were made from.
func (s *branchPages) twoVersions(r *http.Request, v *jobView) (*twoVersions, error) {
	two := &twoVersions{theirs: v.Source}
	branch, err := strconv.Atoi(r.PathValue("branch"))
	if err != nil || !slices.Contains(v.Branches, branch) {
		return nil, errAlone
	}
	two.Branch = branch
	history, err := s.Record.History(r.Context(), v.ID)
	if err != nil {
		return nil, err
	}
	two.find(history, v.Revision)
	if two.mine, err = s.Record.Source(r.Context(), v.ID, two.Mine.Number); err != nil {
		return nil, err
	}
	if two.Base.Number > 0 {
		if two.base, err = s.Record.Source(r.Context(), v.ID, two.Base.Number); err != nil {
			return nil, err
		}
	}
	two.MineChanged, two.TheirsChanged = difference(two.base, two.mine), difference(two.base, two.theirs)
	two.Merged, two.Clashes, err = jobedit.Merge(two.base, two.mine, two.theirs)
	return two, err
}

// find picks the revisions out of the history of a job, which is numbered from 1.
func (t *twoVersions) find(history []record.Revision, current int) {
	t.Theirs = history[current-1]
	for _, revision := range history {
		if revision.Branch == t.Branch {
			t.Mine = revision
		}
	}
	from := history[t.Branch-1].From
	if from > 0 {
		t.Base = history[from-1]
	}
}

// putTogether saves what two people made of a job as one. What was saved
// meanwhile is not overwritten: then the page is shown again with it.
func (s *branchPages) putTogether(w http.ResponseWriter, r *http.Request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	two, err := s.twoVersions(r, v)
	if errors.Is(err, errAlone) {
		return goTo(w, r, v.at("record"))
	}
	if err != nil {
		return err
	}
	source := two.chosen(r)
	if len(two.Wrong) == 0 {
		err = s.saveBoth(r, v, two, source)
		two.Wrong = said(asFaults(err))
	}
	switch {
	case len(two.Wrong) > 0:
		return s.show(w, r, http.StatusUnprocessableEntity, bothPage(s.lookAt(r, v, "Two versions"), two))
	case err != nil:
		return err
	}
	return goTo(w, r, v.at("readings"))
}

func (s *branchPages) saveBoth(r *http.Request, v *jobView, two *twoVersions, source []byte) error {
	_, err := s.Record.Save(r.Context(), record.Save{
		Stamp: s.stamp(r, fmt.Sprintf("two versions put together: revisions %d and %d", two.Mine.Number, two.Theirs.Number)),
		Job:   v.ID, From: v.Revision, Merges: two.Branch, Source: source, Index: s.indexOf(r, v.Job, source),
	})
	return err
}

// chosen makes the text out of what a form chose, and notes what is wrong.
func (t *twoVersions) chosen(r *http.Request) []byte {
	if number(r, "mine") != t.Mine.Number || number(r, "theirs") != t.Theirs.Number {
		t.Wrong = append(t.Wrong, "One of the versions was saved again meanwhile. Here is how they stand now: look at them again.")
	}
	if r.FormValue("by") == "hand" {
		t.Text = strings.ReplaceAll(r.FormValue("text"), "\r\n", "\n")
		if err := checkTyped(t.Text); err != nil {
			t.Wrong = append(t.Wrong, said(asFaults(err))...)
		}
		return typedAs(t.theirs, t.Text)
	}
	source := t.Merged
	for i, c := range t.Clashes {
		var ok bool
		choice := r.FormValue("clash." + strconv.Itoa(i))
		if source, ok = choose(source, c, choice); !ok {
			t.Wrong = append(t.Wrong, fmt.Sprintf("%s: choose one, or put it together by hand below.", clashName(c)))
		}
	}
	return source
}

// choose puts what was chosen of a clash into a text that holds mine, or theirs
// where mine was taken out. ok is false where nothing was chosen, or where the
// text holds it in no one place.
func choose(source []byte, c record.Clash, choice string) (chosen []byte, ok bool) {
	want, has := c.Mine, c.Mine
	switch choice {
	case "mine":
	case "theirs":
		want = c.Theirs
	default:
		return source, false
	}
	if has == "" {
		has = c.Theirs
	}
	if want == has {
		return source, true
	}
	if bytes.Contains(source, []byte("\r\n")) {
		dressed := strings.NewReplacer("\r\n", "\n", "\n", "\r\n")
		want, has = dressed.Replace(want), dressed.Replace(has)
	}
	if bytes.Count(source, []byte(has)) != 1 {
		return source, false
	}
	return bytes.Replace(source, []byte(has), []byte(want), 1), true
}

// clashName says which entry two people changed in two ways.
func clashName(c record.Clash) string {
	return strings.TrimSpace(c.Section + " " + c.ID)
}

// number is a field that is a whole number, 0 where it is none.
func number(r *http.Request, name string) int {
	n, err := strconv.Atoi(r.FormValue(name))
	if err != nil {
		return 0
	}
	return n
}
