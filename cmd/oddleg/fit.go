package main

import (
	"errors"
	"io"

	"oddleg"
	"oddleg/fit"
	"oddleg/mating"
	"oddleg/report"
	"oddleg/strength"
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
		found, err := find(c.File, source)
		if err != nil {
			return answer{}, err
		}
		p, err := found.fitted(c.Seed)
		if err != nil {
			return answer{}, err
		}
		return answer{
			print: p.print,
			json:  func(w io.Writer) error { return report.FitJSON(w, p.made, p.mates, p.joints) },
		}, nil
	})
}

// fitted is all that is found out about the part of a job.
type fitted struct {
	made   *fit.Result
	mates  []mating.Answer
	joints []strength.Answer
}

// fitted takes a job's part through the stages. What is wrong with its mates and
// with its joints is told at once.
func (f *found) fitted(seed uint64) (*fitted, error) {
	made, err := fit.Seeded(f.result, f.meaning, seed)
	if err != nil {
		return nil, err
	}
	mates, wrongMates := mating.Check(f.result, made, seed)
	joints, wrongJoints := strength.Check(f.result.Job, made)
	var faults oddleg.Faults
	for _, err := range []error{wrongMates, wrongJoints} {
		var more oddleg.Faults
		if err != nil && !errors.As(err, &more) {
			return nil, err
		}
		faults = append(faults, more...)
	}
	return &fitted{made, mates, joints}, faults.Err()
}

// print writes it for people.
func (p *fitted) print(w io.Writer, style report.Style) error {
	for _, write := range []func() error{
		func() error { return report.Fit(w, p.made, style) },
		func() error { return report.Mates(w, p.mates, style) },
		func() error { return report.Strength(w, p.joints, style) },
	} {
		if err := write(); err != nil {
			return err
		}
	}
	return nil
}
