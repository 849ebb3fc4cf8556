package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/alecthomas/kong"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/num/near"
	"codeberg.org/oddleg/oddleg/show/manual"
	"codeberg.org/oddleg/oddleg/show/term"
)

// helpCommand shows the help of the program, of one command, or of the job file.
type helpCommand struct {
	Command  []string `arg:"" optional:"" help:"The command to explain, or 'job' and a section of the job file (kit, readings, part.sizes ...)."`
	Schema   bool     `xor:"to" help:"With 'job': print a JSON Schema of the job file, for an editor."`
	Handbook string   `xor:"to" placeholder:"FOLDER" help:"With 'job': write job-file.md, all sections, into a folder."`
}

// aboutJobs is the word for the job file.
const aboutJobs = "job"

// Run shows the help.
func (c *helpCommand) Run(s streams, parser *kong.Kong) error {
	switch {
	case len(c.Command) > 0 && c.Command[0] == aboutJobs:
		return c.job(s)
	case c.Schema || c.Handbook != "":
		fmt.Fprintln(s.complain, "oddleg: --schema and --handbook are of the job file: oddleg help job --schema")
		return errReported
	}
	context, err := kong.Trace(parser, c.Command)
	if err != nil {
		return err
	}
	if context.Error != nil {
		return context.Error
	}
	return context.PrintUsage(false)
}

// job explains the job file, or one section of it.
func (c *helpCommand) job(s streams) error {
	file := keys.File()
	switch {
	case c.Schema:
		_, err := s.out.Write(file.Schema())
		return err
	case c.Handbook != "":
		if err := os.MkdirAll(c.Handbook, 0o777); err != nil {
			return err
		}
		return writeFile(filepath.Join(c.Handbook, "job-file.md"), func(w io.Writer) error { return manual.Handbook(w, file) })
	case len(c.Command) == 1:
		return term.Write(s.out, manual.Contents(file), term.Options{Colour: s.terminal})
	}
	page, found := manual.Section(file, c.Command[1])
	if !found || len(c.Command) > 2 {
		return noSection(s, file, c.Command[len(c.Command)-1])
	}
	return term.Write(s.out, page, term.Options{Colour: s.terminal})
}

// noSection complains of a section that there is not.
func noSection(s streams, file *keys.Entry, name string) error {
	var names []string
	for _, e := range file.Described() {
		names = append(names, e.Name)
	}
	hint := "; `oddleg help job` lists them"
	if likely, found := near.Word(name, names); found {
		hint = "; did you mean " + likely + "?"
	}
	fmt.Fprintf(s.complain, "oddleg: the job file has no section %q%s\n", name, hint)
	return errReported
}
