package main

import (
	"context"
	"io"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// usualSeed is that of the simulations where none is asked for.
const usualSeed = 1

// find reads a job and takes it through the stages, until the context ends.
func find(ctx context.Context, name string, source []byte, seed uint64) (*reckon.Found, error) {
	job, err := jobfile.Read(name, source)
	if err != nil {
		return nil, err
	}
	return reckon.Job(ctx, job, seed)
}

// sizesFound is what there is to say of sizes, with a simulation where one was
// asked for.
type sizesFound struct {
	*reckon.Found
	simulation *simulate.Simulation
}

// json writes it for other programs.
func (f *sizesFound) json(w io.Writer) error {
	additions := []report.Addition{
		report.WithDoubts(f.Result, f.Doubts()), report.WithThreads(f.Result, f.Threads()), report.WithMeant(f.Result, f.Meaning()),
	}
	if f.simulation != nil {
		additions = append(additions, report.WithSimulation(f.simulation))
	}
	return report.JSON(w, f.Result, additions...)
}

// says puts it into words, with the working if that is asked for.
func (f *sizesFound) says(working bool) *doc.Document {
	d := say.Sizes(f.Result, f.Doubts())
	d.Append(say.Meant(f.Result, f.Meaning()), say.Threads(f.Threads()))
	if f.simulation != nil {
		d.Append(say.Simulation(f.simulation))
	}
	if working {
		d.Append(say.Working(f.Result))
	}
	return d
}
