package report

import (
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/say"
)

// OnPaper lays out all that is found at these stages as the pages of a job's sheet.
func OnPaper(f *reckon.Found, stages []reckon.Stage, o draw.Options) ([]*ink.Sheet, error) {
	d, err := say.Sheet(say.Contents{Found: f, Stages: stages, Headed: true, Drawing: o})
	if err != nil {
		return nil, err
	}
	return booklet.Document(d, booklet.Options{Job: o.Job, Date: o.Date, Paper: o.Paper, View: unit.View{In: o.Units}}), nil
}
