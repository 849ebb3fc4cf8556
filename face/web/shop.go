package web

import (
	"context"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/file/jobedit"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/reckon"
)

// jobPages answer for the pages of the shop.
type jobPages struct{ *desk }

func (s *jobPages) routes(t *table) {
	t.on("GET /{$}", s.jobsPage)
	t.on("GET /new", writers(s.newPage))
	t.on("POST /new", s.make)
	t.on("GET /put-away", s.putAwayPage)
	t.on("POST /put-away/examples", s.putExamplesAway)
	t.on("GET /job/{job}", s.jobPage)
	t.on("POST /job/{job}/away", s.putAway)
	t.on("POST /job/{job}/like", s.makeLike)
	t.on("GET /", func(http.ResponseWriter, *http.Request) error { return errNotThere })
}

// jobPage leads to where the job is best taken up.
func (s *jobPages) jobPage(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "")
	if err != nil {
		return err
	}
	return goTo(w, r, v.at(string(reckon.Readings)))
}

// writers answers those who may write; for guests there is no such page.
func writers(act action) action {
	return func(w http.ResponseWriter, r *http.Request) error {
		if personOf(r).Guest {
			return errNotThere
		}
		return act(w, r)
	}
}

// jobsPage lists the jobs, the one saved last first.
func (s *jobPages) jobsPage(w http.ResponseWriter, r *http.Request) error {
	jobs, err := s.Record.Jobs(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, jobsPage(s.look(r, "Jobs"), jobs))
}

// examplesIn counts the jobs that came with the program.
func examplesIn(jobs []record.Job) int {
	n := 0
	for _, job := range jobs {
		if job.Example {
			n++
		}
	}
	return n
}

// begun is a new job as its form has it.
type begun struct {
	Once, Name, Known, What, Built, Country, Units string
	Wrong                                          struct{ Name, Built string }
}

// ok reports whether nothing is wrong with it.
func (b *begun) ok() bool { return b.Wrong.Name+b.Wrong.Built == "" }

// newPage asks for what a new job needs.
func (s *jobPages) newPage(w http.ResponseWriter, r *http.Request) error {
	return s.showNew(w, r, http.StatusOK, begun{Once: newIdempotencyKey(newJob), Units: "mm"})
}

func (s *jobPages) showNew(w http.ResponseWriter, r *http.Request, status int, b begun) error {
	machines, err := s.Record.Machines(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, status, newPage(s.look(r, "New job"), b, saidMachines(machines)))
}

// saidMachines are the machines that say anything of themselves.
func saidMachines(machines []trade.Machine) []trade.Machine {
	return slices.DeleteFunc(machines, func(m trade.Machine) bool { return machineText(m) == "" })
}

// make begins a job.
func (s *jobPages) make(w http.ResponseWriter, r *http.Request) error {
	b := begun{
		Once: r.FormValue("once"), Name: lineOf(r, "name"), Known: r.FormValue("known"), What: lineOf(r, "what"),
		Built: lineOf(r, "built"), Country: lineOf(r, "country"), Units: r.FormValue("units"),
	}
	machine, err := s.machineOf(r.Context(), &b)
	if err != nil {
		return err
	}
	if b.Name == "" {
		b.Wrong.Name = "A name is wanted, such as: index plunger."
	}
	if b.Units != "in" {
		b.Units = "mm"
	}
	if !b.ok() {
		return s.showNew(w, r, http.StatusUnprocessableEntity, b)
	}
	source, err := jobedit.Blank(b.Name, b.Units, machine)
	if faults := asFaults(err); faults != nil {
		b.Wrong.Name = faults[0].Text
		return s.showNew(w, r, http.StatusUnprocessableEntity, b)
	}
	if err != nil {
		return err
	}
	return s.begin(w, r, "begun", source)
}

// machineOf is the machine that a new job is about: a known one, or as typed.
func (s *jobPages) machineOf(ctx context.Context, b *begun) (trade.Machine, error) {
	if b.Known != "" {
		machines, err := s.Record.Machines(ctx)
		if err != nil {
			return trade.Machine{}, err
		}
		if i := slices.IndexFunc(machines, func(m trade.Machine) bool { return machineText(m) == b.Known }); i >= 0 {
			return machines[i], nil
		}
	}
	m := trade.Machine{What: b.What, Country: b.Country}
	if b.Built == "" {
		return m, nil
	}
	year, err := strconv.Atoi(b.Built)
	if err != nil || year < 1 || year > 9999 {
		b.Wrong.Built = "A year is wanted, such as 1936, or nothing."
	}
	m.Built = year
	return m, nil
}

// lineOf is a field of one line, without blanks about it.
func lineOf(r *http.Request, name string) string { return strings.TrimSpace(r.FormValue(name)) }

// begin keeps a new job under the id that its form drew, and leads to it.
func (s *jobPages) begin(w http.ResponseWriter, r *http.Request, note string, source []byte) error {
	id := r.FormValue("once")
	if !isIdempotencyKey(id, newJob) {
		return wrong("the form does not say which job it makes; open the page again")
	}
	if _, err := readJob(source); err != nil {
		return err
	}
	saved, err := s.keepNew(r, id, note, source)
	if err != nil {
		return err
	}
	return goTo(w, r, "/job/"+saved.Job+"/readings")
}

// keepNew saves a job for the first time, under an id that was drawn for it: the
// same one sent again is the same job.
func (s *desk) keepNew(r *http.Request, id, note string, source []byte) (record.Saved, error) {
	return s.Record.Save(r.Context(), record.Save{Stamp: s.stamp(r, note), Job: id, Source: source, Index: index.Any(source)})
}

// makeLike begins another job like one that is there, with nothing read yet.
func (s *jobPages) makeLike(w http.ResponseWriter, r *http.Request) error {
	v, err := s.view(r, "record")
	if err != nil {
		return err
	}
	name := lineOf(r, "name")
	if name == "" {
		return wrong("the new job wants a name: go back and give it one")
	}
	source, err := jobedit.WithoutReadings(v.Source, name)
	if err != nil {
		return err
	}
	return s.begin(w, r, "like "+v.Name+" ("+v.ID+")", source)
}

// putAwayPage lists the jobs that are out of the way.
func (s *jobPages) putAwayPage(w http.ResponseWriter, r *http.Request) error {
	jobs, err := s.Record.PutAwayJobs(r.Context())
	if err != nil {
		return err
	}
	return s.show(w, r, http.StatusOK, putAwayPage(s.look(r, "Put away"), jobs))
}

// putAway takes a job out of the lists, or brings it back.
func (s *jobPages) putAway(w http.ResponseWriter, r *http.Request) error {
	away := r.FormValue("away") != "no"
	if err := s.Record.PutAway(r.Context(), r.PathValue("job"), away, s.stamp(r, "")); err != nil {
		return err
	}
	return goTo(w, r, "/")
}

// putExamplesAway takes all examples out of the lists.
func (s *jobPages) putExamplesAway(w http.ResponseWriter, r *http.Request) error {
	jobs, err := s.Record.Jobs(r.Context())
	if err != nil {
		return err
	}
	for _, job := range jobs {
		if !job.Example {
			continue
		}
		if err := s.Record.PutAway(r.Context(), job.ID, true, s.stamp(r, "")); err != nil {
			return err
		}
	}
	return goTo(w, r, "/")
}

// jobWords say when a job was saved, and how many spares there are of it.
func jobWords(job record.Job) string {
	text := fmt.Sprintf("saved %s, revision %d", job.Saved.Local().Format("2 Jan 2006 15:04"), job.Revision)
	if job.OnShelf > 0 {
		text += fmt.Sprintf(", %d on the shelf", job.OnShelf)
	}
	return text
}

// machineText says which machine is being mended.
func machineText(m trade.Machine) string {
	built := ""
	if m.Built > 0 {
		built = "built " + strconv.Itoa(m.Built)
	}
	return joined(", ", m.What, built, m.Country)
}
