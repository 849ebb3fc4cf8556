package upkeep

import (
	"fmt"
	"slices"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// Gather returns one job with the surveys of several, so that Judge finds trends
// over all of them. The last job is the one at hand, and the others are older:
// name, machine and units are its own. A survey of one kind, of one thing and of
// one day is taken once, from the last job that has it. Instruments and pieces of
// the older jobs get other ids; as ever, surveys count as independent.
func Gather(jobs []*trade.Job) *trade.Job {
	if len(jobs) == 0 {
		panic("upkeep: no job is at hand")
	}
	last := jobs[len(jobs)-1]
	g := gathered{seen: map[sighting]bool{}, job: &trade.Job{Name: last.Name, Machine: last.Machine, Units: last.Units}}
	for i, job := range slices.Backward(jobs) {
		alias := func(id string) string { return fmt.Sprintf("%s (%d)", id, i+1) } // no file can have such an id
		if i == len(jobs)-1 {
			alias = func(id string) string { return id }
		}
		g.take(job, alias)
	}
	return g.job
}

// sighting is what a survey is known by.
type sighting struct {
	kind trade.SurveyKind
	of   string
	day  time.Time
}

// gathered is the job that grows, and what it has of the jobs taken so far.
type gathered struct {
	job  *trade.Job
	seen map[sighting]bool
}

// take puts what a job has beside those taken before it. Two surveys of one job
// are never the same one.
func (g *gathered) take(job *trade.Job, alias func(id string) string) {
	var fresh []trade.Survey
	for _, s := range job.Surveys {
		if !g.seen[sightingOf(s)] {
			fresh = append(fresh, renamed(s, alias))
		}
	}
	for _, s := range fresh {
		g.seen[sightingOf(s)] = true
	}
	g.job.Surveys = append(fresh, g.job.Surveys...)
	for _, i := range job.Instruments {
		i.ID = alias(i.ID)
		g.job.Instruments = append(g.job.Instruments, i)
	}
	for _, p := range job.Pieces {
		p.ID = alias(p.ID)
		g.job.Pieces = append(g.job.Pieces, p)
	}
}

func sightingOf(s trade.Survey) sighting { return sighting{s.Kind, s.Of, s.Date} }

// renamed returns a survey that names its instruments and pieces otherwise.
func renamed(s trade.Survey, alias func(id string) string) trade.Survey {
	s.With = alias(s.With)
	s.Figures, s.Rollers = slices.Clone(s.Figures), slices.Clone(s.Rollers)
	kind, known := survey.Find(s.Kind)
	for i := range s.Figures {
		f := &s.Figures[i]
		if known && kind.Key(f.Key) != nil && kind.Key(f.Key).Sort == survey.Instrument {
			f.Word = alias(f.Word)
		}
	}
	for i := range s.Rollers {
		if r := &s.Rollers[i].Roller; r.ID != "" {
			r.ID = alias(r.ID)
		}
	}
	return s
}
