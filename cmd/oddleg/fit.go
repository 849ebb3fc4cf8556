package main

import (
	"io"

	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
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
		found, err := find(s.context(), c.File, source, c.Seed)
		if err != nil {
			return answer{}, err
		}
		p, err := found.Fitted()
		if err != nil {
			return answer{}, err
		}
		return answer{
			says: fitted(p), view: inJob(found.Result.Job),
			json: func(w io.Writer) error { return report.FitJSON(w, p.Made, p.Mates, p.Joints) },
		}, nil
	})
}

// fitted says what to make, how it goes together and what gives way.
func fitted(p *reckon.Fitted) *doc.Document {
	d := say.Fit(p.Made)
	d.Append(say.Mates(p.Mates), say.Strength(p.Joints))
	return d
}
