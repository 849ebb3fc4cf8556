package main

import (
	"io"

	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// checkCommand proves the part of a job.
type checkCommand struct {
	File string `arg:"" help:"The job file (YAML) with a part, and checks: as far as they are taken; - reads standard input."`
	JSON bool   `name:"json" help:"Print the answer as JSON (mm, degrees)."`
	Seed uint64 `default:"1" help:"Seed of the simulations: the same seed gives the same answer."`
}

// Run prints the inspection sheet and the verdicts.
func (c *checkCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		found, err := find(s.context(), c.File, source, c.Seed)
		if err != nil {
			return answer{}, err
		}
		proved, err := found.Proved()
		if err != nil {
			return answer{}, err
		}
		return answer{
			says: say.Check(proved), view: inJob(found.Result.Job),
			json: func(w io.Writer) error { return report.CheckJSON(w, proved) },
		}, nil
	})
}
