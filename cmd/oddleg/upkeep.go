package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/prove/upkeep"
	"codeberg.org/oddleg/oddleg/show/picture"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// upkeepCommand says what the surveys of a machine tell.
type upkeepCommand struct {
	File         string      `arg:"" help:"The job file (YAML) with surveys; - reads standard input. With --past also a job of the record, by its id or name."`
	Past         bool        `help:"Look at what the record has of the same machine too: all its jobs, and what was taken out of them since. So does --shop."`
	Record       recordFlags `embed:""`
	JSON         bool        `name:"json" help:"Print the answer as JSON (mm, degrees)."`
	pictureFlags `embed:""`
}

// Run prints what was found, and writes its graphs where these are wanted.
func (c *upkeepCommand) Run(s streams) error {
	if !c.Past && c.Record.Shop == "" {
		return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
			job, err := jobfile.Read(c.File, source)
			if err != nil {
				return answer{}, err
			}
			return c.judged(job)
		})
	}
	shop, err := c.Record.open()
	if err != nil {
		return refuse(s, c.JSON, err)
	}
	return errors.Join(c.withPast(s.context(), s, shop), shop.Close())
}

// judged tells what the surveys of a job say.
func (c *upkeepCommand) judged(job *trade.Job) (answer, error) {
	result, err := upkeep.Judge(job)
	if err != nil {
		return answer{}, err
	}
	written, err := c.write(graphs(result))
	return answer{
		says: listed(say.Upkeep(result), written), view: inJob(job),
		json: func(w io.Writer) error { return report.UpkeepJSON(w, result) },
	}, err
}

// withPast tells it together with the surveys of the same machine before.
func (c *upkeepCommand) withPast(ctx context.Context, s streams, shop *store.Store) error {
	source, err := c.source(ctx, s, shop)
	if err != nil {
		return refuse(s, c.JSON, err)
	}
	return onSource(s, c.File, c.JSON, source, func(source []byte) (answer, error) {
		job, err := jobfile.Read(c.File, source)
		if err != nil {
			return answer{}, err
		}
		past, err := pastSurveys(ctx, shop, job.Machine)
		if err != nil {
			return answer{}, err
		}
		return c.judged(withoutImpossible(s, upkeep.Gather(append(past, job))))
	})
}

// source returns the text of the job at hand: that of a file, or, where there is no
// such file, that of a job in the record.
func (c *upkeepCommand) source(ctx context.Context, s streams, shop *store.Store) ([]byte, error) {
	if _, err := os.Stat(c.File); c.File == "-" || !errors.Is(err, fs.ErrNotExist) {
		return readJob(c.File, s.in)
	}
	job, err := shop.Job(ctx, c.File)
	if err != nil {
		return nil, err
	}
	return shop.Source(ctx, job.ID, job.Revision)
}

// The size of a graph by itself, in mm.
const graphWidth, graphHeight = 160.0, 100.0

// graphs are those of all surveys that have one, and of wear over years.
func graphs(r *upkeep.Result) []named {
	var list []named
	units := r.Job.Units
	for i := range r.Answers {
		a := &r.Answers[i]
		if len(a.Plot.Series) == 0 {
			continue
		}
		sheet, err := picture.Survey(a, units, graphWidth, graphHeight)
		list = append(list, named{fmt.Sprintf("%d-%s", i+1, a.Survey.ID), sheet, err})
	}
	for _, trends := range r.Things() {
		sheet, err := picture.Wear(trends, units, graphWidth, graphHeight)
		list = append(list, named{fmt.Sprintf("wear-%s-%s", trends[0].Kind.Name, trends[0].Thing()), sheet, err})
	}
	return list
}
