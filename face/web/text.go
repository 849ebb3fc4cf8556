package web

import (
	"bytes"
	"errors"
	"net/http"
	"slices"
	"strings"
	"unicode/utf8"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// sectionNames are the parts of a job's text that can be changed each by itself.
var sectionNames = []string{
	"kit", "sizes", "readings", "relations", "plans", "places", "threads", "part", "joints", "shop", "work", "checks", "surveys",
}

// mostText is the most bytes of a job's text.
const mostText = 1 << 20

// textPages answer for the job's text, to be changed by hand.
type textPages struct{ *desk }

func (s *textPages) routes(t *table) {
	t.on("GET /job/{job}/text", s.textPage)
	t.on("POST /job/{job}/text", s.saveText)
	t.on("GET /job/{job}/text/{section}", s.sectionPage)
	t.on("POST /job/{job}/text/{section}", s.saveSection)
}

// writing is a text in a box, and what is wrong with it.
type writing struct {
	Section string // empty: the whole text
	From    int    // the revision that it was made from
	Text    string
	Wrong   trade.Faults
	Kept    bool // it was saved all the same
}

func (s *textPages) textPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "text")
	if err != nil {
		return err
	}
	return s.showWriting(w, r, http.StatusOK, v, writing{From: v.Revision, Text: string(v.Source), Wrong: v.Faults, Kept: true})
}

func (s *textPages) showWriting(w http.ResponseWriter, r *http.Request, status int, v *jobView, t writing) error {
	l := s.lookAt(r, v, "Text")
	l.Scripts = []string{"text.js"}
	return s.show(w, r, status, writingPage(l, t))
}

// saveText saves the whole text. One that is wrong is saved all the same, and
// said to be wrong: nothing typed is lost.
func (s *textPages) saveText(w http.ResponseWriter, r *http.Request) error {
	return s.write(w, r, "", "text changed by hand", func(source []byte, text string) ([]byte, error) {
		return typedAs(source, text), nil
	})
}

func (s *textPages) sectionPage(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("section")
	if !slices.Contains(sectionNames, name) {
		return errNotThere
	}
	v, err := s.view(r, "text")
	if err != nil {
		return err
	}
	text, err := jobedit.Section(v.Source, name)
	if asFaults(err) != nil {
		return goTo(w, r, v.at("text")) // the whole is too wrong to have parts
	}
	if err != nil {
		return err
	}
	return s.showWriting(w, r, http.StatusOK, v, writing{Section: name, From: v.Revision, Text: text, Kept: true})
}

// saveSection puts a section where it was. One that is no YAML has no place in
// the text: it stays in its box.
func (s *textPages) saveSection(w http.ResponseWriter, r *http.Request) error {
	name := r.PathValue("section")
	if !slices.Contains(sectionNames, name) {
		return errNotThere
	}
	return s.write(w, r, name, name+" changed by hand", func(source []byte, text string) ([]byte, error) {
		return jobedit.SetSection(source, name, text)
	})
}

// write saves what is typed in the box of a section, or of the whole text.
func (s *textPages) write(w http.ResponseWriter, r *http.Request, section, note string, edit func(source []byte, text string) ([]byte, error)) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	text := strings.ReplaceAll(r.FormValue("text"), "\r\n", "\n")
	saved, err := s.change(w, r, note, func(source []byte) ([]byte, error) {
		if err := checkTyped(text); err != nil {
			return nil, err
		}
		return edit(source, text)
	})
	faults := asFaults(err)
	if faults == nil && err != nil {
		return err
	}
	path := "/job/" + r.PathValue("job") + "/text"
	if faults == nil {
		return s.after(w, r, saved, strings.TrimSuffix(path+"/"+section, "/"))
	}
	v, err := s.view(r, "text")
	if err != nil {
		return err
	}
	from := max(number(r, "from"), 1)
	return s.showWriting(w, r, http.StatusUnprocessableEntity, v, writing{Section: section, From: from, Text: text, Wrong: faults})
}

// checkTyped refuses what is no text, or too much of it.
func checkTyped(text string) error {
	switch {
	case !utf8.ValidString(text):
		return wrong("this text is not UTF-8: something in it was not typed as text")
	case len(text) > mostText:
		return wrong("this text has %d bytes; the most is %d", len(text), mostText)
	}
	return nil
}

// typedAs gives a text from a form the line ends of the text that it is to
// replace: a form does not tell which it had.
func typedAs(source []byte, text string) []byte {
	if bytes.Contains(source, []byte("\r\n")) {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return []byte(text)
}

// asFaults returns what an error says is wrong with what was typed, nil for any
// other error.
func asFaults(err error) trade.Faults {
	var faults trade.Faults
	errors.As(err, &faults)
	return faults
}
