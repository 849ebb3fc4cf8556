package main

import (
	"io"

	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/report"
)

// fitCommand says what to make the part of a job to.
type fitCommand struct {
	File string `arg:"" help:"The job file (YAML) with a part; - reads standard input."`
	JSON bool   `name:"json" help:"Print the answer as JSON (mm, degrees)."`
	Seed uint64 `default:"1" help:"Seed of the simulations: the same seed gives the same answer."`
}

// Run prints what to make.
func (c *fitCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		found, err := find(c.File, source, c.Seed)
		if err != nil {
			return answer{}, err
		}
		p, err := found.Fitted()
		if err != nil {
			return answer{}, err
		}
		return answer{
			print: func(w io.Writer, style report.Style) error { return printFitted(w, p, style) },
			json:  func(w io.Writer) error { return report.FitJSON(w, p.Made, p.Mates, p.Joints) },
		}, nil
	})
}

// printFitted writes for people what to make, how it goes together and what
// gives way.
func printFitted(w io.Writer, p *reckon.Fitted, style report.Style) error {
	for _, write := range []func() error{
		func() error { return report.Fit(w, p.Made, style) },
		func() error { return report.Mates(w, p.Mates, style) },
		func() error { return report.Strength(w, p.Joints, style) },
	} {
		if err := write(); err != nil {
			return err
		}
	}
	return nil
}
