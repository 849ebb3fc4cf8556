package main

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"oddleg"
	"oddleg/advise"
	"oddleg/near"
	"oddleg/report"
	"oddleg/unit"
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
	source, err := readJob(c.File, s.in)
	if err != nil {
		return err
	}
	result, err := work(c.File, source)
	var faults oddleg.Faults
	switch {
	case errors.As(err, &faults):
		return (&sizesCommand{File: c.File, JSON: c.JSON}).complain(s, source, faults)
	case err != nil:
		return err
	}
	options, err := c.options(result.Job)
	if err != nil {
		fmt.Fprintf(s.complain, "oddleg: %v\n", err)
		return errReported
	}
	return c.print(s, advise.Next(result, options))
}

func (c *nextCommand) print(s streams, advice *advise.Advice) error {
	var page bytes.Buffer
	write := func() error { return report.Advice(&page, advice, report.Style{Colour: s.terminal}) }
	if c.JSON {
		write = func() error { return report.AdviceJSON(&page, advice) }
	}
	if err := write(); err != nil {
		return err
	}
	_, err := page.WriteTo(s.out)
	return err
}

// options reads what is wanted; an error says what to write instead.
func (c *nextCommand) options(job *oddleg.Job) (advise.Options, error) {
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
func readWidth(text string, job *oddleg.Job, id string) (unit.Quantity, error) {
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
