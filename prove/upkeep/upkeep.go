// Package upkeep judges how far slides and screws have worn and how true a
// machine stands, from the surveys of a job.
//
// Each is worked out as its entry in read/survey has it. Surveys of different days
// count as independent; several of one kind and of one thing give the rate of wear.
// Lengths are in mm, angles in radians, times in years of 365.25 days.
package upkeep

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// Result is what the surveys of a job say, in the order of the file, and what
// those of one thing say together.
type Result struct {
	Job     *trade.Job
	Answers []survey.Answer
	Trends  []Trend
}

// Judge works out all surveys of a job that jobfile has checked. An error is
// trade.Faults: a job without surveys, or readings that no such thing can have.
func Judge(job *trade.Job) (*Result, error) {
	var faults trade.Faults
	if len(job.Surveys) == 0 {
		faults.Add(trade.Pos{}, "the job has no surveys: write what was read under surveys:")
	}
	r := &Result{Job: job}
	for i := range job.Surveys {
		s := &job.Surveys[i]
		answer, err := survey.WorkOut(job, s)
		if err != nil {
			faults.Add(s.Pos, "%s: %v", s.ID, err)
		}
		r.Answers = append(r.Answers, *answer)
	}
	if err := faults.Err(); err != nil {
		return nil, err
	}
	r.Trends = trends(r)
	return r, nil
}
