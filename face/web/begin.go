package web

import (
	"context"

	"codeberg.org/oddleg/oddleg/job/record"
)

// Begin puts the examples into a record in which no job has ever been.
func Begin(ctx context.Context, b Bench) error {
	fresh, err := b.Record.Fresh(ctx)
	if err != nil || !fresh {
		return err
	}
	for _, example := range b.Examples {
		index, _ := b.Index(example.Source)
		save := record.Save{Stamp: record.Stamp{When: b.Now(), Note: example.About}, Example: true, Source: example.Source, Index: index}
		if _, err := b.Record.Save(ctx, save); err != nil {
			return err
		}
	}
	return nil
}
