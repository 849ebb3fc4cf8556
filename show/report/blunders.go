package report

import (
	"slices"

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
		out.SettledBy = told(blunder.Settled(r, doubts), inJob(r.Job))
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
