package main

import (
	"bytes"
	"context"
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

// keepCommand saves a job in the record.
type keepCommand struct {
	File     string      `arg:"" help:"The job file (YAML); - reads standard input."`
	Note     string      `help:"What was changed, or why." placeholder:"TEXT"`
	Photo    []string    `help:"Photograph (JPEG, PNG) to keep with the job; the note is its caption. May be given several times." sep:"none" placeholder:"FILE"`
	Job      string      `help:"The job it is, by id or name; else the one that the file was kept as, or the one of its name on its machine." placeholder:"JOB" xor:"which"`
	New      bool        `help:"It is a new job, whatever its name." xor:"which"`
	From     int         `help:"The revision it was made from, 0 for none; else the one that the file was kept as." default:"-1" placeholder:"N"`
	Merges   int         `help:"The branch that it takes in." placeholder:"N"`
	Record   recordFlags `embed:""`
	whoFlags `embed:""`
	JSON     bool `name:"json" help:"Print the answer as JSON."`
}

// notSaid is a revision that was not named.
const notSaid = -1

// Run saves the job and says as what.
func (c *keepCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (a answer, err error) {
		entry, doubt, err := index.Read(c.File, source)
		if err != nil {
			return a, err
		}
		photos, err := readPhotos(c.Photo)
		if err != nil {
			return a, refuse(s, c.JSON, err)
		}
		shop, err := c.Record.make()
		if err != nil {
			return a, refuse(s, c.JSON, err)
		}
		defer func() { // what went wrong first is told
			if closed := shop.Close(); err == nil {
				err = closed
			}
		}()
		save := record.Save{Stamp: c.stamp(c.Note), Merges: c.Merges, File: wholePath(c.File), Source: source, Index: entry}
		kept, err := c.keep(s.context(), shop, save, photos)
		if err != nil {
			return a, refuse(s, c.JSON, err)
		}
		kept.Doubt = doubt
		return answer{
			says: say.Kept(kept),
			json: func(w io.Writer) error { return report.KeptJSON(w, kept) },
		}, nil
	})
}

// keep saves the job with its photographs.
func (c *keepCommand) keep(ctx context.Context, shop *store.Store, save record.Save, photos [][]byte) (kept say.Keeping, err error) {
	if save.Job, save.From, err = c.origin(ctx, shop, save); err != nil {
		return kept, err
	}
	saved, err := shop.Save(ctx, save)
	if err != nil {
		return kept, err
	}
	for _, data := range photos {
		if _, err := shop.AddPhotograph(ctx, record.Photograph{Stamp: save.Stamp, Job: saved.Job, Data: data}); err != nil {
			return kept, err
		}
	}
	job, err := shop.Job(ctx, saved.Job)
	if err != nil {
		return kept, err
	}
	path, err := c.Record.path()
	return say.Keeping{
		Job: say.Recorded(job), Saved: versions([]record.Revision{saved.Revision})[0], Unchanged: saved.Unchanged, Later: versions(saved.Later), Store: path,
	}, err
}

// origin finds out which job it is and which revision it was made from. Nothing
// is guessed where a guess could hide somebody's work.
func (c *keepCommand) origin(ctx context.Context, shop *store.Store, save record.Save) (id string, from int, err error) {
	if c.New {
		return "", 0, nil
	}
	job, number, known, err := shop.FileKept(ctx, save.File)
	if err != nil {
		return "", 0, err
	}
	if c.Job != "" || !known {
		named, there, err := c.named(ctx, shop, save)
		if err != nil || !there {
			return "", max(0, c.From), err
		}
		if known = known && job == named.ID; !known {
			job, number = named.ID, notSaid
		}
	}
	if c.From != notSaid {
		return job, c.From, nil
	}
	if number == notSaid {
		number, err = sameText(ctx, shop, job, save.Source)
	}
	return job, number, err
}

// named returns the job that was named, or else the one of this name on this
// machine.
func (c *keepCommand) named(ctx context.Context, shop *store.Store, save record.Save) (record.Job, bool, error) {
	if c.Job != "" {
		job, err := shop.Job(ctx, c.Job)
		return job, true, err
	}
	jobs, err := shop.JobsCalled(ctx, save.Index.Name, save.Index.Machine)
	switch {
	case err != nil || len(jobs) == 0:
		return record.Job{}, false, err
	case len(jobs) > 1:
		return record.Job{}, false, wrong("%d jobs in the record are called %q: say which with --job, or --new", len(jobs), save.Index.Name)
	}
	return jobs[0], true, nil
}

// sameText returns the current revision of a job if that is what the file holds:
// from any other text nobody can tell what it was made from.
func sameText(ctx context.Context, shop *store.Store, id string, source []byte) (int, error) {
	job, err := shop.Job(ctx, id)
	if err != nil {
		return 0, err
	}
	current, err := shop.Source(ctx, job.ID, job.Revision)
	if err == nil && !bytes.Equal(current, source) {
		err = wrong("job %s, %s, is in the record already, and this file was not kept before: say with --from which revision it was made from "+
			"(the current one is %d, 0 means none), or --new if it is another job", job.ID, job.Name, job.Revision)
	}
	return job.Revision, err
}

// readPhotos reads pictures, and refuses what is none before anything is saved.
func readPhotos(files []string) ([][]byte, error) {
	var list [][]byte
	for _, name := range files {
		data, err := readPhoto(name)
		if err != nil {
			return nil, err
		}
		if _, err := store.PictureKind(data); err != nil {
			return nil, wrong("%s: %v", name, err)
		}
		list = append(list, data)
	}
	return list, nil
}

// readPhoto reads one byte more than a picture may have.
func readPhoto(name string) ([]byte, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, store.MaxPhotograph+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return data, nil
}

// wholePath returns where a file is, whatever the folder one is in; empty for
// standard input.
func wholePath(name string) string {
	full, err := filepath.Abs(name)
	if name == "-" || err != nil {
		return ""
	}
	return full
}
