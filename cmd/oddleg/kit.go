package main

import (
	"context"
	"io"
	"slices"

	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// kitCommand looks after the shop's own instruments, gauge pieces and machines.
type kitCommand struct {
	List kitListCommand `cmd:"" default:"withargs" help:"List the kit."`
	Put  kitPutCommand  `cmd:"" help:"Put something in the kit, or in the place of what has its id."`
	Drop kitDropCommand `cmd:"" help:"Take something out of the kit; jobs keep what they say of it."`
}

// kitListCommand lists the kit.
type kitListCommand struct {
	Record recordFlags `embed:""`
	JSON   bool        `name:"json" help:"Print the list as JSON."`
}

// Run prints the kit.
func (c *kitListCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, c.JSON, kitThere)
}

// kitThere tells what is in the kit.
func kitThere(ctx context.Context, shop *store.Store) (answer, error) {
	all, err := shop.Kit(ctx)
	list := make([]say.KitEntry, len(all))
	for i, t := range all {
		list[i] = kitEntry(t)
	}
	return answer{
		says: say.Kit(list),
		json: func(w io.Writer) error { return report.KitJSON(w, list) },
	}, err
}

// kitEntry is something in the kit in the words of a report.
func kitEntry(t record.Tool) say.KitEntry {
	entry := say.KitEntry{
		ID: t.ID, Class: string(t.Class), Kind: t.Kind, Size: t.Size.Text, Tolerance: t.Tolerance, Calibrated: t.Calibrated, Written: t.Written, Say: t.Say,
	}
	if t.Class == record.Piece {
		entry.MM = &t.Size.MM
	}
	return entry
}

// kitDropCommand takes something out of the kit.
type kitDropCommand struct {
	ID     string      `arg:"" help:"What to take out, by its id."`
	Record recordFlags `embed:""`
	JSON   bool        `name:"json" help:"Print the kit that is left as JSON."`
}

// Run takes it out, and prints what is left.
func (c *kitDropCommand) Run(s streams) error {
	return onRecord(s, c.Record.open, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		all, err := shop.Kit(ctx)
		if err != nil {
			return answer{}, err
		}
		if !slices.ContainsFunc(all, func(t record.Tool) bool { return t.ID == c.ID }) {
			return answer{}, wrong("nothing in the kit is called %q", c.ID)
		}
		if err := shop.DropTool(ctx, c.ID); err != nil {
			return answer{}, err
		}
		return kitThere(ctx, shop)
	})
}
