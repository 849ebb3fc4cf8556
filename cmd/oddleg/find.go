package main

import (
	"context"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// findCommand searches the record.
type findCommand struct {
	Words  []string    `arg:"" optional:"" help:"What is sought: a machine, a part, a size (11.11 mm), a thread (7/16 BSW), any word. Nothing lists all jobs."`
	Record recordFlags `embed:""`
	JSON   bool        `name:"json" help:"Print what is found as JSON."`
}

// Run prints what is found.
func (c *findCommand) Run(s streams) error {
	asked := strings.Join(c.Words, " ")
	return onRecord(s, c.Record.open, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		hits, err := findIn(ctx, shop, asked)
		list := findings(hits)
		return answer{
			says: say.Found(asked, list),
			json: func(w io.Writer) error { return report.FoundJSON(w, list) },
		}, err
	})
}

// findIn searches, or lists all jobs where nothing is asked for.
func findIn(ctx context.Context, shop *store.Store, asked string) ([]record.Hit, error) {
	if strings.TrimSpace(asked) != "" {
		return shop.Find(ctx, index.Query(asked))
	}
	jobs, err := shop.Jobs(ctx)
	return hitsOf(jobs), err
}

// findings are hits in the words of a report.
func findings(hits []record.Hit) []say.Finding {
	list := make([]say.Finding, len(hits))
	for i, hit := range hits {
		list[i] = say.Finding{Matched: append([]string{}, hit.Matched...), Missing: append([]string{}, hit.Missing...), Places: append([]string{}, hit.Places...)}
		if hit.Job != nil {
			job := say.Recorded(*hit.Job)
			list[i].Job = &job
			continue
		}
		list[i].Kit = strings.TrimSpace(hit.Tool.ID + ", " + hit.Tool.Kind + " " + hit.Tool.Size.Text)
	}
	return list
}
