package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"oddleg/examples"
	"oddleg/report"
)

// demoCommand writes the example jobs and works the first through.
type demoCommand struct {
	Folder string `arg:"" optional:"" default:"oddleg-demo" help:"Where to write the example jobs."`
	Force  bool   `help:"Overwrite files that are there already."`
}

// Run writes and works the examples.
func (c *demoCommand) Run(s streams) error {
	jobs := examples.Jobs()
	fmt.Fprintf(s.out, "Three example jobs go into the folder %s:\n", c.Folder)
	if err := os.MkdirAll(c.Folder, 0o777); err != nil {
		return err
	}
	for _, job := range jobs {
		if err := c.write(s, job); err != nil {
			return err
		}
	}
	first := filepath.Join(c.Folder, jobs[0].Name)
	fmt.Fprintf(s.out, "\nThe first, worked through as `oddleg sizes --working %s` does:\n\n", first)
	found, err := find(first, jobs[0].Source)
	if err != nil {
		return err
	}
	if err := found.print(s.out, true, report.Style{Colour: s.terminal}); err != nil {
		return err
	}
	fmt.Fprintf(s.out, "\nNow yours: copy an example, change it, and run `oddleg sizes FILE`.\n`oddleg methods` lists the ways of taking a reading.\n")
	return nil
}

// write writes one example, and leaves a file alone that is there already.
func (c *demoCommand) write(s streams, job examples.Job) error {
	path := filepath.Join(c.Folder, job.Name)
	flags := os.O_WRONLY | os.O_CREATE | os.O_EXCL
	if c.Force {
		flags = os.O_WRONLY | os.O_CREATE | os.O_TRUNC
	}
	file, err := os.OpenFile(path, flags, 0o666)
	if errors.Is(err, fs.ErrExist) {
		fmt.Fprintf(s.out, "  %-24s is there already and is left alone (--force overwrites it)\n", job.Name)
		return nil
	}
	if err != nil {
		return err
	}
	if _, err := file.Write(job.Source); err != nil {
		return errors.Join(err, file.Close())
	}
	fmt.Fprintf(s.out, "  %-24s %s\n", job.Name, job.About)
	return file.Close()
}
