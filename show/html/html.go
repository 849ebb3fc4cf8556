// Package html shows a document in a page.
//
// A heading of level 1 begins a section. Columns to write in and pictures made of
// letters are left out. Each tone, weight and verdict is a class; how it looks is
// the page's business, and so is where references and actions lead: Options asks
// it. What leads nowhere is told in words.
package html

import (
	"bytes"
	"context"
	"io"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Options says how a document is shown, and where things are. A function that is
// nil knows no place.
type Options struct {
	View   unit.View
	Refer  func(doc.Ref) (path string)     // where a thing of the job is; "" for nowhere
	Do     func(*doc.Action) (path string) // where something can be done
	Inline func(w io.Writer, s *ink.Sheet) error
}

// Text shows a document as HTML.
func Text(ctx context.Context, d *doc.Document, o Options) (string, error) {
	var b bytes.Buffer
	err := Document(d, o).Render(ctx, &b)
	return b.String(), err
}

// section is a chapter of a document.
type section struct {
	title  doc.Text
	blocks []doc.Block
}

// sections cuts a document into its chapters.
func sections(d *doc.Document) []section {
	list := []section{{}}
	for _, b := range d.Blocks {
		if h, ok := b.(doc.Heading); ok && h.Level == 1 {
			list = append(list, section{title: h.Words})
			continue
		}
		last := &list[len(list)-1]
		last.blocks = append(last.blocks, b)
	}
	return slices.DeleteFunc(list, func(s section) bool { return s.title == nil && len(s.blocks) == 0 })
}

// The classes of tones, weights and spaces.
var (
	tones   = map[doc.Tone]string{doc.Strong: "strong", doc.Quiet: "quiet", doc.Warning: "warning", doc.Alarm: "alarm"}
	weights = map[doc.Weight]string{doc.Small: "small", doc.Figures: "figure", doc.Large: "large"}
)

func paragraphClass(p doc.Paragraph) string {
	class := []string{weights[p.Weight]}
	if p.Indent > 0 || p.Mark != "" {
		class = append(class, "in")
	}
	if p.Space == doc.Close {
		class = append(class, "close")
	}
	if p.Whole {
		class = append(class, "whole")
	}
	return strings.Join(slices.DeleteFunc(class, func(c string) bool { return c == "" }), " ")
}

// cellClass says how a cell looks: the first of a row, which names it, is strong.
func cellClass(c *doc.Column, first bool) string {
	class := []string{weights[c.Weight], tones[c.Tone]}
	if first && c.Tone == doc.Even {
		class[1] = tones[doc.Strong]
	}
	if c.Right {
		class = append(class, "right")
	}
	return strings.Join(slices.DeleteFunc(class, func(c string) bool { return c == "" }), " ")
}

// shows reports whether what is meant for some media stands in a page.
func shows(w doc.Where) bool { return w == doc.Everywhere || w == doc.Roomy }

// shown are the columns that a page shows.
func shown(t *doc.Table) []*doc.Column {
	var list []*doc.Column
	for i := range t.Columns {
		if c := &t.Columns[i]; shows(c.Where) {
			list = append(list, c)
		}
	}
	return list
}

// headed reports whether any column has a head.
func (o Options) headed(columns []*doc.Column) bool {
	return slices.ContainsFunc(columns, func(c *doc.Column) bool { return o.head(c) != "" })
}

func (o Options) head(c *doc.Column) string { return c.Heading().Shown(c.View.Of(o.View)) }

// label says what a table that can be moved sideways shows.
func (o Options) label(columns []*doc.Column) string {
	var heads []string
	for _, c := range columns {
		if head := o.head(c); head != "" {
			heads = append(heads, head)
		}
	}
	if len(heads) == 0 {
		return "table"
	}
	return "table: " + strings.Join(heads, ", ")
}

// in returns the options as a column has them.
func (o Options) in(c *doc.Column) Options {
	o.View = c.View.Of(o.View)
	return o
}

// link returns where a span leads, and what it says.
func (o Options) link(s *doc.Span) (path, words string) {
	switch {
	case s.Do != nil && o.Do != nil && o.Do(s.Do) != "":
		return o.Do(s.Do), s.Do.Words
	case s.Of.Kind != doc.Nothing && o.Refer != nil:
		path = o.Refer(s.Of)
	}
	return path, s.Shown(o.View)
}

func (o Options) sheet(s *ink.Sheet) (string, error) {
	if s == nil || o.Inline == nil {
		return "", nil
	}
	var b bytes.Buffer
	err := o.Inline(&b, s)
	return b.String(), err
}
