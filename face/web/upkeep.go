package web

import (
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/survey"
	"codeberg.org/oddleg/oddleg/reckon"
)

// surveysSection is that of a job's text with how far the machine has worn.
const surveysSection = "surveys"

// upkeepPages answer for the wear of the machine.
type upkeepPages struct{ *desk }

func (s *upkeepPages) routes(t *table) {
	t.on("GET /job/{job}/upkeep", s.upkeepPage)
	t.on("GET /job/{job}/upkeep/new", s.surveyPage)
	t.on("POST /job/{job}/upkeep/new", s.saveSurvey)
}

// upkeepPage says what the surveys tell.
func (s *upkeepPages) upkeepPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Upkeep))
	if err != nil {
		return err
	}
	var list *spoken
	wrong := said(v.Faults)
	if v.Found != nil {
		list, wrong = s.told(v, reckon.Upkeep)
	}
	return s.show(w, r, http.StatusOK, upkeepPage(s.lookAt(r, v, "Upkeep"), list, wrong))
}

// fewestRows of a form for places along a slide, and the most that are read of one.
const (
	fewestStations = 8
	mostStations   = 200
)

// surveying is a survey as it is typed.
type surveying struct {
	*survey.Kind
	url.Values
	From  int
	Wrong []string
}

// surveyPage asks what is looked at, then for what was read.
func (s *upkeepPages) surveyPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Upkeep))
	if err != nil {
		return err
	}
	if v.worked.Job == nil {
		return v.Faults
	}
	kind, known := survey.Find(trade.SurveyKind(r.FormValue("kind")))
	if !known {
		return s.show(w, r, http.StatusOK, surveyKindsPage(s.lookAt(r, v, "A survey")))
	}
	typed := url.Values{"kind": {string(kind.Name)}, "date": {s.today()}}
	return s.show(w, r, http.StatusOK, surveyPage(s.lookAt(r, v, kind.Title), &surveying{kind, typed, v.Revision, nil}))
}

// saveSurvey writes a survey into the text.
func (s *upkeepPages) saveSurvey(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, string(reckon.Upkeep))
	if err != nil {
		return err
	}
	kind, known := survey.Find(trade.SurveyKind(r.FormValue("kind")))
	if !known {
		return wrong("there is no survey called %q", r.FormValue("kind"))
	}
	t := &surveying{kind, r.PostForm, number(r, "from"), nil}
	saved, err := s.change(w, r, "survey: "+kind.Title, func(source []byte) ([]byte, error) {
		id := jobedit.NextID(source, surveysSection, "s1")
		source, err := jobedit.Put(source, record.Item{Section: surveysSection, ID: id, Fields: t.fields()})
		if err == nil {
			_, err = readJob(source)
		}
		return source, err
	})
	if faults := asFaults(err); faults != nil && v.worked.Job != nil {
		t.Wrong = said(faults)
		return s.show(w, r, http.StatusUnprocessableEntity, surveyPage(s.lookAt(r, v, kind.Title), t))
	}
	if err != nil {
		return err
	}
	return s.after(w, r, saved, v.at("upkeep"))
}

// fields are a survey as the text has it.
func (t *surveying) fields() []record.Field {
	list := []record.Field{{Key: "kind", Text: string(t.Name)}}
	for _, key := range []string{"of", "date", "with", "within"} {
		list = t.text(list, key)
	}
	for _, key := range t.Keys {
		if values := listed(t.Get(key.Name)); key.Sort == survey.Readings && len(values) > 1 {
			list = append(list, record.Field{Key: key.Name, List: values})
			continue
		}
		list = t.text(list, key.Name)
	}
	if t.Stations > 0 {
		list = append(list, record.Field{Key: "at", Map: t.stationFields()})
	}
	if t.Rollers {
		list = append(list, record.Field{Key: "rollers", Items: t.rollerFields()})
	}
	return t.text(list, "say")
}

// text adds what was typed for a key, if anything was.
func (t *surveying) text(list []record.Field, key string) []record.Field {
	if text := strings.TrimSpace(t.Get(key)); text != "" {
		return append(list, record.Field{Key: key, Text: text})
	}
	return list
}

// cell is what stands in a column of a row, empty where there is nothing.
func (t *surveying) cell(column string, row int) string {
	if list := t.Values[column]; row < len(list) {
		return strings.TrimSpace(list[row])
	}
	return ""
}

// rows is how many places a form has room for.
func (t *surveying) rows() int {
	return min(mostStations, max(fewestStations, len(t.Values["saw"])))
}

func (t *surveying) stationFields() []record.Field {
	var list []record.Field
	for i := range t.rows() {
		if at, saw := t.cell("at", i), t.cell("saw", i); at != "" || saw != "" {
			list = append(list, seenField(at, saw))
		}
	}
	return list
}

// seenField is one value, or a list of several.
func seenField(key, saw string) record.Field {
	if values := listed(saw); len(values) > 1 {
		return record.Field{Key: key, List: values}
	}
	return record.Field{Key: key, Text: saw}
}

func (t *surveying) rollerFields() []record.Field {
	var list []record.Field
	for i := range t.rows() {
		var row []record.Field
		for _, column := range []string{"at", "roller", "raised"} {
			if text := t.cell(column, i); text != "" {
				row = append(row, record.Field{Key: column, Text: text})
			}
		}
		if saw := t.cell("saw", i); saw != "" {
			row = append(row, seenField("saw", saw))
		}
		if row != nil {
			list = append(list, record.Field{Map: row})
		}
	}
	return list
}

// surveyed are the columns of a row.
func (t *surveying) columns() []entryField {
	if t.Rollers {
		return []entryField{{Key: "at", Label: "At"}, {Key: "roller", Label: "Roller"}, {Key: "raised", Label: "On blocks"}, {Key: "saw", Label: "Shows"}}
	}
	return []entryField{{Key: "at", Label: "At"}, {Key: "saw", Label: "Shows"}}
}

// keyField is the field of one key of a survey.
func (t *surveying) keyField(key survey.Key, instruments []string) entryField {
	f := entryField{Key: key.Name, Label: capital(strings.ReplaceAll(key.Name, "-", " ")), Hint: key.Say, Value: t.Get(key.Name)}
	switch key.Sort {
	case survey.Word:
		f.Choices = choicesOf("as usual: "+key.Words[0], key.Words...)
	case survey.Instrument:
		f.Choices = choicesOf("not said", instruments...)
	case survey.Readings:
		f.Hint += "; several with commas between"
	}
	if key.Count > 1 {
		f.Hint += ", " + strconv.Itoa(key.Count) + " of them"
	}
	return f
}

// instruments are those of the job.
func (v *jobView) instruments() []string {
	var list []string
	for i := range v.worked.Job.Instruments {
		list = append(list, v.worked.Job.Instruments[i].ID)
	}
	return list
}
