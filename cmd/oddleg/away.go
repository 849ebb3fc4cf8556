package main

import (
	"context"
	"io"

	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// awayCommand puts a job out of the lists, or brings it back.
type awayCommand struct {
	Job      string      `arg:"" optional:"" help:"The job, by its id or name; without it, all that are put away."`
	Back     bool        `help:"Bring it back into the lists."`
	Note     string      `help:"Why." placeholder:"TEXT"`
	Record   recordFlags `embed:""`
	whoFlags `embed:""`
	JSON     bool `name:"json" help:"Print the answer as JSON."`
}

// Run does it and says so.
func (c *awayCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		if c.Job == "" {
			return c.all(ctx, shop)
		}
		job, err := shop.Job(ctx, c.Job)
		if err != nil {
			return answer{}, err
		}
		if err := shop.PutAway(ctx, job.ID, !c.Back, c.stamp(c.Note)); err != nil {
			return answer{}, err
		}
		if c.Back {
			return sentence("Job %s, %s, is in the lists again.", job.ID, job.Name), nil
		}
		return sentence("Job %s, %s, is put away. Nothing of it is lost: `oddleg away %s --back` brings it back.", job.ID, job.Name, job.ID), nil
	})
}

// all lists what is put away.
func (c *awayCommand) all(ctx context.Context, shop *store.Store) (answer, error) {
	if c.Back || c.Note != "" {
		return answer{}, wrong("say which job: oddleg away JOB")
	}
	jobs, err := shop.PutAwayJobs(ctx)
	list := findings(hitsOf(jobs))
	return answer{
		says: say.PutAway(list),
		json: func(w io.Writer) error { return report.FoundJSON(w, list) },
	}, err
}

// hitsOf takes jobs for what was found.
func hitsOf(jobs []record.Job) []record.Hit {
	hits := make([]record.Hit, len(jobs))
	for i := range jobs {
		hits[i].Job = &jobs[i]
	}
	return hits
}
