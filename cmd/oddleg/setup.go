package main

import (
	"io"

	"oddleg/part"
	"oddleg/report"
	"oddleg/setup"
)

// setupCommand says how the part of a job is set up for.
type setupCommand struct {
	File string `arg:"" help:"The job file (YAML) with a part, and best a shop and an order of work; - reads standard input."`
	JSON bool   `name:"json" help:"Print the answer as JSON (mm, N, degrees)."`
}

// Run prints the set-ups.
func (c *setupCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		found, err := find(c.File, source)
		if err != nil {
			return answer{}, err
		}
		plan, err := found.setUps()
		return answer{
			print: func(w io.Writer, style report.Style) error { return report.Setup(w, plan, style) },
			json:  func(w io.Writer) error { return report.SetupJSON(w, plan) },
		}, err
	})
}

// setUps plans how the part is set up for, as it is to be made.
func (f *found) setUps() (*setup.Plan, error) {
	fitted, err := f.fitted(usualSeed)
	if err != nil {
		return nil, err
	}
	model, err := part.Build(f.result.Job, fitted.made, f.result)
	if err != nil {
		return nil, err
	}
	return setup.MakePlan(f.result.Job, model)
}
