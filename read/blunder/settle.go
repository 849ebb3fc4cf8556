package blunder

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// settle says what would tell the suspects of a doubt apart, nothing where
// only one thing is suspect: a further reading of the size on which they
// disagree most, and pieces and zeros looked at by themselves.
func (s *study) settle(d *doubt) unit.Text {
	if len(d.rivals) < 2 {
		return unit.Text{}
	}
	between, look := s.readBetween(d), s.lookAt(d)
	switch {
	case between.Empty() && look == "":
		return unit.Words("take each of them again, with another instrument or another piece")
	case between.Empty():
		return unit.Words(look)
	case look == "":
		return between
	}
	return unit.Say("%s; or %s", between, look)
}

// lookAt says to measure the gauge pieces and look at the zeros among the
// rivals.
func (s *study) lookAt(d *doubt) string {
	var pieces, zeros []string
	for _, c := range d.rivals {
		switch c.source.Kind {
		case adjust.FromPiece:
			pieces = append(pieces, c.source.ID)
		case adjust.FromInstrument:
			zeros = append(zeros, c.source.ID)
		}
	}
	var ways []string
	if len(pieces) > 0 {
		with := s.instrumentFor(gauge.Ways(trade.Diameter, trade.Outside)[0].Method, d)
		if with != "" {
			with = " with " + with
		}
		ways = append(ways, "measure "+list(pieces)+" by "+itself(len(pieces))+with)
	}
	if len(zeros) > 0 {
		ways = append(ways, "look at the zero of "+list(zeros))
	}
	if len(ways) == 0 {
		return ""
	}
	text := strings.Join(ways, " and ")
	if slices.ContainsFunc(d.rivals, func(c culprit) bool { return c.source.Kind == adjust.FromReading }) {
		text += ": if nothing is wrong there, it is a reading"
	}
	return text
}

func itself(n int) string {
	if n == 1 {
		return "itself"
	}
	return "themselves"
}

// list joins names as a sentence does.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// camp is the rivals by whose fault a size would come out the same.
type camp struct {
	names []string
	size  adjust.Size
}

// readBetween says which size to read once more, and what it would be by the
// fault of one rival or another; nothing where no size tells them apart.
func (s *study) readBetween(d *doubt) unit.Text {
	results := make([]*adjust.Result, len(d.rivals))
	for i, c := range d.rivals {
		if results[i] = s.refit([]*doubt{d}, c.free); results[i] == nil {
			return unit.Text{}
		}
	}
	best, most := -1, []camp{}
	for i := range s.r.Sizes {
		if camps := s.camps(d.rivals, results, i); len(camps) > max(1, len(most)) {
			best, most = i, camps
		}
	}
	if best < 0 {
		return unit.Text{}
	}
	var cases []unit.Text
	for _, c := range most {
		cases = append(cases, unit.Say("about %s if it is %s", about(c.size), strings.Join(c.names, " or ")))
	}
	size := s.r.Job.Size(s.r.Sizes[best].ID)
	return unit.Say("a further reading of %s, %s, would settle it: %s", size.ID, s.byAnotherWay(size, d), unit.Join(cases, ", "))
}

// camps parts the rivals by what a size would be, least first, each well apart
// from the next; nothing where one of them leaves it open.
func (s *study) camps(rivals []culprit, results []*adjust.Result, size int) []camp {
	order := make([]int, len(rivals))
	for i := range order {
		if order[i] = i; !results[i].Sizes[size].Determined {
			return nil
		}
	}
	value := func(i int) adjust.Size { return results[i].Sizes[size] }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(value(a).Value, value(b).Value) })
	var list []camp
	for _, i := range order {
		last := len(list) - 1
		if last >= 0 && value(i).Value-list[last].size.Value <= testLimit*math.Hypot(value(i).U, list[last].size.U) {
			list[last].names = append(list[last].names, s.name(rivals[i]))
			continue
		}
		list = append(list, camp{[]string{s.name(rivals[i])}, value(i)})
	}
	return list
}

// about is a size as a reading would show it; a plain number has no unit to go by.
func about(size adjust.Size) unit.Amount {
	if size.Dimension == unit.Number {
		return unit.Resolved{Value: size.Value, U: size.U, Dimension: unit.Number}
	}
	return unit.Told{Value: size.Value, Dimension: size.Dimension}
}

// name is what the user calls a culprit.
func (s *study) name(c culprit) string {
	switch c.source.Kind {
	case adjust.FromKnown:
		return c.source.ID + " as known"
	case adjust.FromInstrument:
		return "the zero of " + c.source.ID
	case adjust.FromRelation:
		relation := s.r.Job.Relations[c.source.Index]
		return "the relation " + relation.That.Text + " = " + relation.Is.Text
	case adjust.FromReading:
		if reading := s.r.Job.Reading(c.source.ID); len(reading.Saw) > 1 && len(c.values) == 1 {
			return fmt.Sprintf("%s, value %d", c.source.ID, c.values[0]+1)
		}
	}
	return c.source.ID
}

// byAnotherWay names a method for a size, one that the culprits have not used
// where there is one, and an instrument of the kit that they were not read
// with; nothing where the catalogue has none.
func (s *study) byAnotherWay(size *trade.Size, d *doubt) string {
	ways := slices.DeleteFunc(gauge.Ways(size.Kind, size.Surface),
		func(w gauge.Way) bool { return w.Method.ID == trade.FormulaMethod }) // which tells a hand nothing
	if len(ways) == 0 {
		return "by a second method or with another gauge piece"
	}
	way := ways[0].Method
	for _, w := range ways {
		if !d.used(s.r.Job, func(r *trade.Reading) bool { return r.By == w.Method.ID }) {
			way = w.Method
			break
		}
	}
	text := "for instance by `" + way.ID + "`"
	if with := s.instrumentFor(way, d); with != "" {
		text += " with " + with
	}
	return text
}

// used reports whether any reading among the culprits is so.
func (d *doubt) used(job *trade.Job, is func(*trade.Reading) bool) bool {
	return slices.ContainsFunc(d.culprits, func(c culprit) bool {
		return c.source.Kind == adjust.FromReading && is(job.Reading(c.source.ID))
	})
}

// instrumentFor names the finest instrument of the kit for a method that no
// culprit was read with, nothing where there is none.
func (s *study) instrumentFor(m *gauge.Method, d *doubt) string {
	best, finest := "", math.Inf(1)
	for i := range s.r.Job.Instruments {
		instrument := &s.r.Job.Instruments[i]
		stated, err := gauge.ErrorOf(instrument)
		kind, _ := gauge.InstrumentOf(instrument.Kind)
		if err != nil || !kind.Trusted(m) || d.used(s.r.Job, func(r *trade.Reading) bool { return r.With == instrument.ID }) {
			continue
		}
		if u := math.Hypot(stated.Zero, stated.Repeat); u < finest {
			best, finest = instrument.ID, u
		}
	}
	return best
}
