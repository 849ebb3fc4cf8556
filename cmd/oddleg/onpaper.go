package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// paperFlags are what verbs that print share.
type paperFlags struct {
	Paper string `enum:",a4,a3,letter" default:"" help:"Paper: a4, a3 or letter."`
	Date  string `placeholder:"YYYY-MM-DD" help:"Date to print; today's where none is given."`
	Force bool   `help:"Overwrite a file that is there already."`
}

var papers = map[string]ink.Paper{"": ink.AnyPaper, "a4": ink.A4, "a3": ink.A3, "letter": ink.Letter}

// day returns the date to print.
func (f *paperFlags) day(g *given) time.Time {
	if f.Date == "" {
		return today()
	}
	day, err := time.Parse(time.DateOnly, f.Date)
	if err != nil {
		g.wrong("--date: %q is no date: write the year, month and day as 2024-03-01", f.Date)
	}
	return day
}

// today returns the date by the clock.
func today() time.Time {
	now := time.Now()
	return time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
}

// mayWrite refuses to write over a file unless forced.
func mayWrite(path string, force bool) error {
	if _, err := os.Lstat(path); err == nil && !force {
		return fmt.Errorf("%s is there already and is left alone; --force overwrites it", path)
	}
	return nil
}

// writeNew writes a whole file or none, and none over another unless forced.
func writeNew(path string, force bool, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	flags := os.O_WRONLY | os.O_CREATE | os.O_EXCL
	if force {
		flags = os.O_WRONLY | os.O_CREATE | os.O_TRUNC
	}
	file, err := os.OpenFile(path, flags, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return mayWrite(path, force)
	}
	if err != nil {
		return err
	}
	if _, err := b.WriteTo(file); err != nil {
		return errors.Join(err, file.Close(), os.Remove(path))
	}
	return file.Close()
}

// asFault makes what a stage says cannot be drawn a fault of the job.
func asFault(err error) error {
	var faults trade.Faults
	if err == nil || errors.As(err, &faults) {
		return err
	}
	return trade.Faults{{Text: err.Error()}}
}
