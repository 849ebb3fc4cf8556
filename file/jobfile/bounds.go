package jobfile

import (
	"slices"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// readBounds reads a gauge that enters and the next that does not.
func (r readingReader) readBounds(x *reading) {
	switch {
	case !x.has("goes") || !x.has("stops"):
		return // a fault already
	case x.isTouch() || x.known && x.reads != unit.Length:
		r.fault(x.keys["goes"], "%s: only a length is found by what goes and what stops", x.what)
		return
	}
	x.Goes, x.Stops = r.bound(x.fields, "goes"), r.bound(x.fields, "stops")
	goes, stops := r.boundValue(x.Goes), r.boundValue(x.Stops)
	if goes.Given() && stops.Given() && x.method != nil {
		r.checkOrder(x, goes, stops)
	}
}

// bound reads the id of a gauge piece or a length.
func (r *values) bound(f fields, key string) trade.Bound {
	f.holds(key)
	n := f.at(key)
	b := trade.Bound{Pos: n.Pos}
	if n.Shape == yamltree.Scalar && keys.IsID(n.Text) {
		if _, ok := r.owner(n, f.about(key), aPiece); ok {
			b.ID = n.Text
		}
		return b
	}
	b.Value = r.quantity(n, f.about(key), r.length, positive)
	return b
}

// boundValue returns the length of a bound, not given where that is wrong.
func (r *values) boundValue(b trade.Bound) unit.Quantity {
	if o, known := r.owners[b.ID]; known {
		return r.job.Pieces[o.index].Size
	}
	return b.Value
}

// checkOrder faults bounds that are equal or the wrong way round: what goes
// into a hole is smaller than what stops, what goes over a shaft is larger.
func (r readingReader) checkOrder(x *reading, goes, stops unit.Quantity) {
	surface := r.measuredSurface(x)
	larger := goes.Inside() > stops.Inside()
	switch {
	case goes.Equal(stops):
		r.fault(x.at("stops"), `%s: "goes" and "stops" are equal`, x.what)
	case surface == trade.Inside && larger:
		r.fault(x.at("stops"), `%s: the wrong way round: what goes into an inside size is smaller than what stops`, x.what)
	case surface == trade.Outside && !larger:
		r.fault(x.at("stops"), `%s: the wrong way round: what goes over an outside size is larger than what stops`, x.what)
	}
}

// measuredSurface returns the surface that is tried: that which the jaws of the
// method meet, else that of the only size in the reading, where it is known.
func (r readingReader) measuredSurface(x *reading) trade.Surface {
	switch x.method.Jaw {
	case gauge.Opening:
		return trade.Inside
	case gauge.Closing:
		return trade.Outside
	case gauge.Reaching:
		return trade.NoSurface
	}
	return r.onlySize(x).Surface
}

// onlySize returns the one size that a reading names, the zero Size where there
// are several. Of a formula it must be all there is: it may fall as the size
// grows.
func (r readingReader) onlySize(x *reading) trade.Size {
	ids := []string{x.That.Text}
	for _, arg := range x.Of {
		ids = append(ids, arg.ID)
	}
	ids = slices.DeleteFunc(ids, func(id string) bool { return r.owners[id].thing != aSize })
	if len(ids) != 1 {
		return trade.Size{}
	}
	return r.job.Sizes[r.owners[ids[0]].index]
}
