package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// backupCommand copies the whole record to one file.
type backupCommand struct {
	File   string      `arg:"" help:"File to write, which is not there yet; 'oddleg import' makes a record of it again."`
	Record recordFlags `embed:""`
}

// Run copies the record, which has been read through then.
func (c *backupCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, false, func(ctx context.Context, shop *store.Store) (answer, error) {
		if err := shop.Check(ctx); err != nil {
			return answer{}, err
		}
		jobs, err := shop.Jobs(ctx)
		if err != nil {
			return answer{}, err
		}
		return sentence("wrote %s: the whole record, %s, read through and found whole", c.File, jobsText(len(jobs))), shop.Backup(ctx, c.File)
	})
}

func jobsText(n int) string {
	if n == 1 {
		return "1 job"
	}
	return fmt.Sprintf("%d jobs", n)
}

// exportCommand packs a job to be carried to another shop.
type exportCommand struct {
	Job    string      `arg:"" help:"The job, by its id or name."`
	File   string      `arg:"" help:"File to write: NAME.zip."`
	Force  bool        `help:"Overwrite a file that is there already."`
	Record recordFlags `embed:""`
}

// Run writes the job with its photographs.
func (c *exportCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, false, func(ctx context.Context, shop *store.Store) (answer, error) {
		if ending(c.File) != ".zip" {
			return answer{}, wrong("%s: a job is written to a .zip", c.File)
		}
		if err := mayWrite(c.File, c.Force); err != nil {
			return answer{}, err
		}
		err := writeNew(c.File, c.Force, func(w io.Writer) error { return shop.Pack(ctx, c.Job, w) })
		return sentence("wrote %s", c.File), err
	})
}

// importCommand takes in a job, or a whole record.
type importCommand struct {
	File     string      `arg:"" help:"What 'oddleg export' or 'oddleg backup' wrote."`
	Note     string      `help:"Where it comes from." placeholder:"TEXT"`
	Record   recordFlags `embed:""`
	whoFlags `embed:""`
	JSON     bool `name:"json" help:"Print the answer as JSON."`
}

// Run takes in whichever it is.
func (c *importCommand) Run(s streams) error {
	whole, err := store.IsStore(c.File)
	if err != nil {
		return err
	}
	if whole {
		return c.whole(s)
	}
	parcel, err := unpack(c.File)
	if err != nil {
		return refuse(s, c.JSON, err)
	}
	entry, doubt, err := index.Read(c.File, parcel.Source)
	if err != nil {
		return refuse(s, c.JSON, err)
	}
	return onRecord(s, c.Record.make, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		return c.take(ctx, shop, parcel, entry, doubt)
	})
}

// unpack reads a parcel.
func unpack(name string) (*store.Parcel, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return nil, err
	}
	parcel, err := store.Unpack(file, info.Size())
	if err != nil {
		return nil, wrong("%s: %v", name, err)
	}
	return parcel, nil
}

// take keeps what is in a parcel, and says as what.
func (c *importCommand) take(ctx context.Context, shop *store.Store, parcel *store.Parcel, entry record.Index, doubt string) (answer, error) {
	saved, err := shop.Take(ctx, parcel, entry, c.stamp(c.Note))
	if err != nil {
		return answer{}, err
	}
	job, err := shop.Job(ctx, saved.Job)
	if err != nil {
		return answer{}, err
	}
	path, err := c.Record.path()
	kept := say.Keeping{
		Job: say.Recorded(job), Saved: versions([]record.Revision{saved.Revision})[0], Unchanged: saved.Unchanged, Later: versions(saved.Later), Store: path, Doubt: doubt,
	}
	return answer{
		says: say.Kept(kept),
		json: func(w io.Writer) error { return report.KeptJSON(w, kept) },
	}, err
}

// whole makes the record of a backup; there must be none yet.
func (c *importCommand) whole(s streams) error {
	path, err := c.Record.path()
	if err != nil {
		return err
	}
	if c.Record.Shop == "" {
		err = os.MkdirAll(filepath.Dir(path), 0o777)
	}
	if err := errors.Join(err, store.Recover(s.context(), c.File, path)); err != nil {
		return refuse(s, c.JSON, err)
	}
	return onRecord(s, c.Record.open, false, func(ctx context.Context, shop *store.Store) (answer, error) {
		jobs, err := shop.Jobs(ctx)
		return sentence("The record is %s now, with %s.", path, jobsText(len(jobs))), err
	})
}
