package main

import (
	"context"
	"errors"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"unicode"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// kitPutCommand puts something in the kit.
type kitPutCommand struct {
	ID         string      `arg:"" help:"What jobs call it: letters, figures and _."`
	Kind       string      `required:"" help:"micrometer, caliper, dial, roller, ball, lathe, mill ..." placeholder:"KIND"`
	Resolution string      `help:"Step of an instrument's scale or display." placeholder:"'0.01 mm'"`
	MPE        string      `name:"mpe" help:"Its maximum permissible error, ±." placeholder:"'0.01 mm'"`
	Zero       string      `help:"Standard uncertainty of its zero." placeholder:"'0.003 mm'"`
	Repeat     string      `help:"Standard uncertainty of one reading." placeholder:"'0.002 mm'"`
	Size       string      `help:"Of a gauge piece." placeholder:"'6 mm'"`
	Tolerance  string      `help:"Of a gauge piece, ±." placeholder:"'0.002 mm'"`
	Calibrated string      `help:"When it was last calibrated." placeholder:"YYYY-MM-DD"`
	Has        string      `help:"What a machine has, as a job file says it under shop:." placeholder:"'leadscrew: 8 tpi, gears: [20, 25]'"`
	Say        string      `help:"Anything else." placeholder:"TEXT"`
	Record     recordFlags `embed:""`
	JSON       bool        `name:"json" help:"Print the kit as JSON."`
}

// Run puts it there, and prints the kit.
func (c *kitPutCommand) Run(s streams) error {
	tool, err := c.tool()
	if err != nil {
		return refuse(s, c.JSON, err)
	}
	return onRecord(s, c.Record.make, c.JSON, func(ctx context.Context, shop *store.Store) (answer, error) {
		if err := shop.PutTool(ctx, tool); err != nil {
			return answer{}, err
		}
		return kitThere(ctx, shop)
	})
}

// tool is what the flags describe, where a job file would take it.
func (c *kitPutCommand) tool() (record.Tool, error) {
	metric, err := c.read("mm")
	if err != nil {
		return record.Tool{}, err
	}
	inch, err := c.read("in")
	if err != nil {
		return record.Tool{}, err
	}
	if !reflect.DeepEqual(described(metric), described(inch)) {
		return record.Tool{}, wrong("%s: a figure without its unit could be mm or inches: write '0.01 mm'", c.ID)
	}
	tool := record.Tool{ID: c.ID, Kind: c.Kind, Tolerance: c.Tolerance, Calibrated: c.Calibrated, Written: c.Has, Say: c.Say}
	switch {
	case len(metric.Shop) > 0:
		tool.Class = record.Machine
	case len(metric.Pieces) > 0:
		tool.Class, tool.Size = record.Piece, record.Size{Text: c.Size, MM: metric.Pieces[0].Size.Inside()}
	default:
		tool.Class, tool.Written = record.Instrument, c.shows()
	}
	return tool, nil
}

// described returns what a job has of kit and machines.
func described(job *trade.Job) []any { return []any{job.Instruments, job.Pieces, job.Shop} }

// read reads the thing as one of a job in these units. An error is trade.Faults.
func (c *kitPutCommand) read(units string) (*trade.Job, error) {
	for _, text := range []string{c.ID, c.Kind, c.Resolution, c.MPE, c.Zero, c.Repeat, c.Size, c.Tolerance, c.Has, c.Say} {
		if strings.ContainsFunc(text, unicode.IsControl) {
			return nil, wrong("%s: %q has a sign in it that cannot be written in one line", c.ID, text)
		}
	}
	section := "kit"
	if c.isMachine() {
		section = "shop"
	}
	source := fmt.Sprintf("oddleg: 1\njob: Kit\nunits: %s\n%s:\n  %s: {%s}\n", units, section, quoted(c.ID), strings.Join(c.keys(), ", "))
	job, err := jobfile.Read("", []byte(source))
	var faults trade.Faults
	if errors.As(err, &faults) {
		for i := range faults {
			faults[i].Pos = trade.Pos{} // in a text that nobody wrote
		}
		return nil, faults
	}
	return job, err
}

// isMachine reports whether it belongs in the shop section of a job. What is of
// kind other is a machine where it is said what it has.
func (c *kitPutCommand) isMachine() bool {
	kind := trade.MachineKind(c.Kind)
	return c.Has != "" || kind != trade.OtherKind && slices.Contains(trade.MachineKinds, kind)
}

// keys are those of the entry in a job file. What a machine has stands first: if it
// closed the entry, the rest would be amiss.
func (c *kitPutCommand) keys() []string {
	var list []string
	if c.Has != "" {
		list = append(list, c.Has)
	}
	for _, key := range [][2]string{
		{"kind", c.Kind},
		{"resolution", c.Resolution},
		{"mpe", c.MPE},
		{"zero", c.Zero},
		{"repeat", c.Repeat},
		{"size", c.Size},
		{"tolerance", c.Tolerance},
		{"say", c.Say},
	} {
		if key[1] != "" {
			list = append(list, key[0]+": "+quoted(key[1]))
		}
	}
	return list
}

// quoted is a text as YAML takes it for nothing but a text.
func quoted(text string) string { return "'" + strings.ReplaceAll(text, "'", "''") + "'" }

// shows is what an instrument states, as a job file has it.
func (c *kitPutCommand) shows() string {
	var list []string
	for _, key := range [][2]string{{"resolution", c.Resolution}, {"mpe", c.MPE}, {"zero", c.Zero}, {"repeat", c.Repeat}} {
		if key[1] != "" {
			list = append(list, key[0]+": "+key[1])
		}
	}
	return strings.Join(list, ", ")
}
