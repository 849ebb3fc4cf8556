package main

import (
	"bytes"
	"errors"

	"oddleg"
	"oddleg/advise"
	"oddleg/jobfile"
	"oddleg/report"
)

// expectCommand says what to expect of readings before they are taken.
type expectCommand struct {
	File string `arg:"" help:"The job file (YAML); a reading without saw is planned. - reads standard input."`
	JSON bool   `name:"json" help:"Print what to expect as JSON (mm, degrees)."`
}

// Run prints what to expect.
func (c *expectCommand) Run(s streams) error {
	source, err := readJob(c.File, s.in)
	if err != nil {
		return err
	}
	expectation, err := c.expect(source)
	var faults oddleg.Faults
	switch {
	case errors.As(err, &faults):
		return (&sizesCommand{File: c.File, JSON: c.JSON}).complain(s, source, faults)
	case err != nil:
		return err
	}
	var page bytes.Buffer
	write := func() error { return report.Expected(&page, expectation, report.Style{Colour: s.terminal}) }
	if c.JSON {
		write = func() error { return report.ExpectedJSON(&page, expectation) }
	}
	if err := write(); err != nil {
		return err
	}
	_, err = page.WriteTo(s.out)
	return err
}

func (c *expectCommand) expect(source []byte) (*advise.Expectation, error) {
	job, err := jobfile.ReadPlanned(c.File, source)
	if err != nil {
		return nil, err
	}
	return advise.Expect(job)
}
