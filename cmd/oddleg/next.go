package main

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/near"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// nextCommand says what to read next.
type nextCommand struct {
	File string `arg:"" help:"The job file (YAML); - reads standard input."`
	For  string `help:"The size, hole or circle to know better; else the one that needs it most."`
	Want string `help:"How closely it is wanted, 95 %: 0.02mm, 0.001in, 0.1deg."`
	JSON bool   `name:"json" help:"Print the readings as a JSON list, best first."`
}

// Run prints the readings worth taking.
func (c *nextCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		found, err := find(s.context(), c.File, source, usualSeed)
		if err != nil {
			return answer{}, err
		}
		options, err := c.options(found.Result.Job)
		if err != nil {
			fmt.Fprintf(s.complain, "oddleg: %v\n", err)
			return answer{}, errReported
		}
		advice := advise.Next(s.context(), found.Result, options)
		if advice == nil {
			return answer{}, s.context().Err()
		}
		return answer{
			says: say.Advice(advice), view: inJob(advice.Result.Job),
			json: func(w io.Writer) error { return report.AdviceJSON(w, advice) },
		}, nil
	})
}

// options reads what is wanted; an error says what to write instead.
func (c *nextCommand) options(job *trade.Job) (advise.Options, error) {
	o := advise.Options{For: c.For}
	targets := advise.Targets(job)
	if c.For != "" && !slices.Contains(targets, c.For) {
		hint := ""
		if id, ok := near.Word(c.For, targets); ok {
			hint = fmt.Sprintf("; did you mean %s?", id)
		}
		return o, fmt.Errorf("nothing is called %q that could be known better%s", c.For, hint)
	}
	if c.Want == "" {
		return o, nil
	}
	if c.For == "" {
		return o, errors.New("--want says how closely one size is wanted: name it with --for")
	}
	q, err := readWidth(c.Want, job, c.For)
	if err != nil {
		return o, fmt.Errorf("--want: %w", err)
	}
	if q.Sign() <= 0 {
		return o, fmt.Errorf("--want is %s; it must be more than 0", c.Want)
	}
	o.Want = q.Inside()
	return o, nil
}

// readWidth reads a half width of a size's own kind.
func readWidth(text string, job *trade.Job, id string) (unit.Quantity, error) {
	dimension := unit.Length
	if size := job.Size(id); size != nil {
		dimension = size.Kind.Dimension()
	}
	switch dimension {
	case unit.Angle:
		return unit.ParseAngle(text)
	case unit.Number:
		return unit.ParseNumber(text)
	}
	return unit.ParseLength(text, job.Units)
}
