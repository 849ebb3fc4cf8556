package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"slices"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
)

// pastSurveys returns what the record has of a machine, as jobs with surveys, the
// earliest first. Each survey says in its id where it is from.
func pastSurveys(ctx context.Context, shop *store.Store, machine trade.Machine) ([]*trade.Job, error) {
	if machine == (trade.Machine{}) {
		return nil, wrong("the job does not say which machine it is: write it under machine:, as in the jobs of the record")
	}
	jobs, err := everyJobOn(ctx, shop, machine)
	if err != nil {
		return nil, err
	}
	var all []record.Revision
	for _, job := range jobs {
		history, err := shop.History(ctx, job.ID)
		if err != nil {
			return nil, err
		}
		all = append(all, standing(history)...)
	}
	slices.SortStableFunc(all, func(a, b record.Revision) int { return cmp.Or(a.When.Compare(b.When), cmp.Compare(a.Number, b.Number)) })
	var past []*trade.Job
	for _, v := range all {
		job, err := surveyed(ctx, shop, v)
		if err != nil {
			return nil, err
		}
		if job != nil {
			past = append(past, job)
		}
	}
	return past, nil
}

// everyJobOn returns the jobs on a machine: one that is put away was as true.
func everyJobOn(ctx context.Context, shop *store.Store, machine trade.Machine) ([]record.Job, error) {
	jobs, err := shop.JobsOn(ctx, machine)
	if err != nil {
		return nil, err
	}
	away, err := shop.PutAwayJobs(ctx)
	for _, job := range away {
		if job.Machine == machine {
			jobs = append(jobs, job)
		}
	}
	return jobs, err
}

// standing returns the revisions of the main line but for those that were taken
// back.
func standing(history []record.Revision) []record.Revision {
	var list []record.Revision
	for _, v := range history {
		if v.Branch != 0 {
			continue
		}
		if v.Restores != 0 {
			list = slices.DeleteFunc(list, func(before record.Revision) bool { return before.Number > v.Restores })
		}
		list = append(list, v)
	}
	return list
}

// notAtHand is where a survey stands that is not in the text at hand.
var notAtHand trade.Pos

// surveyed reads a revision as a job, nil where it has no surveys or an older
// program wrote what this one does not read.
func surveyed(ctx context.Context, shop *store.Store, v record.Revision) (*trade.Job, error) {
	source, err := shop.Source(ctx, v.Job, v.Number)
	if err != nil || !bytes.Contains(source, []byte("surveys")) {
		return nil, err
	}
	job, err := jobfile.ReadPlanned("", source)
	if err != nil {
		return nil, nil
	}
	for i := range job.Surveys {
		survey := &job.Surveys[i]
		survey.ID = fmt.Sprintf("%s of job %s revision %d", survey.ID, v.Job, v.Number)
		survey.Pos = notAtHand
	}
	return job, nil
}

// withoutImpossible takes out past surveys whose readings no such thing can have,
// and says so: nobody can mend them any more.
func withoutImpossible(s streams, job *trade.Job) *trade.Job {
	job.Surveys = slices.DeleteFunc(job.Surveys, func(survey trade.Survey) bool {
		if survey.Pos != notAtHand {
			return false
		}
		alone := *job
		alone.Surveys = []trade.Survey{survey}
		_, err := upkeep.Judge(&alone)
		if err != nil {
			fmt.Fprintf(s.complain, "oddleg: left out: %v\n", err)
		}
		return err != nil
	})
	return job
}
