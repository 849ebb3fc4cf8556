package main

import (
	"context"
	"io"
	"time"

	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// historyCommand lists the revisions of a job, gives one out, or takes the last
// one back.
type historyCommand struct {
	Job      string      `arg:"" help:"The job, by its id or name."`
	Get      int         `help:"Give out this revision." placeholder:"N" xor:"what"`
	AsOn     string      `help:"Give out the revision that was current then." placeholder:"YYYY-MM-DD[ HH:MM]" xor:"what"`
	To       string      `help:"With --get or --as-on: file to write, which can be kept again later; else it is printed." placeholder:"FILE"`
	Force    bool        `help:"Overwrite a file that is there already."`
	Undo     int         `help:"Take back this revision, the current one." placeholder:"N" xor:"what"`
	Restore  int         `help:"Make what this revision says current again, as a new one." placeholder:"N" xor:"what"`
	Record   recordFlags `embed:""`
	whoFlags `embed:""`
	JSON     bool `name:"json" help:"Print the list as JSON."`
}

// Run does what is asked for.
func (c *historyCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		job, err := shop.Job(ctx, c.Job)
		switch {
		case err != nil:
			return answer{}, err
		case c.Get != 0:
			return c.give(ctx, shop, job, c.Get)
		case c.AsOn != "":
			return c.giveAsOn(ctx, shop, job)
		case c.Undo != 0:
			saved, err := shop.Undo(ctx, job.ID, c.Undo, c.stamp("takes back an earlier save"))
			return broughtBack(saved), err
		case c.Restore != 0:
			saved, err := shop.Restore(ctx, job.ID, c.Restore, c.stamp("brings back an earlier save"))
			return broughtBack(saved), err
		}
		all, err := shop.History(ctx, job.ID)
		return answer{
			says: say.History(say.Recorded(job), versions(all)),
			json: func(w io.Writer) error { return report.HistoryJSON(w, say.Recorded(job), versions(all)) },
		}, err
	})
}

// broughtBack says what became of an undo.
func broughtBack(saved record.Saved) answer {
	return sentence("Revision %d of job %s is current again, as revision %d.", saved.Restores, saved.Job, saved.Number)
}

// giveAsOn gives out the revision that was current at a time.
func (c *historyCommand) giveAsOn(ctx context.Context, shop *store.Store, job record.Job) (answer, error) {
	at, err := momentOf(c.AsOn)
	if err != nil {
		return answer{}, err
	}
	v, err := shop.AsOn(ctx, job.ID, at)
	if err != nil {
		return answer{}, err
	}
	return c.give(ctx, shop, job, v.Number)
}

// momentOf reads a time of this place; a day alone means its end.
func momentOf(text string) (time.Time, error) {
	if day, err := time.ParseInLocation(time.DateOnly, text, time.Local); err == nil {
		return day.AddDate(0, 0, 1).Add(-time.Millisecond), nil
	}
	at, err := time.ParseInLocation("2006-01-02 15:04", text, time.Local)
	if err != nil {
		return at, wrong("--as-on: %q is no date: write the year, month and day as 2024-03-01, or with the time as '2024-03-01 14:30'", text)
	}
	return at, nil
}

// give prints a revision, or writes it to a file that the record then knows.
func (c *historyCommand) give(ctx context.Context, shop *store.Store, job record.Job, number int) (answer, error) {
	source, err := shop.Source(ctx, job.ID, number)
	if err != nil {
		return answer{}, err
	}
	write := func(w io.Writer) error { _, err := w.Write(source); return err }
	if c.To == "" {
		return answer{plain: write, json: write}, nil
	}
	if err := writeNew(c.To, c.Force, write); err != nil {
		return answer{}, err
	}
	return sentence("wrote revision %d of job %s to %s", number, job.ID, c.To), shop.NoteFile(ctx, wholePath(c.To), job.ID, number)
}
