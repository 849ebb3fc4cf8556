package jobfile

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// needs reads what is done before an operation: nil if nothing is said of it, and
// not nil if it is an empty list.
func (r workReader) needs(o fields) []string {
	o.holds("needs")
	if !o.has("needs") {
		return nil
	}
	ids := []string{}
	for _, n := range r.items(o, "needs") {
		switch id := r.text(n, o.about("needs")); {
		case id == "":
		case slices.Contains(ids, id):
			r.fault(n, "%s: %s is written twice", o.about("needs"), yamltree.Quote(id))
		default:
			ids = append(ids, id)
		}
	}
	return ids
}

// items returns the items of a list under a key within an entry.
func (r *values) items(f fields, key string) []yamltree.Node {
	n := f.at(key)
	if n.Shape != yamltree.List && n.Shape != yamltree.Empty {
		r.fault(n, "%s: found %s where a list should be", f.about(key), n.Found())
	}
	return n.Items
}

// checkNeeds faults what operations need and is none of them, and those that need
// each other in a circle.
func (r workReader) checkNeeds(written []fields) {
	var ids []string
	for i := range r.job.Work {
		ids = append(ids, r.job.Work[i].ID)
	}
	known := true
	for i, o := range written {
		if len(r.job.Work[i].Needs) == 0 {
			continue
		}
		for _, n := range o.at("needs").Items {
			if n.Shape == yamltree.Scalar && n.Text != "" && !slices.Contains(ids, n.Text) {
				known = false
				r.unknown(n, o.about("needs"), string(anOperation), ids)
			}
		}
	}
	if circle := r.needCircle(); known && circle != nil {
		i := slices.Index(ids, circle[0])
		r.fault(written[i].at("needs"), "%s: %s: none of them can come first", written[i].about("needs"), strings.Join(circle, " needs "))
	}
}

// needCircle returns operations each of which needs the next, the last being the
// first again; nil where there is no such circle.
func (r workReader) needCircle() []string {
	needs := map[string][]string{}
	for i := range r.job.Work {
		needs[r.job.Work[i].ID] = r.job.Work[i].Needs
	}
	settled := map[string]bool{}
	var way []string
	var follow func(id string) []string
	follow = func(id string) []string {
		if at := slices.Index(way, id); at >= 0 {
			return append(slices.Clone(way[at:]), id)
		}
		if settled[id] {
			return nil
		}
		settled[id] = true
		way = append(way, id)
		for _, next := range needs[id] {
			if circle := follow(next); circle != nil {
				return circle
			}
		}
		way = way[:len(way)-1]
		return nil
	}
	for i := range r.job.Work {
		if circle := follow(r.job.Work[i].ID); circle != nil {
			return circle
		}
	}
	return nil
}

// checkApart faults machines that are taken apart and put back in a way that no
// order can make sense of. Whether one is there when it is wanted is for the
// order of work to say.
func (r workReader) checkApart(written []fields) {
	for i, o := range written {
		switch op := &r.job.Work[i]; {
		case op.Apart == "":
		case op.Apart == op.On:
			r.fault(o.at("on"), "%s takes the %s apart and works on it; make two operations of it", o.what, op.On)
		case op.Apart == op.Back:
			r.fault(o.at("back"), "%s takes the %s apart and puts it back; make two operations of it", o.what, op.Back)
		}
	}
	for i := range r.job.Shop {
		r.checkPairs(r.job.Shop[i].ID, written)
	}
}

// checkPairs faults a machine that is put back more often than it is taken apart,
// or taken apart again without.
func (r workReader) checkPairs(machine string, written []fields) {
	var apart, back []fields
	for i, o := range written {
		if r.job.Work[i].Apart == machine {
			apart = append(apart, o)
		}
		if r.job.Work[i].Back == machine {
			back = append(back, o)
		}
	}
	if last := len(back) - 1; len(back) > len(apart) {
		r.fault(back[last].at("back"), "%s: the %s is put back, but it is not taken apart before (apart %d times, back %d)", back[last].what, machine, len(apart), len(back))
	}
	if last := len(apart) - 1; len(apart) > len(back)+1 {
		r.fault(apart[last].at("apart"), "%s: the %s is taken apart again, but it is not put back before (apart %d times, back %d)", apart[last].what, machine, len(apart), len(back))
	}
}

// datum reads where the coordinates of an operation are counted from, nil if
// nothing is said of it.
func (r workReader) datum(o fields) *trade.Datum {
	if !o.has("datum") {
		return nil
	}
	d := o.inner("datum")
	datum := &trade.Datum{
		At:     d.pair("at"),
		Finder: d.quantity("edge-finder"),
		Sides:  r.sides(d),
		Turned: d.quantity("turned"),
		Pos:    o.at("datum").Pos,
	}
	return datum
}

// sides reads which edges are touched: of two across from each other one only.
func (r workReader) sides(d fields) []trade.Side {
	d.holds("sides")
	if !d.has("sides") {
		return nil
	}
	var sides []trade.Side
	across := map[trade.Side]trade.Side{
		trade.LeftSide: trade.RightSide, trade.RightSide: trade.LeftSide, trade.FrontSide: trade.BackSide, trade.BackSide: trade.FrontSide,
	}
	for _, n := range r.items(d, "sides") {
		side := trade.Side(r.text(n, d.about("sides")))
		switch {
		case side == "":
		case !slices.Contains(trade.Sides, side):
			r.unknown(n, d.about("sides"), "side", words(trade.Sides))
		case slices.Contains(sides, side), slices.Contains(sides, across[side]):
			r.fault(n, "%s: one edge along x and one along y; %s is one too many", d.about("sides"), yamltree.Quote(string(side)))
		default:
			sides = append(sides, side)
		}
	}
	return sides
}
