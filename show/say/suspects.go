package say

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
	"codeberg.org/oddleg/oddleg/show/doc"
)

// suspect is one observation that the others contradict, in words.
type suspect struct {
	source adjust.Source
	text   doc.Text
}

// suspects names every observation that the others contradict, and what may have
// gone wrong with it.
func (f *findings) suspects() {
	list := f.suspectList()
	if len(list) == 0 {
		return
	}
	f.chapter("Suspect: look at these again")
	order := sources(list)
	for _, s := range list {
		f.Add(doc.Paragraph{Words: alarm(s.text), Keeps: true})
		for _, line := range f.explained(s.source, order) {
			f.Add(doc.Paragraph{Words: line, Indent: 1, Space: doc.Close})
		}
	}
}

func sources(list []suspect) []adjust.Source {
	order := make([]adjust.Source, len(list))
	for i, s := range list {
		order[i] = s.source
	}
	return order
}

func (f *findings) suspectList() []suspect {
	var list []suspect
	for _, v := range f.r.Readings {
		if v.Suspect {
			list = append(list, suspect{adjust.Source{Kind: adjust.FromReading, ID: v.ID, Index: v.Index}, f.suspectValue(v)})
		}
	}
	for _, z := range f.r.Instruments {
		if z.Suspect {
			list = append(list, suspect{adjust.Source{Kind: adjust.FromInstrument, ID: z.ID}, f.suspectZero(z)})
		}
	}
	for _, piece := range f.r.Pieces {
		if piece.Suspect {
			list = append(list, suspect{adjust.Source{Kind: adjust.FromPiece, ID: piece.ID}, f.suspectPiece(piece)})
		}
	}
	return append(list, f.suspectTies()...)
}

func (f *findings) suspectValue(v adjust.Value) doc.Text {
	name := f.valueName(v.ID, v.Index)
	if math.IsNaN(v.Others) {
		v.Others = f.others(adjust.Source{Kind: adjust.FromReading, ID: v.ID, Index: v.Index})
	}
	switch {
	case v.Impossible && math.IsNaN(v.Others):
		return doc.Say("%s: cannot be with the other readings", name)
	case v.Pair:
		return doc.Say("%s: %s off the circle or line that the others give (%.1f standard deviations)",
			name, length(math.Abs(v.Residual)), math.Abs(v.Normalised))
	case !math.IsNaN(v.Others):
		return doc.Say("%s: saw %s, without it the others give %s", name, amount(v.Saw[0], v.Dimension), amount(v.Others, v.Dimension))
	case v.Redundancy == 0:
		return doc.Say("%s: saw %s, which does not go with what is named below", name, amount(v.Saw[0], v.Dimension))
	}
	return doc.Say("%s: saw %s, all together give %s (%.1f standard deviations)",
		name, amount(v.Saw[0], v.Dimension), amount(v.Predicted[0], v.Dimension), math.Abs(v.Normalised))
}

// suspectTies names the known sizes and relations that the readings contradict.
func (f *findings) suspectTies() []suspect {
	var list []suspect
	for _, s := range f.r.Sizes {
		if s.Known != nil && s.Known.Suspect {
			list = append(list, suspect{adjust.Source{Kind: adjust.FromKnown, ID: s.ID}, f.suspectKnown(s)})
		}
	}
	for _, t := range f.r.Relations {
		if t.Suspect {
			list = append(list, suspect{
				adjust.Source{Kind: adjust.FromRelation, Index: t.Index},
				doc.Say("relation %s: the readings contradict it (%.1f standard deviations)",
					relation(&f.r.Job.Relations[t.Index]), math.Abs(t.Normalised)),
			})
		}
	}
	return list
}

// suspectZero, suspectPiece and suspectKnown say what the readings want where what
// was stated beforehand is left out; where nothing tells that, what they make of it
// together.
func (f *findings) suspectZero(z adjust.Zero) doc.Text {
	source := adjust.Source{Kind: adjust.FromInstrument, ID: z.ID}
	if want := f.others(source); !math.IsNaN(want) {
		return doc.Say("%s: the others want its zero %s out, more than it states", z.ID, amount(want, z.Dimension))
	}
	return doc.Say("%s: its zero is %s out, more than it states", z.ID, amount(z.Value, z.Dimension))
}

func (f *findings) suspectPiece(piece adjust.Piece) doc.Text {
	want := f.others(adjust.Source{Kind: adjust.FromPiece, ID: piece.ID})
	if math.IsNaN(want) {
		want = piece.Value
	}
	return doc.Say("%s: the readings want it %s; is it the right piece?", piece.ID, length(want))
}

func (f *findings) suspectKnown(s adjust.Size) doc.Text {
	if want := f.others(adjust.Source{Kind: adjust.FromKnown, ID: s.ID}); !math.IsNaN(want) {
		known := f.r.Job.Size(s.ID).Known.Value.Inside()
		return doc.Say("%s: known as %s, without that the readings give %s", size(s.ID), amount(known, s.Dimension), amount(want, s.Dimension))
	}
	return doc.Say("%s: what was known beforehand does not fit the readings (%.1f standard deviations)", size(s.ID), math.Abs(s.Known.Normalised))
}

// others returns what the others give for a suspect by itself.
func (f *findings) others(s adjust.Source) float64 { return blunder.Without(s, f.doubts) }

// either names what cannot be told apart, and what would tell.
func (f *findings) either() {
	if len(f.r.Either) == 0 {
		return
	}
	f.chapter("One of these is wrong, but the readings cannot tell which")
	settle := blunder.Settled(f.r, f.doubts)
	for i, group := range f.r.Either {
		f.Add(doc.Paragraph{Words: doc.Join(f.rivals(group), " or "), Keeps: !settle[i].Empty()})
		if !settle[i].Empty() {
			f.Add(doc.Paragraph{Words: doc.Show(settle[i]), Indent: 1, Space: doc.Close})
		}
	}
}

// rivals names what stands in a group. Values of a reading that is there beside
// others are wrong together.
func (f *findings) rivals(group []adjust.Source) []doc.Text {
	beside := slices.ContainsFunc(group, func(s adjust.Source) bool { return s.Kind != group[0].Kind || s.ID != group[0].ID })
	var names []doc.Text
	for _, s := range group {
		name := f.sourceName(s)
		if beside && s.Kind == adjust.FromReading {
			name = doc.Say("%s (%s)", doc.Name(doc.Reading, s.ID), f.r.Job.Reading(s.ID).By)
		}
		told := name.Shown(unit.View{})
		if !slices.ContainsFunc(names, func(t doc.Text) bool { return t.Shown(unit.View{}) == told }) {
			names = append(names, name)
		}
	}
	return names
}

func (f *findings) sourceName(s adjust.Source) doc.Text {
	switch s.Kind {
	case adjust.FromReading:
		return f.valueName(s.ID, s.Index)
	case adjust.FromKnown:
		return doc.Say("%s as known", size(s.ID))
	case adjust.FromRelation:
		return doc.Plain("relation " + relation(&f.r.Job.Relations[s.Index]))
	}
	return doc.Plain(s.ID)
}
