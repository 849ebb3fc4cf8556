package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
)

// perhapsJSON is what may have gone wrong with a value, or with what was stated
// beforehand.
type perhapsJSON struct {
	Kind    blunder.Kind       `json:"kind"`
	Text    string             `json:"text"`
	WouldBe any                `json:"would_be"` // a pair for a touch
	P       float64            `json:"p"`
	Becomes map[string]float64 `json:"becomes"`
}

// WithDoubts adds to the JSON of a result what may have gone wrong with all
// that is suspect, and what would tell apart what cannot be told apart.
func WithDoubts(r *adjust.Result, doubts []blunder.Doubt) Addition {
	return func(out *resultJSON) {
		perhaps := perhapsOf(r, doubts)
		for i, v := range r.Readings {
			out.Readings[i].Perhaps = perhaps[adjust.Source{Kind: adjust.FromReading, ID: v.ID, Index: v.Index}]
		}
		for id, kit := range out.Kit {
			kit.Perhaps = append(perhaps[adjust.Source{Kind: adjust.FromInstrument, ID: id}], perhaps[adjust.Source{Kind: adjust.FromPiece, ID: id}]...)
			out.Kit[id] = kit
		}
		for id, size := range out.Sizes {
			if size.Known != nil {
				size.Known.Perhaps = perhaps[adjust.Source{Kind: adjust.FromKnown, ID: id}]
			}
		}
		for i := range out.Relations {
			out.Relations[i].Perhaps = perhaps[adjust.Source{Kind: adjust.FromRelation, Index: out.Relations[i].Index}]
		}
		out.SettledBy = settledBy(r, doubts)
	}
}

// perhapsOf sorts explanations by what each corrects, best first.
func perhapsOf(r *adjust.Result, doubts []blunder.Doubt) map[adjust.Source][]perhapsJSON {
	list := map[adjust.Source][]perhapsJSON{}
	for _, d := range doubts {
		for _, e := range d.Perhaps {
			becomes := map[string]float64{}
			for _, c := range e.Becomes {
				becomes[c.Size] = natural(c.Value, c.Dimension)
			}
			for _, c := range e.Corrected {
				entry := perhapsJSON{Kind: e.Kind, Text: e.Text, WouldBe: natural(c.WouldBe[0], c.Dimension), P: e.P, Becomes: becomes}
				if isPair(r, c.Source) {
					entry.WouldBe = c.WouldBe
				}
				list[c.Source] = append(list[c.Source], entry)
			}
		}
	}
	return list
}

func isPair(r *adjust.Result, s adjust.Source) bool {
	return s.Kind == adjust.FromReading && slices.ContainsFunc(r.Readings, func(v adjust.Value) bool { return v.ID == s.ID && v.Pair })
}

// settledBy returns, for each group that cannot be told apart, what would.
func settledBy(r *adjust.Result, doubts []blunder.Doubt) []string {
	var list []string
	for _, group := range r.Either {
		text := ""
		for _, d := range doubts {
			if slices.Equal(d.Suspects, group) {
				text = d.Settle
			}
		}
		list = append(list, text)
	}
	return list
}

// others returns what the others give for a suspect by itself, NaN where that
// is not known.
func (p *printer) others(s adjust.Source) float64 {
	for _, d := range p.doubts {
		if i := slices.Index(d.Suspects, s); i >= 0 {
			return d.Others[i]
		}
	}
	return math.NaN()
}

// mostSizes is how many sizes an explanation names on the page.
const mostSizes = 3

// explained returns the lines under a suspect: what may have gone wrong. Each
// explanation stands under the last suspect of its doubt that it corrects, so
// that what several share is said once.
func (p *printer) explained(s adjust.Source, order []adjust.Source) []string {
	var lines []string
	for _, d := range p.doubts {
		if !slices.Contains(d.Suspects, s) {
			continue
		}
		for _, e := range d.Perhaps {
			if standsUnder(d, e, order) == s {
				lines = append(lines, p.explanation(s, e))
			}
		}
		if last := lastOf(d.Suspects, order); last == s {
			lines = append(lines, p.otherwise(d)...)
		}
	}
	return lines
}

// otherwise says how likely it is that none of the explanations is right.
func (p *printer) otherwise(d blunder.Doubt) []string {
	switch {
	case d.Other == 0 && len(d.Perhaps) == 0:
		return nil
	case len(d.Perhaps) == 0:
		return []string{"none of the usual slips explains it"}
	case d.Other < leastOther:
		return nil
	}
	return []string{"or some other slip (" + percent(d.Other) + ")"}
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

// explanation writes one explanation.
func (p *printer) explanation(s adjust.Source, e blunder.Explanation) string {
	text := "perhaps " + in(s, e) + e.Text + p.wouldBe(e) + " (" + percent(e.P) + ")"
	if len(e.Becomes) == 0 {
		return text
	}
	var sizes []string
	for _, c := range e.Becomes[:min(mostSizes, len(e.Becomes))] {
		sizes = append(sizes, c.Size+" "+p.amount(c.Value, c.Dimension))
	}
	text += "; then " + strings.Join(sizes, ", ")
	if more := len(e.Becomes) - mostSizes; more > 0 {
		text += fmt.Sprintf(" and %d more", more)
	}
	return text
}

// in names what an explanation corrects where that is not the suspect.
func in(s adjust.Source, e blunder.Explanation) string {
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

// wouldBe says to what an explanation corrects. Two readings that are exchanged
// are told by the text alone.
func (p *printer) wouldBe(e blunder.Explanation) string {
	first := e.Corrected[0]
	switch e.Kind {
	case blunder.SwappedReadings:
		return ""
	case blunder.NotZeroed:
		return ", all it read " + p.amount(math.Abs(first.WouldBe[0]), first.Dimension) + tooMuch(first.WouldBe[0])
	}
	var values []string
	for _, c := range e.Corrected {
		value := p.amount(c.WouldBe[0], c.Dimension)
		if isPair(p.r, c.Source) {
			value += ", " + p.amount(c.WouldBe[1], unit.Length)
		}
		values = append(values, value)
	}
	return ": " + strings.Join(slices.Compact(values), ", ")
}

func tooMuch(by float64) string {
	if by < 0 {
		return " too small"
	}
	return " too large"
}
