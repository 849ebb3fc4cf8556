package web

import (
	"bytes"
	"cmp"
	"context"
	"net/http"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// machinePages answer for the machines that are being mended.
type machinePages struct{ *desk }

func (s *machinePages) routes(t *table) { t.on("GET /machines", s.machinesPage) }

// mended is one machine with its jobs, and what their surveys say together.
type mended struct {
	Machine string
	Jobs    []record.Job // the one saved last first
	Judged  *upkeep.Result
	In      unit.Unit // of lengths, for who looks
	At      string    // job of the latest surveys
}

// machinesPage lists the jobs by machine.
func (s *machinePages) machinesPage(w http.ResponseWriter, r *http.Request) error {
	jobs, err := s.Record.Jobs(r.Context())
	if err != nil {
		return err
	}
	list := byMachine(jobs)
	for i := range list {
		if err := s.lookAfter(r.Context(), &list[i], personOf(r)); err != nil {
			return err
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

// lookAfter judges the surveys of all jobs of a machine. What cannot be judged is
// told on the pages of its job.
func (s *machinePages) lookAfter(ctx context.Context, m *mended, p person) error {
	var surveyed []*trade.Job
	for _, job := range lastFirst(m.Jobs) {
		read, err := s.surveysOf(ctx, job)
		if err != nil {
			return err
		}
		if read != nil {
			surveyed, m.At = append(surveyed, read), job.ID
		}
	}
	if len(surveyed) == 0 {
		return nil
	}
	together := upkeep.Gather(surveyed)
	m.In = viewOf(together, p.Units).Unit()
	if judged, err := upkeep.Judge(together); err == nil {
		m.Judged = judged
	}
	return nil
}

// surveysOf reads a job that has surveys, nil for any other: most have none, and
// are not read for that.
func (s *machinePages) surveysOf(ctx context.Context, job record.Job) (*trade.Job, error) {
	source, err := s.Record.Source(ctx, job.ID, job.Revision)
	if err != nil || !bytes.Contains(source, []byte("surveys:")) {
		return nil, err
	}
	read, err := readJob(source)
	if err != nil || len(read.Surveys) == 0 {
		return nil, nil
	}
	return read, nil
}

// verdictWords say what came of a survey.
func verdictWords(a survey.Answer) string {
	text := thing(a.Kind, a.Survey.Of)
	if !a.Survey.Date.IsZero() {
		text += " on " + a.Survey.Date.Format("2 Jan 2006")
	}
	words := map[survey.Verdict]string{
		survey.NotJudged: "no tolerance to hold it against", survey.Keeps: "within its tolerance",
		survey.Exceeds: "beyond its tolerance", survey.CannotTell: "too near its tolerance to tell",
	}
	return text + ": " + words[a.Verdict]
}
