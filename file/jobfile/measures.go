package jobfile

import (
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// measureOf reads the id of a size of the part or a plain value, of which only
// the latter must keep the limit.
func (r *values) measureOf(n yamltree.Node, about string, d unit.Dimension, read quantityReader, l limit) trade.Measure {
	m := trade.Measure{Pos: n.Pos}
	id, wrongly := strings.CutPrefix(n.Text, partPrefix)
	switch {
	case n.Shape == yamltree.Scalar && keys.IsID(n.Text):
		m.ID = r.sizeMade(n, about, d)
	case wrongly:
		r.fault(n, "%s: found %s; inside the part its sizes are written without %q: %s", about, yamltree.Quote(n.Text), partPrefix, yamltree.Quote(id))
	default:
		m.Value = r.quantity(n, about, read, l)
	}
	return m
}

// sizeMade returns the id of a size of the part that measures d, empty if the
// id is of none.
func (r *register) sizeMade(n yamltree.Node, about string, d unit.Dimension) string {
	i, there := r.made[n.Text]
	if !there {
		r.unknown(n, about, string(aPartSize), r.madeIDs())
		return ""
	}
	found, sure := r.dimensionMade(i)
	switch {
	case r.job.Part.Sizes[i].From == trade.IsThread:
		r.fault(n, "%s: %s is a thread where %s should be", about, yamltree.Quote(n.Text), dimensionNames[d])
	case sure && found != d:
		r.fault(n, "%s: %s is %s where %s should be", about, yamltree.Quote(n.Text), dimensionNames[found], dimensionNames[d])
	default:
		return n.Text
	}
	return ""
}

// threadMade returns the id of the thread of the part under the key, empty if
// there is none.
func (f fields) threadMade(key string) string {
	if f.text(key) == "" {
		return ""
	}
	return f.r.threadAt(f.at(key), f.about(key), f.at(key).Text)
}

// threadAt returns the id of a thread of the part, with a fault at n if it is
// that of none.
func (r *register) threadAt(n yamltree.Node, about, id string) string {
	i, there := r.made[id]
	switch {
	case !there:
		n.Text = id
		r.unknown(n, about, string(aPartSize), r.madeIDs())
	case r.job.Part.Sizes[i].From != trade.IsThread && r.job.Part.Sizes[i].From != "":
		r.fault(n, "%s: %s is no thread; a size of the part is one by its %q", about, yamltree.Quote(id), trade.IsThread)
	default:
		return id
	}
	return ""
}
