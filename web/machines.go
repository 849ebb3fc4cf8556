package web

import (
	"bytes"
	"cmp"
	"context"
	"net/http"
	"slices"
	"strings"

	"oddleg/record"
	"oddleg/upkeep"
)

// machines answers for the machines that are being mended.
func (s *server) machines() { s.on("GET /machines", s.machinesPage) }

// mended is one machine with its jobs, and what its surveys say.
type mended struct {
	Machine string
	Jobs    []record.Job
	Surveys []surveyed
	Wear    []string
}

// surveyed is what one survey says in short.
type surveyed struct {
	Job, Text string
	Doubt     bool
}

// machinesPage lists the jobs by machine.
func (s *server) machinesPage(w http.ResponseWriter, r *http.Request) error {
	jobs, err := s.Record.Jobs(r.Context())
	if err != nil {
		return err
	}
	list := byMachine(jobs)
	for i := range list {
		for _, job := range list[i].Jobs {
			if err := s.lookAfter(r.Context(), &list[i], job, personOf(r)); err != nil {
				return err
			}
		}
	}
	return s.show(w, r, http.StatusOK, machinesPage(s.look(r, "Machines"), list))
}

// byMachine gathers jobs by machine, in the order of its words.
func byMachine(jobs []record.Job) []mended {
	var list []mended
	for _, job := range jobs {
		machine := cmp.Or(machineText(job.Machine), "no machine named")
		i := slices.IndexFunc(list, func(m mended) bool { return m.Machine == machine })
		if i < 0 {
			i = len(list)
			list = append(list, mended{Machine: machine})
		}
		list[i].Jobs = append(list[i].Jobs, job)
	}
	slices.SortFunc(list, func(a, b mended) int { return strings.Compare(a.Machine, b.Machine) })
	return list
}

// lookAfter adds what the surveys of a job say of its machine. Most jobs have
// none, and are not read for that.
func (s *server) lookAfter(ctx context.Context, m *mended, job record.Job, p person) error {
	source, err := s.Record.Source(ctx, job.ID, job.Revision)
	if err != nil || !bytes.Contains(source, []byte("surveys:")) {
		return err
	}
	read, err := s.Text.Read(source)
	if err != nil || len(read.Surveys) == 0 {
		return nil // its own pages say what is wrong with it
	}
	read.Show = p.Units
	judged, err := upkeep.Judge(read)
	if err != nil {
		return nil
	}
	for _, answer := range judged.Answers {
		m.Surveys = append(m.Surveys, surveyed{Job: job.ID, Text: verdictWords(answer), Doubt: answer.Verdict == upkeep.Exceeds})
	}
	m.Wear = append(m.Wear, wearing(judged, read.Shown())...)
	return nil
}

// verdictWords say what came of a survey.
func verdictWords(a upkeep.Answer) string {
	text := thing(a.Survey.Kind, a.Survey.Of)
	if !a.Survey.Date.IsZero() {
		text += " on " + a.Survey.Date.Format("2 Jan 2006")
	}
	words := map[upkeep.Verdict]string{
		upkeep.NotJudged: "no tolerance to hold it against", upkeep.Keeps: "within its tolerance",
		upkeep.Exceeds: "beyond its tolerance", upkeep.CannotTell: "too near its tolerance to tell",
	}
	return text + ": " + words[a.Verdict]
}
