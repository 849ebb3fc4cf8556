package web

import (
	"context"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/job/record"
)

// Begin puts the examples into a record in which no job has ever been.
func Begin(ctx context.Context, c Config) error {
	fresh, err := c.Record.Fresh(ctx)
	if err != nil || !fresh {
		return err
	}
	for _, example := range examples.Jobs() {
		save := record.Save{Stamp: record.Stamp{When: c.Now(), Note: example.About}, Example: true, Source: example.Source, Index: index.Any(example.Source)}
		if _, err := c.Record.Save(ctx, save); err != nil {
			return err
		}
	}
	return nil
}
