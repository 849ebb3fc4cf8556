package web

import (
	"fmt"
	"net/http"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/meaning/series"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/say"
)

// meaningPages answer for what the drawing seems to have said.
type meaningPages struct{ *desk }

func (s *meaningPages) routes(t *table) {
	t.on("GET /job/{job}/meant", s.meantPage)
	t.on("POST /job/{job}/meant", s.decide)
}

// candidate is one thing that may have been meant, as it is shown.
type candidate struct {
	Text    string // as it is decided on
	Words   string // how worn it is then
	Percent int
	Chance  string
	Decided bool
}

// question is one size or thread, and what may have been meant by it.
type question struct {
	Section, ID string
	Say         string // what it is
	Found       string
	Candidates  []candidate
	NoRound     string // chance that none of them was meant
	NoRoundPart int
	Tell        string // how the leaders can be told apart
	Decided     bool
}

func plusMinus(half string) string {
	if half == "" {
		return ""
	}
	return " ± " + half
}

func percentText(percent int) string { return fmt.Sprintf("%d %%", percent) }

// meantPage shows the candidates of every size and thread.
func (s *meaningPages) meantPage(w http.ResponseWriter, r *http.Request) error {
	return s.showMeant(w, r, http.StatusOK, nil)
}

func (s *meaningPages) showMeant(w http.ResponseWriter, r *http.Request, status int, wrong []string) error {
	v, err := s.view(r, "meant")
	if err != nil {
		return err
	}
	var list []question
	var drawing []string
	if v.Found != nil {
		words, meaning := say.WordsOn(v.worked.Job, v.Found, v.worked.view()), v.Found.Meaning()
		for i := range meaning.Sizes {
			list = append(list, v.question(words, &meaning.Sizes[i]))
		}
		for _, t := range v.Found.Threads() {
			list = append(list, v.threadQuestion(words, t))
		}
		drawing = words.Drawing(meaning)
		if len(v.suspects()) > 0 {
			wrong = append(wrong, "The readings are taken as they stand, the suspect ones too: settle these first.")
		}
	}
	return s.show(w, r, status, meantPage(s.lookAt(r, v, "Meant"), list, drawing, append(wrong, said(v.Faults)...)))
}

// The most candidates shown, and the least chance of one after the first.
const (
	mostCandidates = 5
	leastCandidate = 0.02
)

// question asks what was meant by a size.
func (v *jobView) question(words *say.Words, m *meant.Size) question {
	size := v.worked.Job.Size(m.ID)
	found := v.foundSize(*size)
	q := question{
		Section: "sizes", ID: m.ID, Say: size.Say, Found: found.Value + plusMinus(found.Half),
		NoRound: words.Chance(m.NoRound), NoRoundPart: percentOf(m.NoRound), Tell: words.Telling(m), Decided: m.Decided,
	}
	for i, c := range m.Likely() {
		if i > 0 && (c.P < leastCandidate || i >= mostCandidates) {
			break
		}
		q.Candidates = append(q.Candidates, candidate{
			Text: c.Text, Words: words.Meaning(m, c), Percent: percentOf(c.P), Chance: words.Chance(c.P), Decided: m.Decided && i == 0,
		})
	}
	return q
}

// threadQuestion asks which thread it was.
func (v *jobView) threadQuestion(words *say.Words, t series.JobThread) question {
	q := question{Section: "threads", ID: t.ID, Tell: say.Settling(t.Settle).Shown(v.worked.view())}
	if t.Seen.Major.Given() {
		value, _ := shown(t.Seen.Major.Value, t.Seen.Major.U, unit.Length, v.worked.view().Unit())
		q.Found = "major " + value
	}
	for i, c := range t.Candidates {
		if i > 0 && (c.P < leastCandidate || i >= mostCandidates) {
			break
		}
		q.Candidates = append(q.Candidates, candidate{
			Text: c.Designation, Percent: percentOf(c.P), Chance: words.Chance(c.P), Decided: c.Decided,
		})
		q.Decided = q.Decided || c.Decided
	}
	return q
}

func percentOf(p float64) int { return int(100*p + 0.5) }

// decide writes what was meant by a size or thread, or takes that back.
func (s *meaningPages) decide(w http.ResponseWriter, r *http.Request) error {
	section, id, text := r.FormValue("section"), r.FormValue("id"), strings.TrimSpace(r.FormValue("meant"))
	note := id + ": what was meant is open again"
	if text != "" {
		note = id + ": meant " + text
	}
	saved, err := s.change(w, r, note, s.readable(func(source []byte) ([]byte, error) {
		job, err := readJob(source)
		if err != nil {
			return nil, err
		}
		known := section == "sizes" && job.Size(id) != nil
		for i := range job.Threads {
			known = known || section == "threads" && job.Threads[i].ID == id
		}
		if !known {
			return nil, wrong("there is no %s any more", id)
		}
		return jobedit.Put(source, record.Item{Section: section, ID: id, Fields: []record.Field{{Key: "meant", Text: text}}})
	}))
	if told := untold(err); told != nil {
		return s.showMeant(w, r, http.StatusUnprocessableEntity, told)
	}
	if err != nil {
		return err
	}
	return s.after(w, r, saved, "/job/"+saved.Job+"/meant#meant-"+id)
}
