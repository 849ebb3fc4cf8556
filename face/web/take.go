package web

import (
	"errors"
	"net/http"
	"slices"
	"strconv"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// takePages answer for taking a reading: what is to be reached, how, and what it
// showed.
type takePages struct {
	*desk
	drawn pictures
}

func newTakePages(s *desk) *takePages { return &takePages{s, newPictures()} }

func (s *takePages) routes(t *table) {
	t.on("GET /job/{job}/take", s.reachPage)
	t.on("GET /job/{job}/take/{reach}", s.methodsPage)
	t.on("GET /job/{job}/take/by/{method}", s.takingPage)
	t.on("POST /job/{job}/take/by/{method}", s.takeReading)
	t.on("POST /job/{job}/take/by/{method}/check", s.checkTaking)
}

// reachPage asks what is to be reached.
func (s *takePages) reachPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "readings")
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, reachPage(s.lookAt(r, v, "Take a reading"), s, gauge.Reaches()))
}

// methodsPage shows the methods that reach it.
func (s *takePages) methodsPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "readings")
	if err != nil {
		return err
	}
	reaches := gauge.Reaches()
	i := slices.IndexFunc(reaches, func(reach gauge.Reach) bool { return reach.ID == r.PathValue("reach") })
	if i < 0 {
		return errNotThere
	}
	if only := reaches[i].Methods; len(only) == 1 {
		return goTo(w, r, v.at("take/by/"+only[0].ID))
	}
	return s.show(w, r, http.StatusOK, methodsPage(s.lookAt(r, v, reaches[i].Title), s, reaches[i]))
}

// takingPage is the form of one method: empty, or with what another reading had
// in its roles, or an advice names.
func (s *takePages) takingPage(w http.ResponseWriter, r *http.Request) error {
	v, t, err := s.taking(r)
	if err != nil {
		return err
	}
	t.Values = r.URL.Query()
	if v.worked.Job != nil {
		if like := v.worked.Job.Reading(t.Get("like")); like != nil && like.By == t.Method.ID {
			t.Values = likeReading(like)
		}
		if changed := v.worked.Job.Reading(t.Get("change")); changed != nil && changed.By == t.Method.ID {
			t.Values = likeReading(changed)
			t.Values["saw"], t.Values["saw.y"] = sawOf(changed)
			t.Values.Set("changes", changed.ID)
		}
		t.preset(v.worked.Job)
	}
	if t.Get("unit") == "" {
		t.Values.Set("unit", cookie(r, typingCookie))
	}
	return s.showTaking(w, r, http.StatusOK, v, t)
}

// taking begins a reading by the method of a request.
func (s *takePages) taking(r *http.Request) (*jobView, *taking, error) {
	v, err := s.view(r, "readings")
	if err != nil {
		return nil, nil, err
	}
	method, known := gauge.Find(r.PathValue("method"))
	if !known {
		return nil, nil, errNotThere
	}
	tools, err := s.Record.Kit(r.Context())
	if err != nil {
		return nil, nil, err
	}
	return v, &taking{Method: method, From: v.Revision, Shop: tools, Wrong: map[string]string{}}, nil
}

func (s *takePages) showTaking(w http.ResponseWriter, r *http.Request, status int, v *jobView, t *taking) error {
	l := s.lookAt(r, v, t.Title())
	l.Scripts = []string{"take.js"}
	return s.show(w, r, status, takingPage(l, s, t))
}

// typingCookie remembers the unit in which a person types lengths.
const typingCookie = "typing"

// takeReading saves a reading with all that is new in it, in one change.
func (s *takePages) takeReading(w http.ResponseWriter, r *http.Request) error {
	v, t, err := s.typedTaking(r)
	if err != nil {
		return err
	}
	keep(w, typingCookie, t.Get("unit"))
	if len(t.seen()) == 0 && t.Get("with") != goNoGo {
		t.Wrong["saw"] = "Type what it showed"
	}
	id := ""
	saved, err := s.change(w, r, t.note(), func(source []byte) ([]byte, error) {
		var edited []byte
		id, edited, err = s.written(t, source)
		return edited, err
	})
	if faults := untold(err); faults != nil || len(t.Wrong) > 0 {
		t.Faults = append(t.Faults, faults...)
		return s.showTaking(w, r, http.StatusUnprocessableEntity, v, t)
	}
	if err != nil {
		return err
	}
	if t.Get("next") != "" && len(saved.Later) == 0 {
		return goTo(w, r, v.at("take/by/"+t.Method.ID+"?like="+id))
	}
	return s.after(w, r, saved, v.at("readings")+"#"+readingAnchor(id))
}

// typedTaking is the reading that a form was sent with.
func (s *takePages) typedTaking(r *http.Request) (*jobView, *taking, error) {
	v, t, err := s.taking(r)
	if err != nil {
		return nil, nil, err
	}
	if err := r.ParseForm(); err != nil {
		return nil, nil, err
	}
	t.Values = r.PostForm
	t.From, err = strconv.Atoi(t.Get("from"))
	if err != nil {
		return nil, nil, wrong("the form does not say which revision it was made from; open the page again")
	}
	return v, t, nil
}

// written returns the text with the reading in it, and the reading's id.
func (s *takePages) written(t *taking, source []byte) (id string, edited []byte, err error) {
	job, err := readJob(source)
	if err != nil {
		return "", nil, err
	}
	e := entering{taking: t, source: source, job: job, named: map[string]bool{}}
	if id = e.reading(); len(t.Wrong) > 0 {
		return "", nil, wrong("not all of it can be read: see below")
	}
	if edited, err = s.put(source, e.items...); err != nil {
		return "", nil, err
	}
	if len(e.touches) > 0 {
		if edited, err = jobedit.AddSaw(edited, id, e.touches...); err != nil {
			return "", nil, err
		}
	}
	_, err = readJob(edited)
	return id, edited, err
}

// put puts entries into a text, one after the other.
func (s *takePages) put(source []byte, items ...record.Item) ([]byte, error) {
	for _, item := range items {
		var err error
		if source, err = jobedit.Put(source, item); err != nil {
			return nil, err
		}
	}
	return source, nil
}

// untold returns what is wrong with what was typed, without its place in a text
// that the user has not seen; nil where the error is none of that.
func untold(err error) []string {
	var faults trade.Faults
	errors.As(err, &faults)
	var list []string
	for _, f := range faults {
		list = append(list, f.Text)
	}
	return list
}

// note says in the history what was done.
func (t *taking) note() string {
	if id := t.Get("changes"); id != "" {
		return "reading " + id + " changed"
	}
	return "a reading taken: " + t.Method.ID
}
