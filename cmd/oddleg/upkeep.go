package main

import (
	"io"

	"oddleg/jobfile"
	"oddleg/report"
	"oddleg/upkeep"
)

// upkeepCommand says what the surveys of a machine tell.
type upkeepCommand struct {
	File string `arg:"" help:"The job file (YAML) with surveys; - reads standard input."`
	JSON bool   `name:"json" help:"Print the answer as JSON (mm, degrees)."`
}

// Run prints what was found.
func (c *upkeepCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		job, err := jobfile.Read(c.File, source)
		if err != nil {
			return answer{}, err
		}
		result, err := upkeep.Judge(job)
		return answer{
			print: func(w io.Writer, style report.Style) error { return report.Upkeep(w, result, style) },
			json:  func(w io.Writer) error { return report.UpkeepJSON(w, result) },
		}, err
	})
}
