package main

import (
	"io"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// expectCommand says what to expect of readings before they are taken.
type expectCommand struct {
	File string `arg:"" help:"The job file (YAML); a reading without saw is planned. - reads standard input."`
	JSON bool   `name:"json" help:"Print what to expect as JSON (mm, degrees)."`
}

// Run prints what to expect.
func (c *expectCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		job, err := jobfile.ReadPlanned(c.File, source)
		if err != nil {
			return answer{}, err
		}
		e, err := advise.Expect(job)
		return answer{
			says: say.Expected(e), view: inJob(e.Result.Job),
			json: func(w io.Writer) error { return report.ExpectedJSON(w, e) },
		}, err
	})
}
