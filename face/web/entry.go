package web

import (
	"net/http"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// entryForm is a form for one entry of a job's text: a size of the part, a machine
// of the shop, an operation.
type entryForm struct {
	Title   string
	Section string // of the text
	ID      string // of the entry that it changes; empty: a new one
	Stem    string // what a new one is called where it is not said
	Named   bool   // a new one is called as its user likes
	Back    string // page of the job that it belongs to
	At      string // page of the job under which the forms of such entries are
	Say     string // what to know of it all
	From    int
	Fields  []entryField
	Wrong   []string
}

// entryField is one key of it.
type entryField struct {
	Key, Label, Hint string
	Choices          []entryChoice // it is one of these; nil: typed
	Known            []string      // what is often typed
	List             bool          // several, with commas between
	Value            string        // typed
	Was              string        // as the text has it
	Wrong            string        // what is wrong with it
}

// entryChoice is one of those that a field may be.
type entryChoice struct{ Value, Words string }

// choicesOf are words that say what they are, after one for none.
func choicesOf[T ~string](none string, list ...T) []entryChoice {
	choices := []entryChoice{{"", none}}
	for _, word := range list {
		choices = append(choices, entryChoice{string(word), string(word)})
	}
	return choices
}

// was fills a form in with what the text has.
func (f *entryForm) was(values map[string]string) {
	for i := range f.Fields {
		field := &f.Fields[i]
		field.Was = values[field.Key]
		field.Value = field.Was
	}
}

// typed takes what was typed.
func (f *entryForm) typed(r *http.Request) {
	f.From = number(r, "from")
	for i := range f.Fields {
		f.Fields[i].Value = strings.TrimSpace(r.FormValue(f.Fields[i].Key))
	}
}

// value is what was typed for a key.
func (f *entryForm) value(key string) string {
	for _, field := range f.Fields {
		if field.Key == key {
			return field.Value
		}
	}
	return ""
}

// chosen refuses what is none of the choices of a field.
func (f *entryForm) chosen() error {
	for _, field := range f.Fields {
		is := func(c entryChoice) bool { return c.Value == field.Value }
		if field.Choices != nil && !slices.ContainsFunc(field.Choices, is) {
			return wrong("%s: %q is none of its choices", field.Key, field.Value)
		}
	}
	return nil
}

// changed are the keys that are not as the text has them. The text of all others
// stays as it was written.
func (f *entryForm) changed() []record.Field {
	var list []record.Field
	for _, field := range f.Fields {
		if field.Value == field.Was {
			continue
		}
		written := record.Field{Key: field.Key, Text: field.Value}
		if field.List && field.Value != "" {
			written.Text, written.List = "", listed(field.Value)
		}
		list = append(list, written)
	}
	return list
}

// listed are the texts between commas.
func listed(text string) []string {
	var list []string
	for _, word := range strings.Split(text, ",") {
		if word = strings.TrimSpace(word); word != "" {
			list = append(list, word)
		}
	}
	return list
}

// newID is what an entry is called.
func (s *desk) newID(r *http.Request, f *entryForm, source []byte) string {
	if f.ID != "" {
		return f.ID
	}
	if typed := strings.TrimSpace(r.FormValue("id")); typed != "" {
		return typed
	}
	return jobedit.NextID(source, f.Section, f.Stem)
}

// blame puts what is wrong beside the fields that it speaks of, and all of it at
// the head.
func (f *entryForm) blame(faults trade.Faults) {
	f.Wrong = said(faults)
	for i := range f.Fields {
		field := &f.Fields[i]
		j := slices.IndexFunc(faults, func(fault trade.Fault) bool {
			return field.Value != "" && strings.Contains(fault.Text, strconv.Quote(field.Value)) ||
				strings.HasPrefix(fault.Text, field.Key+" in ") || strings.Contains(fault.Text, strconv.Quote(field.Key))
		})
		if j >= 0 {
			field.Wrong = faults[j].Text
		}
	}
}

// asEntry makes what is to be written of what was typed.
type asEntry func(f *entryForm) []record.Field

// saveEntry writes an entry into the text of a job. What makes a text that was
// right wrong is not saved: the form is shown again as it was typed, with what is
// wrong.
func (s *desk) saveEntry(w http.ResponseWriter, r *http.Request, v *jobView, f *entryForm, as asEntry) error {
	f.typed(r)
	saved, err := s.change(w, r, f.Title, func(source []byte) ([]byte, error) {
		if err := f.chosen(); err != nil {
			return nil, err
		}
		id := s.newID(r, f, source)
		if err := s.free(source, f, id); err != nil {
			return nil, err
		}
		source, err := jobedit.Put(source, record.Item{Section: f.Section, ID: id, Fields: as(f)})
		if err != nil {
			return nil, err
		}
		_, err = readJob(source)
		return source, err
	})
	if faults := asFaults(err); faults != nil {
		f.blame(faults)
		return s.show(w, r, http.StatusUnprocessableEntity, entryPage(s.lookAt(r, v, f.Title), f, strings.TrimSpace(r.FormValue("id"))))
	}
	if err != nil {
		return err
	}
	return s.after(w, r, saved, v.at(f.Back))
}

// free refuses a new entry that is called like one that is there, which it would
// else take the place of. The same form sent twice was made from the text before.
func (s *desk) free(source []byte, f *entryForm, id string) error {
	if f.ID != "" {
		return nil
	}
	if _, err := jobedit.Drop(source, f.Section, id); err == nil {
		return wrong("there is one called %q already; give this one another name", id)
	}
	return nil
}

// drops answers for taking an entry out of a section of the text.
func (s *desk) drops(section, back string) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		id := r.PathValue("entry")
		saved, err := s.change(w, r, section+" "+id+" taken out", func(source []byte) ([]byte, error) {
			source, err := jobedit.Drop(source, section, id)
			if err != nil {
				return nil, err
			}
			_, err = readJob(source)
			return source, err
		})
		if err != nil {
			return err
		}
		return s.after(w, r, saved, "/job/"+r.PathValue("job")+"/"+back)
	}
}
