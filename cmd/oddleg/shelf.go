package main

import (
	"context"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// shelfCommand records parts made, fitted and on the shelf.
type shelfCommand struct {
	Job      string      `arg:"" optional:"" help:"The job, by its id or name; without it, all there is."`
	Made     int         `help:"How many were made." placeholder:"N"`
	Fitted   int         `help:"How many were fitted." placeholder:"N"`
	Scrapped int         `help:"How many were thrown away." placeholder:"N"`
	Place    string      `help:"Where the rest is." placeholder:"'drawer 4'"`
	Drawing  string      `help:"Revision of the drawing they were made to."`
	Material string      `help:"What they were made of."`
	How      string      `help:"How they were made."`
	Better   string      `help:"What to do better next time."`
	Size     []string    `help:"A size as it came out. May be given several times." sep:"none" placeholder:"'shank=19.02 mm'"`
	Record   recordFlags `embed:""`
	whoFlags `embed:""`
	JSON     bool `name:"json" help:"Print the answer as JSON."`
}

// Run records what is said, and prints what is there.
func (c *shelfCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		if c.Job == "" {
			return c.all(ctx, shop)
		}
		job, err := shop.Job(ctx, c.Job)
		if err != nil {
			return answer{}, err
		}
		if err := c.note(ctx, shop, job.ID); err != nil {
			return answer{}, err
		}
		return shelfOf(ctx, shop, job.ID)
	})
}

// all lists the spares of all jobs.
func (c *shelfCommand) all(ctx context.Context, shop *store.Store) (answer, error) {
	if c.says() {
		return answer{}, wrong("say which job's part it is: oddleg shelf JOB --made 2")
	}
	hits, err := shop.OnShelf(ctx)
	list := findings(hits)
	return answer{
		says: say.Spares(list),
		json: func(w io.Writer) error { return report.FoundJSON(w, list) },
	}, err
}

// says reports whether there is anything to record.
func (c *shelfCommand) says() bool {
	return c.Made != 0 || c.Fitted != 0 || c.Scrapped != 0 || len(c.Size) > 0 || c.Place+c.Drawing+c.Material+c.How+c.Better != ""
}

// note records what the flags say, if they say anything.
func (c *shelfCommand) note(ctx context.Context, shop *store.Store, id string) error {
	if !c.says() {
		return nil
	}
	entry := record.Entry{
		Stamp: c.stamp(""), Job: id, Made: c.Made, Fitted: c.Fitted, Scrapped: c.Scrapped,
		Place: c.Place, Drawing: c.Drawing, Material: c.Material, How: c.How, Better: c.Better,
	}
	for _, text := range c.Size {
		size, err := finalSize(text)
		if err != nil {
			return err
		}
		entry.Sizes = append(entry.Sizes, size)
	}
	_, err := shop.Shelve(ctx, entry)
	return err
}

// finalSize reads "shank=19.02 mm".
func finalSize(text string) (record.Size, error) {
	name, value, found := strings.Cut(text, "=")
	name, value = strings.TrimSpace(name), strings.TrimSpace(value)
	if !found || name == "" {
		return record.Size{}, wrong("--size: %q: a name, = and a length are wanted: 'shank=19.02 mm'", text)
	}
	mm, ok := index.LengthWithUnit(value)
	if !ok {
		_, err := unit.ParseLength(value, unit.Millimetre)
		if err != nil {
			return record.Size{}, wrong("--size: %v", err)
		}
		return record.Size{}, wrong("--size: %q: a length greater than 0 with its unit is wanted: 'shank=19.02 mm'", text)
	}
	return record.Size{Name: name, Text: value, MM: mm}, nil
}

// shelfOf tells what is recorded of a job's parts.
func shelfOf(ctx context.Context, shop *store.Store, id string) (answer, error) {
	job, err := shop.Job(ctx, id)
	if err != nil {
		return answer{}, err
	}
	all, err := shop.Shelf(ctx, id)
	var entries []say.ShelfEntry
	var places []string
	for _, e := range all {
		entries = append(entries, shelfEntry(e))
		if e.Place != "" {
			places = []string{e.Place} // the last is where they are
		}
	}
	return answer{
		says: say.Shelf(say.Recorded(job), places, entries),
		json: func(w io.Writer) error { return report.ShelfJSON(w, say.Recorded(job), places, entries) },
	}, err
}

// shelfEntry is an entry in the words of a report.
func shelfEntry(e record.Entry) say.ShelfEntry {
	entry := say.ShelfEntry{
		When: e.When.Local(), Who: e.Who, Revision: e.Revision, Made: e.Made, Fitted: e.Fitted, Scrapped: e.Scrapped,
		Place: e.Place, Drawing: e.Drawing, Material: e.Material, How: e.How, Better: e.Better, Sizes: []say.FinalSize{},
	}
	for _, size := range e.Sizes {
		entry.Sizes = append(entry.Sizes, say.FinalSize(size))
	}
	return entry
}
