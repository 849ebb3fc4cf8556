package main

import (
	"os"

	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/report"
)

// sizesCommand works out the sizes of a job.
type sizesCommand struct {
	File    string `arg:"" help:"The job file (YAML); - reads standard input."`
	JSON    bool   `name:"json" help:"Print the result as JSON (mm, degrees)."`
	Working bool   `help:"Print every formula with its numbers, the kit, and where each uncertainty comes from."`
	Chart   string `placeholder:"FILE.svg" help:"Also draw what was meant: each reading over the sizes it may have been."`
	simulateFlags
}

// Run prints the result.
func (c *sizesCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		all, err := find(s.context(), c.File, source, usualSeed)
		if err != nil {
			return answer{}, err
		}
		found := &sizesFound{Found: all}
		if found.simulation, err = c.simulate(s.context(), all.Result); err != nil {
			return answer{}, err
		}
		if err := c.draw(all); err != nil {
			return answer{}, err
		}
		return answer{says: found.says(c.Working), view: inJob(all.Result.Job), json: found.json}, nil
	})
}

// draw writes the chart if one is asked for.
func (c *sizesCommand) draw(f *reckon.Found) error {
	if c.Chart == "" {
		return nil
	}
	return os.WriteFile(c.Chart, report.MeaningChart(f.Result, f.Meaning()), 0o666)
}
