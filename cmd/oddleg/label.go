package main

import (
	"context"
	"io"

	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// labelCommand draws the label for the bag of a part.
type labelCommand struct {
	Job    string      `arg:"" help:"The job, by its id or name."`
	File   string      `arg:"" help:"File to write: .svg, .pdf or .dxf."`
	Force  bool        `help:"Overwrite a file that is there already."`
	Record recordFlags `embed:""`
}

// Run writes the label.
func (c *labelCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, false, func(ctx context.Context, shop *store.Store) (answer, error) {
		write, known := sheetWriters[ending(c.File)]
		if !known {
			return answer{}, wrong("%s: a label can be written to .svg, .pdf or .dxf", c.File)
		}
		job, err := shop.Job(ctx, c.Job)
		if err != nil {
			return answer{}, err
		}
		sheet, err := report.Label(say.Recorded(job))
		if err != nil {
			return answer{}, asFault(err)
		}
		if err := mayWrite(c.File, c.Force); err != nil {
			return answer{}, err
		}
		return sentence("wrote %s", c.File), writeNew(c.File, c.Force, func(w io.Writer) error { return write(w, sheet) })
	})
}
