package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"oddleg/booklet"
	"oddleg/draw"
	"oddleg/fit"
	"oddleg/paper"
	"oddleg/part"
	"oddleg/report"
)

// sheetCommand puts a job on paper.
type sheetCommand struct {
	File       string `arg:"" help:"The job file (YAML); - reads standard input."`
	To         string `placeholder:"NAME.pdf" help:"File to write; else beside the job file: JOB-sheet.pdf."`
	Checks     bool   `help:"Add how the finished part is read and how it stands, which takes a while."`
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
		found, err := find(c.File, source)
		if err != nil {
			return answer{}, err
		}
		if c.Checks {
			if found.checks, err = found.proved(usualSeed); err != nil {
				return answer{}, err
			}
		}
		_, pages, err := found.onPaper(papers[c.Paper], day)
		if err != nil {
			return answer{}, err
		}
		told := func(w io.Writer, _ report.Style) error {
			_, err := fmt.Fprintf(w, "wrote %s, %s\n", path, pagesText(len(pages)))
			return err
		}
		return answer{print: told}, writeNew(path, c.Force, bound(pages, found.result.Job.Name, day))
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
func bound(pages []*draw.Sheet, title string, day time.Time) func(io.Writer) error {
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

// onPaper draws the part of a job, nil where there is none to draw, and lays out
// all that is found.
func (f *found) onPaper(on draw.Paper, day time.Time) (*draw.Sheet, []*draw.Sheet, error) {
	date := day.Format(time.DateOnly)
	c := report.Contents{Found: f.result, Doubts: f.doubts, Meaning: f.meaning, Threads: f.threads}
	job := f.result.Job
	if job.Part != nil || len(job.Joints) > 0 {
		p, err := f.fitted(usualSeed)
		if err != nil {
			return nil, nil, err
		}
		c.Made, c.Mates, c.Joints = p.made, p.mates, p.joints
	}
	if job.Part != nil {
		var err error
		if c.Drawing, err = f.drawn(c.Made, draw.Options{Paper: on, Units: job.Shown(), Job: job.Name, Date: date}); err != nil {
			c.NoDrawing = err.Error()
		}
		f.planned(&c)
		c.Checked = f.checks
	}
	return c.Drawing, booklet.Pages(report.Chapters(c), booklet.Options{Job: job.Name, Date: date, Paper: on}), nil
}

// planned plans the set-ups where the job lists a shop or an order of work.
func (f *found) planned(c *report.Contents) {
	job := f.result.Job
	if len(job.Shop) == 0 && len(job.Work) == 0 {
		return
	}
	var err error
	if c.SetUps, err = f.setUps(); err != nil {
		c.NoSetUps = err.Error()
	}
}

// drawn draws the part of a job.
func (f *found) drawn(made *fit.Result, o draw.Options) (*draw.Sheet, error) {
	m, err := part.Build(f.result.Job, made, f.result)
	if err != nil {
		return nil, err
	}
	return draw.Part(m, o)
}
