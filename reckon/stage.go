package reckon

import "codeberg.org/oddleg/oddleg/job/trade"

// Stage is one step on the way of the data, from readings to the record.
type Stage string

// The stages, in the order of the data.
const (
	Readings Stage = "readings"
	Sizes    Stage = "sizes"
	Meant    Stage = "meant"
	Fit      Stage = "fit"
	Part     Stage = "part"
	SetUps   Stage = "setups"
	Checks   Stage = "checks"
	Upkeep   Stage = "upkeep"
	Working  Stage = "working"
)

// Stages are those that a job has something to say at, in the order of the data.
func Stages(job *trade.Job) []Stage {
	made := job.Part != nil
	list := []Stage{}
	for _, s := range []struct {
		stage Stage
		there bool
	}{
		{Readings, len(job.Readings) > 0},
		{Sizes, len(job.Sizes) > 0},
		{Meant, len(job.Sizes) > 0},
		{Fit, made || len(job.Joints) > 0},
		{Part, made},
		{SetUps, made && (len(job.Shop) > 0 || len(job.Work) > 0)},
		{Checks, made},
		{Upkeep, len(job.Surveys) > 0},
		{Working, len(job.Readings) > 0},
	} {
		if s.there {
			list = append(list, s.stage)
		}
	}
	return list
}
