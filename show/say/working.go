package say

import (
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// Working says how the sizes came about: every reading's formula with its numbers
// put in, what each instrument and gauge piece turned out to be, and where the
// variance of each size comes from.
func Working(r *adjust.Result) *doc.Document {
	f := &findings{page: &page{}, r: r}
	f.formulas()
	f.relations()
	f.kit()
	f.shares()
	return &f.Document
}

// WorkingOf says it of every reading that has to do with a size.
func WorkingOf(r *adjust.Result, id string) *doc.Document {
	f := &findings{page: &page{}, r: r}
	f.chapter("Worked with its numbers")
	for _, w := range r.Workings() {
		if holds(w.Reading, id) {
			f.worked(w)
		}
	}
	return &f.Document
}

// holds reports whether a reading has to do with a size, gauge piece or hole.
func holds(r *trade.Reading, id string) bool {
	return slices.ContainsFunc(r.Of, func(a trade.Arg) bool { return a.ID == id }) ||
		slices.Contains(r.That.Names(), id)
}

// formulas says every reading with its numbers put in.
func (f *findings) formulas() {
	f.chapter("Readings, worked")
	for _, w := range f.r.Workings() {
		f.worked(w)
	}
}

// worked says one reading with its numbers put in.
func (f *findings) worked(w adjust.Working) {
	id := doc.In(doc.Strong, doc.Name(doc.Reading, w.Reading.ID))
	f.Add(doc.Paragraph{Words: doc.Say("%s  %s%s", id, w.Reading.By, remark(w)), Space: doc.Apart, Whole: true, Keeps: true, Weight: doc.Small})
	f.figures("m = %s", strings.TrimPrefix(w.Formula, "m = "))
	if !w.Touch {
		f.figures("  = %s", numbers(w))
		f.figures("  = %s%s", fine(w.Model, w.Dimension), extras(w))
	}
	for _, v := range f.r.Readings {
		if v.ID == w.Reading.ID {
			f.figures("saw %s: residual %s%s", seen(w.Reading, v), signed(v.Residual, v.Dimension), standing(v))
		}
	}
}

// figures says one line of a working.
func (f *findings) figures(format string, args ...any) {
	f.Add(doc.Paragraph{Words: doc.Say(format, args...), Indent: 1, Space: doc.Close, Whole: true, Weight: doc.Small})
}

// numbers is a formula with its numbers put in: lengths without their unit.
func numbers(w adjust.Working) unit.Amount {
	return unit.Written(func(v unit.View) string {
		return strings.TrimPrefix(w.Numbers(func(x float64, d unit.Dimension) string {
			return unit.Fine{Value: x, Dimension: d, Bare: true}.Shown(v)
		}), "m = ")
	})
}

// fine is an amount to one place more than elsewhere, so that the working can be
// followed to the last place of the reading.
func fine(x float64, d unit.Dimension) unit.Amount { return unit.Fine{Value: x, Dimension: d} }

// signed is a fine amount with its sign.
func signed(x float64, d unit.Dimension) unit.Amount {
	return unit.Fine{Value: x, Dimension: d, Signed: true}
}

func remark(w adjust.Working) string {
	if !w.Used {
		return "  (set aside)"
	}
	if w.Reading.Say != "" {
		return "  " + w.Reading.Say
	}
	return ""
}

// extras says what the instrument's zero and the seating add.
func extras(w adjust.Working) doc.Text {
	var text doc.Text
	total := w.Model
	for _, extra := range []struct {
		name  string
		value float64
	}{{"zero of " + w.Reading.With, w.Zero}, {"seating", w.Feel}} {
		if extra.value != 0 {
			total += extra.value
			text = doc.Say("%s, with the %s %s", text, extra.name, signed(extra.value, w.Dimension))
		}
	}
	if text != nil {
		text = doc.Say("%s: %s", text, fine(total, w.Dimension))
	}
	return text
}

func seen(r *trade.Reading, v adjust.Value) doc.Text {
	if r.GoNoGo() {
		return doc.Say("between the piece that goes and the one that stops, about %s", amount(v.Saw[0], v.Dimension))
	}
	return saw(v)
}

// standing says how far out a value is and how large a slip would be seen.
func standing(v adjust.Value) doc.Text {
	switch {
	case v.SetAside:
		return doc.Plain(", set aside")
	case math.IsInf(v.SmallestCatchable, 1):
		return doc.Plain("; nothing checks it")
	}
	return doc.Say(", %.1f standard deviations; a slip of %s would be seen", v.Normalised, amount(v.SmallestCatchable, v.Dimension))
}

// relations says how the inexact relations stand.
func (f *findings) relations() {
	var lines []doc.Text
	for _, t := range f.r.Relations {
		lines = append(lines, doc.Say("%s: %.1f standard deviations", relation(&f.r.Job.Relations[t.Index]), t.Normalised))
	}
	f.list("Relations", lines)
}

// kit says what each instrument and gauge piece turned out to be.
func (f *findings) kit() {
	f.chapter("The kit, as the readings have it")
	t := &doc.Table{Name: "kit", Columns: []doc.Column{
		{Name: "id"}, plain("turned out"), {Name: "within", Head: within()}, {Name: "remark"},
	}}
	for _, z := range f.r.Instruments {
		t.Add(doc.Cells{
			"id": doc.Name(doc.Instrument, z.ID), "turned out": doc.Say("zero %s", signed(z.Value, z.Dimension)),
			"within": doc.Show(fine(half(z.U), z.Dimension)), "remark": kitRemark(z.Test),
		})
	}
	for _, piece := range f.r.Pieces {
		uncertainty := doc.Show(fine(half(piece.U), unit.Length))
		if piece.Exact {
			uncertainty = doc.Plain("taken as exact")
		}
		t.Add(doc.Cells{
			"id": doc.Plain(piece.ID), "turned out": doc.Show(fine(piece.Value, unit.Length)),
			"within": uncertainty, "remark": kitRemark(piece.Test),
		})
	}
	f.Add(t)
}

func kitRemark(t adjust.Test) doc.Text {
	if t.Suspect {
		return doc.Judged(doc.Bad, "suspect")
	}
	return nil
}

// leastShare is the share of a variance from which on it is told.
const leastShare = 0.005

// shares says where each size's variance comes from.
func (f *findings) shares() {
	f.chapter("Where the uncertainty of each size comes from (shares of its variance)")
	for _, s := range f.r.Sizes {
		var parts []doc.Text
		for _, share := range f.r.Shares(s.ID) {
			if share.Part < leastShare && len(parts) > 0 {
				break
			}
			parts = append(parts, doc.Say("%s %.0f %%", f.shareName(share.Source), 100*share.Part))
		}
		if len(parts) > 0 {
			f.Add(doc.Paragraph{Words: doc.Say("%s: %s", sized(s.ID), doc.Join(parts, ", ")), Weight: doc.Small})
		}
	}
}

// shareName names where part of an uncertainty comes from.
func (f *findings) shareName(s adjust.Source) doc.Text {
	switch s.Kind {
	case adjust.FromReading:
		return doc.Say("reading %s", doc.Name(doc.Reading, s.ID))
	case adjust.FromInstrument:
		return doc.Say("zero of %s", doc.Name(doc.Instrument, s.ID))
	}
	return f.sourceName(s)
}
