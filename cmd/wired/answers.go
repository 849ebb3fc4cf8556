package wired

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/report"
)

// OnPaper lays out all that is found at these stages as the pages of a job's
// sheet.
func OnPaper(f *reckon.Found, stages []reckon.Stage, o draw.Options) ([]*ink.Sheet, error) {
	chapters, err := report.Chapters(report.Contents{Found: f, Stages: stages, Headed: true, Drawing: o})
	if err != nil {
		return nil, err
	}
	return booklet.Pages(chapters, booklet.Options{Job: o.Job, Date: o.Date, Paper: o.Paper}), nil
}

// mostTrains is how many sets of change gears a page lists.
const mostTrains = 12

// answers says what is asked beside the stages.
type answers struct{}

// Simulation says what a simulation came to.
func (answers) Simulation(r *adjust.Result, s *simulate.Simulation) []booklet.Chapter {
	return report.SimulationChapters(r, s)
}

// ChangeGears says which gears cut a thread.
func (answers) ChangeGears(lathe *trade.Machinery, found *lathe.ChangeGears, length float64) []booklet.Chapter {
	return report.ChangeGearsChapters(lathe, found, length, mostTrains)
}

// Dividing says how a table is turned.
func (answers) Dividing(d *lathe.Dividing) []booklet.Chapter { return report.DividingChapters(d, "") }

// Step says how a size of the part is read.
func (answers) Step(c *inspect.Result, s *inspect.Step) (how, shows string, before []string) {
	return report.InspectionStep(c, s)
}

// Verdict says how a size of a piece stands.
func (answers) Verdict(c *inspect.Result, v *inspect.Verdict) (says, found string, besides []string) {
	return report.VerdictWords(c, v)
}
