package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/num/near"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/picture"
	"codeberg.org/oddleg/oddleg/show/solid"
)

// drawCommand draws the part of a job.
type drawCommand struct {
	File       string   `arg:"" help:"The job file (YAML) with a part; - reads standard input."`
	To         []string `required:"" sep:"none" placeholder:"NAME.svg" help:"File to write: .svg, .pdf, .dxf; .stl, .3mf, .step for the solid. May be given several times."`
	Portrait   bool     `xor:"lies" help:"Paper upright."`
	Landscape  bool     `xor:"lies" help:"Paper across, as it lies by itself."`
	ThirdAngle bool     `help:"Third angle projection; first where not given."`
	Mm         bool     `name:"mm" xor:"units" help:"Sizes in millimetres; else as the job has them."`
	Inch       bool     `xor:"units" help:"Sizes in inches."`
	Dual       bool     `xor:"units" help:"Sizes in millimetres, inches in brackets."`
	Scale      string   `placeholder:"1:2" help:"Scale; else the largest that fits."`
	Template   bool     `xor:"what" help:"A template to cut to, 1:1, with bars to prove the printer."`
	Mate       string   `xor:"what" placeholder:"NAME" help:"How the part mates, its gaps drawn wider: these mates of the part."`
	paperFlags `embed:""`
}

// Run draws, and says where.
func (c *drawCommand) Run(s streams) error {
	var g given
	o, day := c.options(&g), c.day(&g)
	o.Date = day.Format(time.DateOnly)
	c.endings(&g)
	if err := g.complain(s, false); err != nil {
		return err
	}
	for _, path := range c.To {
		if err := mayWrite(path, c.Force); err != nil {
			return err
		}
	}
	return onJob(s, c.File, false, func(source []byte) (answer, error) {
		found, err := find(s.context(), c.File, source, usualSeed)
		if err != nil {
			return answer{}, err
		}
		return answer{plain: c.told}, c.draw(found, o, day)
	})
}

// told says where the drawings are.
func (c *drawCommand) told(w io.Writer) error {
	for _, path := range c.To {
		if _, err := fmt.Fprintf(w, "wrote %s\n", path); err != nil {
			return err
		}
	}
	return nil
}

// options reads how the drawing is wanted.
func (c *drawCommand) options(g *given) draw.Options {
	return draw.Options{
		Paper: papers[c.Paper], Portrait: c.Portrait, ThirdAngle: c.ThirdAngle,
		Dual: c.Dual, Scale: scaleOf(g, c.Scale),
	}
}

// scaleOf reads 1:2 or 5:1, 0 where nothing is written.
func scaleOf(g *given, text string) float64 {
	if text == "" {
		return 0
	}
	scale, err := draw.ParseScale(text)
	if err != nil {
		g.wrong("--scale %v", err)
	}
	return scale
}

// solids are the formats of the part as a solid, by the ending of a file.
var solids = map[string]func(io.Writer, *part.Model) error{
	".stl": solid.STL, ".3mf": solid.ThreeMF, ".step": solid.STEP, ".stp": solid.STEP,
}

// endings refuses files that cannot be written.
func (c *drawCommand) endings(g *given) {
	for _, path := range c.To {
		_, flat := sheetWriters[ending(path)]
		_, body := solids[ending(path)]
		switch {
		case !flat && !body:
			g.wrong("--to %s: a drawing can be written to .svg, .pdf or .dxf, a solid to .stl, .3mf or .step", path)
		case body && c.Template:
			g.wrong("--to %s: a template goes on paper: write it to .svg, .pdf or .dxf", path)
		case body && c.Mate != "":
			g.wrong("--to %s: how parts mate is shown on paper: write it to .svg, .pdf or .dxf", path)
		}
	}
}

func ending(path string) string { return strings.ToLower(filepath.Ext(path)) }

// draw writes all files.
func (c *drawCommand) draw(f *reckon.Found, o draw.Options, day time.Time) error {
	o.Units, o.Job = c.units(f.Result.Job.Units), f.Result.Job.Name
	d := drawing{day: day}
	var err error
	if c.Mate != "" {
		d.sheet, err = mateSheet(f, c.Mate, o)
	} else {
		err = c.part(&d, f, o)
	}
	if err != nil {
		return asFault(err)
	}
	return c.files(&d)
}

// files writes all files, or none where one cannot be made.
func (c *drawCommand) files(d *drawing) error {
	made := make([]bytes.Buffer, len(c.To))
	for i, path := range c.To {
		if err := d.write(&made[i], ending(path)); err != nil {
			return asFault(err)
		}
	}
	for i, path := range c.To {
		if err := writeNew(path, c.Force, func(w io.Writer) error { _, err := made[i].WriteTo(w); return err }); err != nil {
			return err
		}
	}
	return nil
}

// units returns those of the drawing.
func (c *drawCommand) units(job unit.Unit) unit.Unit {
	switch {
	case c.Inch:
		return unit.Inch
	case c.Mm || c.Dual:
		return unit.Millimetre
	}
	return job
}

// part draws the part, on paper where a file wants that.
func (c *drawCommand) part(d *drawing, f *reckon.Found, o draw.Options) error {
	var err error
	if d.model, err = f.Model(); err != nil {
		return err
	}
	flat := slices.ContainsFunc(c.To, func(path string) bool { return sheetWriters[ending(path)] != nil })
	switch {
	case !flat:
		return nil
	case c.Template:
		d.sheet, err = draw.Template(d.model, o)
	default:
		d.sheet, err = draw.Part(d.model, o)
	}
	return err
}

// mateMargin is left round a picture of mates on its paper, in mm.
const mateMargin = 15.0

// mateSheet draws how two shapes mate, on paper of its own.
func mateSheet(f *reckon.Found, id string, o draw.Options) (*ink.Sheet, error) {
	p, err := f.Fitted()
	if err != nil {
		return nil, err
	}
	var known []string
	for i := range p.Mates {
		a := &p.Mates[i]
		known = append(known, a.Mate.ID)
		if a.Mate.ID != id {
			continue
		}
		sheet := ink.Blank(o.Paper, o.Portrait)
		sheet.Title = o.Job
		picture, err := picture.Mates(a, o.Units, sheet.Width-2*mateMargin, sheet.Height-2*mateMargin)
		if err != nil {
			return nil, err
		}
		sheet.Put(picture, geom.Point{X: mateMargin, Y: (sheet.Height - picture.Height) / 2})
		sheet.Scale = picture.Scale
		return sheet, nil
	}
	if len(known) == 0 {
		return nil, errors.New("this job has no shapes that mate: write them as mates: under part")
	}
	hint := ""
	if word, ok := near.Word(id, known); ok {
		hint = fmt.Sprintf("; did you mean %s?", word)
	}
	return nil, fmt.Errorf("no mates of this part are called %q, only %s%s", id, strings.Join(known, ", "), hint)
}

// drawing is a part ready to be written in any format.
type drawing struct {
	model *part.Model
	sheet *ink.Sheet
	day   time.Time
}

func (d *drawing) write(w io.Writer, kind string) error {
	if write := solids[kind]; write != nil {
		return write(w, d.model)
	}
	if kind == ".pdf" {
		return bound([]*ink.Sheet{d.sheet}, d.sheet.Title, d.day)(w)
	}
	return sheetWriters[kind](w, d.sheet)
}
