package part

import (
	"math"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Form A of the centre holes of ISO 866 (from memory): a 60° seat whose mouth is
// about 2.12 times the pilot, and a pilot about 1.1 times as deep below it as it
// is wide.
const (
	centreMouth = 2.12
	centrePilot = 1.1
)

// centres makes the centre holes of solid ends.
func (b *builder) centres(s *trade.TurnedShape, length float64) []piece {
	var list []piece
	bored := b.inside
	for end, m := range []trade.Measure{leftEnd: s.LeftCentre, rightEnd: s.RightCentre} {
		size := b.size(m, trade.Diameter, "centre hole")
		if !size.stated() {
			continue
		}
		if i := slices.IndexFunc(bored, func(p piece) bool { return end == leftEnd && p.X0 < level || end == rightEnd && p.X1 > length-level }); i >= 0 {
			b.clash(size, bored[i].by, "an end has either a bore or a centre hole")
			continue
		}
		list = append(list, centreHole(size, length, end)...)
	}
	return list
}

// centreHole returns seat, pilot and drill point at one end.
func centreHole(size given, length float64, end int) []piece {
	d := size.Value
	seat := d * (centreMouth - 1) / 2 / math.Tan(math.Pi/6)
	pilot := seat + d*centrePilot
	list := []piece{
		{Segment{X0: 0, X1: seat, D0: centreMouth * d, D1: d, Role: Centre}, size},
		{Segment{X0: seat, X1: pilot, D0: d, D1: d, Role: Centre}, size},
		{Segment{X0: pilot, X1: pilot + PointLength(d), D0: d, Role: DrillPoint}, size},
	}
	if end == leftEnd {
		return list
	}
	slices.Reverse(list)
	for i := range list {
		p := &list[i]
		p.X0, p.X1, p.D0, p.D1 = length-p.X1, length-p.X0, p.D1, p.D0
	}
	return list
}

// flats mills flats: one above the axis, or two opposite each other.
func (b *builder) flats(flats []trade.Flat) {
	t := b.model.Turned
	for i := range flats {
		f := &flats[i]
		from := b.size(f.From, trade.Distance, "place of a flat")
		length := b.needed(f.Length, trade.Length, "length of a flat")
		size, height := b.flatHeight(f)
		flat := Flat{X0: from.orZero(), X1: from.orZero() + length.Value, Height: height}
		b.flatFits(flat, length, size)
		t.Flats = append(t.Flats, flat)
		if f.Across.Given() {
			flat.Around = math.Pi
			t.Flats = append(t.Flats, flat)
		}
		b.flatDimensions(flat, from, length, size, f.Across.Given())
	}
}

// flatHeight returns the size that sets a flat and its height above the axis.
func (b *builder) flatHeight(f *trade.Flat) (given, float64) {
	if f.Across.Given() {
		size := b.size(f.Across, trade.Width, "width across flats")
		return size, size.Value / 2
	}
	size := b.needed(f.Height, trade.Height, "height of a flat")
	return size, size.Value
}

// flatFits refuses a flat that is off the part, cuts nothing, or opens a bore.
func (b *builder) flatFits(f Flat, length, size given) {
	outside, inside := b.outside, b.inside
	if f.X0 < -level || f.X1 > b.model.Turned.Length+level {
		b.refuse(places(length, size), "the flat with %v ends %s from the left end, and the part is %s long", length, b.length(f.X1), b.length(b.model.Turned.Length))
	}
	if i := widest(outside, f.X0, f.X1); i >= 0 && f.Height >= max(outside[i].D0, outside[i].D1)/2-level {
		b.clash(size, outside[i].by, "the flat cuts nothing")
	}
	if i := widest(inside, f.X0, f.X1); i >= 0 && f.Height <= max(inside[i].D0, inside[i].D1)/2+level {
		b.clash(size, inside[i].by, "the flat opens the bore")
	}
	for _, o := range b.model.Turned.Flats {
		if f.X0 < o.X1-level && o.X0 < f.X1-level {
			b.refuse(places(length, size), "%v runs into another flat", length)
			return
		}
	}
}

// widest returns the piece with the largest diameter in a stretch, -1 where
// there is none.
func widest(pieces []piece, from, to float64) int {
	best := -1
	for i, p := range pieces {
		if p.X1 < from+level || p.X0 > to-level {
			continue
		}
		if best < 0 || max(p.D0, p.D1) > max(pieces[best].D0, pieces[best].D1) {
			best = i
		}
	}
	return best
}

// crossHoles drills across the axis.
func (b *builder) crossHoles(holes []trade.CrossHole) {
	for i := range holes {
		h := &holes[i]
		at := b.needed(h.At, trade.Distance, "place of a cross hole")
		hole := CrossHole{X: at.Value, Through: !h.Depth.Given()}
		var size given
		if h.Thread != "" {
			hole.Thread, size = b.thread(h.Thread, true, h.Pos)
			hole.Diameter = hole.Thread.Minor
		} else {
			size = b.needed(h.Diameter, trade.Diameter, "cross hole")
			hole.Diameter = size.Value
		}
		depth := b.size(h.Depth, trade.Depth, "depth of the cross hole")
		hole.Depth = depth.orZero()
		hole.IntoBore = b.model.Turned.intoBore(hole)
		b.crossFits(hole, at, size, depth)
		b.model.Turned.Cross = append(b.model.Turned.Cross, hole)
		b.crossDimensions(hole, at, size, depth)
	}
}

// crossFits refuses a cross hole that is off the part, larger than the body
// where it enters, deeper than that, or in the way of another.
func (b *builder) crossFits(h CrossHole, at, size, depth given) {
	t, inside := b.model.Turned, b.inside
	if h.X-h.Diameter/2 < level || h.X+h.Diameter/2 > t.Length-level {
		b.refuse(places(at, size), "%v runs off the end of the part: with %v it would need to stand between %s and %s", size, at,
			b.length(h.Diameter/2), b.length(t.Length-h.Diameter/2))
		return
	}
	for _, p := range b.outside {
		if p.X1 < h.X-h.Diameter/2+level || p.X0 > h.X+h.Diameter/2-level {
			continue
		}
		if min(p.D0, p.D1) <= h.Diameter+level {
			b.clash(size, p.by, "the cross hole is as large as the part where it enters")
			return
		}
		if !h.Through && !h.IntoBore && t.Bottom(h)-PointLength(h.Diameter) <= level-p.D0/2 {
			b.clash(depth, p.by, "the cross hole with its drill point comes out on the other side: leave the depth away for a hole right through")
			return
		}
	}
	if i := widest(inside, h.X-h.Diameter/2, h.X+h.Diameter/2); i >= 0 && !h.Through && !h.IntoBore && t.Bottom(h)-PointLength(h.Diameter) <= max(inside[i].D0, inside[i].D1)/2+level {
		b.clash(depth, inside[i].by, "the cross hole ends half in the wall of the bore: drill it clear into the bore, or less deep")
		return
	}
	for _, o := range t.Cross {
		if math.Abs(o.X-h.X) <= (o.Diameter+h.Diameter)/2+level {
			b.refuse(places(at, size), "%v with %v runs into the cross hole %s from the left end", size, at, b.length(o.X))
			return
		}
	}
}

// intoBore reports whether the full diameter of a blind cross hole reaches the
// bore all round, and its point stays clear of the far wall.
func (t *Turned) intoBore(h CrossHole) bool {
	bore, radius := t.boreAt(h.X)/2, h.Diameter/2
	if h.Through || bore <= radius+level {
		return false
	}
	clear := math.Sqrt(bore*bore - radius*radius)
	return math.Abs(t.Bottom(h)) <= clear && t.Bottom(h)-PointLength(h.Diameter) >= -bore
}
