package main

import (
	"io"

	"oddleg/adjust"
	"oddleg/blunder"
	"oddleg/facts"
	"oddleg/inspect"
	"oddleg/jobfile"
	"oddleg/meant"
	"oddleg/report"
	"oddleg/series"
	"oddleg/simulate"
)

// found is all that the stages find out about a job.
type found struct {
	result     *adjust.Result
	doubts     []blunder.Doubt
	meaning    *meant.Result
	threads    []series.JobThread
	simulation *simulate.Simulation // nil where none was asked for
	checks     *inspect.Result      // nil where they were not asked for
}

// find reads a job and takes it through the stages.
func find(name string, source []byte) (*found, error) {
	result, err := work(name, source)
	if err != nil {
		return nil, err
	}
	return &found{
		result:  result,
		doubts:  blunder.Explain(result),
		meaning: meant.Round(result, meantTables()),
		threads: series.ThreadsOf(result),
	}, nil
}

// work reads and adjusts a job.
func work(name string, source []byte) (*adjust.Result, error) {
	job, err := jobfile.Read(name, source)
	if err != nil {
		return nil, err
	}
	result, err := adjust.Adjust(job)
	if err != nil {
		return nil, err
	}
	result.Warnings = append(result.Warnings, simulate.SecondOrder(result)...)
	return result, nil
}

// meantTables gathers the standard sizes that a size may be one of.
func meantTables() meant.Tables {
	return meant.Tables{Drills: facts.Drills(), Balls: facts.Balls(), Keys: facts.Keys(), Threads: facts.Threads()}
}

// json writes what is found for other programs.
func (f *found) json(w io.Writer) error {
	additions := []report.Addition{
		report.WithDoubts(f.result, f.doubts), report.WithThreads(f.threads), report.WithMeant(f.result, f.meaning),
	}
	if f.simulation != nil {
		additions = append(additions, report.WithSimulation(f.simulation))
	}
	return report.JSON(w, f.result, additions...)
}

// print writes what is found for people, with the working if that is asked for.
func (f *found) print(w io.Writer, working bool, style report.Style) error {
	if err := report.Table(w, f.result, style, f.doubts...); err != nil {
		return err
	}
	if err := report.Meant(w, f.result, f.meaning, style); err != nil {
		return err
	}
	if err := report.Threads(w, f.threads, style); err != nil {
		return err
	}
	if f.simulation != nil {
		if err := report.Simulation(w, f.result, f.simulation, style); err != nil {
			return err
		}
	}
	if working {
		return report.Working(w, f.result, style)
	}
	return nil
}
