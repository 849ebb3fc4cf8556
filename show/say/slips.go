package say

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// mostSizes is how many sizes an explanation names.
const mostSizes = 3

// explained returns the lines under a suspect: what may have gone wrong. Each
// explanation stands under the last suspect of its doubt that it corrects, so that
// what several share is said once.
func (f *findings) explained(s adjust.Source, order []adjust.Source) []doc.Text {
	var lines []doc.Text
	for _, d := range f.doubts {
		if !slices.Contains(d.Suspects, s) {
			continue
		}
		for _, e := range d.Perhaps {
			if standsUnder(d, e, order) == s {
				lines = append(lines, f.explanation(s, e))
			}
		}
		if last := lastOf(d.Suspects, order); last == s {
			lines = append(lines, otherwiseSlipped(d)...)
		}
	}
	return lines
}

// otherwiseSlipped says how likely it is that none of the explanations is right.
func otherwiseSlipped(d blunder.Doubt) []doc.Text {
	switch {
	case d.Other == 0 && len(d.Perhaps) == 0:
		return nil
	case len(d.Perhaps) == 0:
		return []doc.Text{doc.Plain("none of the usual slips explains it")}
	case d.Other < leastOther:
		return nil
	}
	return []doc.Text{doc.Say("or some other slip (%s)", percent(d.Other))}
}

// leastOther is the probability from which on some other slip is spoken of.
const leastOther = 0.01

// standsUnder is the suspect under which an explanation stands.
func standsUnder(d blunder.Doubt, e blunder.Explanation, order []adjust.Source) adjust.Source {
	corrected := slices.DeleteFunc(slices.Clone(d.Suspects), func(s adjust.Source) bool {
		return !slices.ContainsFunc(e.Corrected, func(c blunder.Correction) bool { return c.Source == s })
	})
	if len(corrected) == 0 {
		corrected = d.Suspects
	}
	return lastOf(corrected, order)
}

// lastOf returns the one of the sources that comes last in order.
func lastOf(sources, order []adjust.Source) adjust.Source {
	for _, s := range slices.Backward(order) {
		if slices.Contains(sources, s) {
			return s
		}
	}
	return sources[len(sources)-1]
}

// explanation says what one slip would explain.
func (f *findings) explanation(s adjust.Source, e blunder.Explanation) doc.Text {
	text := doc.Say("perhaps %s%s%s (%s)", corrects(s, e), e.Text, f.wouldBe(e), percent(e.P))
	if len(e.Becomes) == 0 {
		return text
	}
	var sizes []doc.Text
	for _, c := range e.Becomes[:min(mostSizes, len(e.Becomes))] {
		sizes = append(sizes, doc.Say("%s %s", size(c.Size), amount(c.Value, c.Dimension)))
	}
	text = doc.Say("%s; then %s", text, doc.Join(sizes, ", "))
	if more := len(e.Becomes) - mostSizes; more > 0 {
		text = doc.Say("%s and %d more", text, more)
	}
	return text
}

// corrects names what an explanation corrects where that is not the suspect.
func corrects(s adjust.Source, e blunder.Explanation) string {
	first := e.Corrected[0].Source
	if toldByText(e) || first.Kind == s.Kind && first.ID == s.ID {
		return ""
	}
	return "in " + first.ID + " "
}

// toldByText reports whether the text names what is corrected.
func toldByText(e blunder.Explanation) bool {
	return e.Kind == blunder.SwappedReadings || e.Kind == blunder.NotZeroed
}

// wouldBe says to what an explanation corrects. Two readings that are exchanged are
// told by the text alone.
func (f *findings) wouldBe(e blunder.Explanation) doc.Text {
	first := e.Corrected[0]
	switch e.Kind {
	case blunder.SwappedReadings:
		return nil
	case blunder.NotZeroed:
		return doc.Say(", all it read %s %s", amount(math.Abs(first.WouldBe[0]), first.Dimension), tooMuch(first.WouldBe[0]))
	}
	var values []doc.Text
	last := ""
	for _, c := range e.Corrected {
		value := doc.Show(amount(c.WouldBe[0], c.Dimension))
		if f.isPair(c.Source) {
			value = doc.Say("%s, %s", value, length(c.WouldBe[1]))
		}
		if told := value.Shown(unit.View{}); told != last {
			values, last = append(values, value), told
		}
	}
	return doc.Say(": %s", doc.Join(values, ", "))
}

// isPair reports whether a source is the touch of a place: two coordinates.
func (f *findings) isPair(s adjust.Source) bool {
	return s.Kind == adjust.FromReading && slices.ContainsFunc(f.r.Readings, func(v adjust.Value) bool { return v.ID == s.ID && v.Pair })
}

func tooMuch(by float64) string {
	if by < 0 {
		return "too small"
	}
	return "too large"
}
