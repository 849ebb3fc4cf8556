package jobfile

import (
	"strings"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// measureOf reads the id of a size of the part or a plain value, of which only
// the latter must keep the limit.
func (r *values) measureOf(n node, about string, d unit.Dimension, read quantityReader, l limit) trade.Measure {
	m := trade.Measure{Pos: n.pos}
	id, wrongly := strings.CutPrefix(n.text, partPrefix)
	switch {
	case n.shape == scalar && idPattern.MatchString(n.text):
		m.ID = r.sizeMade(n, about, d)
	case wrongly:
		r.fault(n, "%s: found %s; inside the part its sizes are written without %q: %s", about, quote(n.text), partPrefix, quote(id))
	default:
		m.Value = r.quantity(n, about, read, l)
	}
	return m
}

// sizeMade returns the id of a size of the part that measures d, empty if the
// id is of none.
func (r *register) sizeMade(n node, about string, d unit.Dimension) string {
	i, there := r.made[n.text]
	if !there {
		r.unknown(n, about, string(aPartSize), r.madeIDs())
		return ""
	}
	found, sure := r.dimensionMade(i)
	switch {
	case r.job.Part.Sizes[i].From == trade.IsThread:
		r.fault(n, "%s: %s is a thread where %s should be", about, quote(n.text), dimensionNames[d])
	case sure && found != d:
		r.fault(n, "%s: %s is %s where %s should be", about, quote(n.text), dimensionNames[found], dimensionNames[d])
	default:
		return n.text
	}
	return ""
}

// threadMade returns the id of the thread of the part under the key, empty if
// there is none.
func (f fields) threadMade(key string) string {
	if f.text(key) == "" {
		return ""
	}
	return f.r.threadAt(f.at(key), f.about(key), f.at(key).text)
}

// threadAt returns the id of a thread of the part, with a fault at n if it is
// that of none.
func (r *register) threadAt(n node, about, id string) string {
	i, there := r.made[id]
	switch {
	case !there:
		n.text = id
		r.unknown(n, about, string(aPartSize), r.madeIDs())
	case r.job.Part.Sizes[i].From != trade.IsThread && r.job.Part.Sizes[i].From != "":
		r.fault(n, "%s: %s is no thread; a size of the part is one by its %q", about, quote(id), trade.IsThread)
	default:
		return id
	}
	return ""
}
