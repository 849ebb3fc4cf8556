package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
	"codeberg.org/oddleg/oddleg/show/report"
)

// sheetCommand puts a job on paper.
type sheetCommand struct {
	File       string `arg:"" help:"The job file (YAML); - reads standard input."`
	To         string `placeholder:"NAME.pdf" help:"File to write; else beside the job file: JOB-sheet.pdf."`
	paperFlags `embed:""`
}

// Run writes the booklet, and says where.
func (c *sheetCommand) Run(s streams) error {
	var g given
	day, path := c.day(&g), c.path(&g)
	if err := g.complain(s, false); err != nil {
		return err
	}
	if err := mayWrite(path, c.Force); err != nil {
		return err
	}
	return onJob(s, c.File, false, func(source []byte) (answer, error) {
		found, err := find(s.context(), c.File, source, usualSeed)
		if err != nil {
			return answer{}, err
		}
		job := found.Result.Job
		pages, err := onPaper(found, reckon.Stages(job), papers[c.Paper], day)
		if err != nil {
			return answer{}, err
		}
		told := func(w io.Writer) error {
			_, err := fmt.Fprintf(w, "wrote %s, %s\n", path, pagesText(len(pages)))
			return err
		}
		return answer{plain: told}, writeNew(path, c.Force, bound(pages, job.Name, day))
	})
}

func pagesText(n int) string {
	if n == 1 {
		return "1 page"
	}
	return fmt.Sprintf("%d pages", n)
}

// sheetEnding follows the name of a job file in that of its sheet.
const sheetEnding = "-sheet.pdf"

// bound returns what writes pages as one PDF.
func bound(pages []*ink.Sheet, title string, day time.Time) func(io.Writer) error {
	return func(w io.Writer) error { return paper.PDF(w, pages, paper.About{Title: title, Date: day}) }
}

// path returns the file to write.
func (c *sheetCommand) path(g *given) string {
	switch {
	case c.To == "" && c.File == "-":
		g.wrong("--to is wanted where the job comes from standard input")
	case c.To == "":
		return strings.TrimSuffix(c.File, filepath.Ext(c.File)) + sheetEnding
	case ending(c.To) != ".pdf":
		g.wrong("--to %s: the sheet is written to .pdf", c.To)
	}
	return c.To
}

// onPaper lays out all that is found, in the order of the stages.
func onPaper(f *reckon.Found, stages []reckon.Stage, on ink.Paper, day time.Time) ([]*ink.Sheet, error) {
	job := f.Result.Job
	return report.OnPaper(f, stages, draw.Options{Paper: on, Units: job.Units, Job: job.Name, Date: day.Format(time.DateOnly)})
}
