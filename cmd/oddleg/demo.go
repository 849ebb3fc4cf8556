package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
)

// demoCommand writes the example jobs, draws them and works the first through.
type demoCommand struct {
	Folder string `arg:"" optional:"" default:"oddleg-demo" help:"Where to write the example jobs."`
	Force  bool   `help:"Overwrite files that are there already."`
}

// Run writes, draws and works the examples.
func (c *demoCommand) Run(s streams) error {
	jobs := examples.Jobs()
	fmt.Fprintf(s.out, "Three example jobs go into the folder %s, each with its drawing and its sheet for the bench:\n", c.Folder)
	if err := os.MkdirAll(c.Folder, 0o777); err != nil {
		return err
	}
	var first *reckon.Found
	for _, job := range jobs {
		found, err := find(s.context(), job.Name, job.Source, usualSeed)
		if err != nil {
			return err
		}
		if err := c.all(s, job, found); err != nil {
			return err
		}
		if first == nil {
			first = found
		}
	}
	path := filepath.Join(c.Folder, jobs[0].Name)
	fmt.Fprintf(s.out, "\nThe first, worked through as `oddleg sizes --working %s` does:\n\n", path)
	worked := answer{says: (&sizesFound{Found: first}).says(true), view: inJob(first.Result.Job)}
	if err := worked.tell(s, false); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "\nNow yours: copy an example, change it, and run `oddleg sizes FILE`.\n`oddleg methods` lists the ways of taking a reading.\n")
	return nil
}

// all writes one example with all that is drawn of it.
func (c *demoCommand) all(s streams, job examples.Job, found *reckon.Found) error {
	day := today()
	title, shown := found.Result.Job.Name, found.Result.Job.Units
	pages, err := onPaper(found, reckon.Stages(found.Result.Job), ink.AnyPaper, day)
	if err != nil {
		return err
	}
	drawing, err := found.Drawing(draw.Options{Units: shown, Job: title, Date: day.Format(time.DateOnly)})
	if err != nil {
		return err
	}
	name := strings.TrimSuffix(job.Name, filepath.Ext(job.Name))
	for _, file := range []struct {
		name, about string
		write       func(io.Writer) error
	}{
		{job.Name, job.About, func(w io.Writer) error { _, err := w.Write(job.Source); return err }},
		{name + ".svg", "its drawing", func(w io.Writer) error { return paper.SVG(w, drawing) }},
		{name + ".pdf", "the same for a printer", bound([]*ink.Sheet{drawing}, title, day)},
		{name + sheetEnding, "the whole job on " + pagesText(len(pages)), bound(pages, title, day)},
	} {
		if err := c.write(s, file.name, file.about, file.write); err != nil {
			return err
		}
	}
	return nil
}

// write writes one file, and leaves one alone that is there already.
func (c *demoCommand) write(s streams, name, about string, write func(io.Writer) error) error {
	path := filepath.Join(c.Folder, name)
	if mayWrite(path, c.Force) != nil {
		fmt.Fprintf(s.out, "  %-25s is there already and is left alone (--force overwrites it)\n", name)
		return nil
	}
	if err := writeNew(path, c.Force, write); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "  %-25s %s\n", name, about)
	return nil
}
