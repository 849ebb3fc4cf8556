package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"

	"oddleg"
	"oddleg/jobfile"
	"oddleg/report"
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
	source, err := readJob(c.File, s.in)
	if err != nil {
		return err
	}
	found, err := find(c.File, source)
	if err == nil {
		found.simulation, err = c.simulate(found.result)
	}
	var faults oddleg.Faults
	switch {
	case errors.As(err, &faults):
		return c.complain(s, source, faults)
	case err != nil:
		return err
	}
	if c.Chart != "" {
		if err := os.WriteFile(c.Chart, report.MeaningChart(found.result, found.meaning), 0o666); err != nil {
			return err
		}
	}
	var page bytes.Buffer
	if c.JSON {
		err = found.json(&page)
	} else {
		err = found.print(&page, c.Working, report.Style{Colour: s.terminal})
	}
	if err != nil {
		return err
	}
	_, err = page.WriteTo(s.out)
	return err
}

// complain tells what is wrong with a job file.
func (c *sizesCommand) complain(s streams, source []byte, faults oddleg.Faults) error {
	if c.JSON {
		if err := report.FaultsJSON(s.out, faults); err != nil {
			return err
		}
		return errReported
	}
	report.Faults(s.complain, c.File, source, faults)
	return errReported
}

// readJob reads a job file, or standard input for the name -. It reads one
// byte more than a job file may have, so that a huge file is refused and not
// swallowed.
func readJob(name string, in io.Reader) ([]byte, error) {
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		defer file.Close()
		in = file
	}
	source, err := io.ReadAll(io.LimitReader(in, jobfile.MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return source, nil
}
