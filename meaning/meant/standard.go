package meant

import (
	"cmp"
	"slices"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// standardShare is the part of the inch fractions and of the millimetres that
// are sizes of a standard part, where the kind of size makes sense of one. They
// have no share of their own: a letter drill speaks for a machine built in
// inches. Our choice, no source.
const standardShare = 0.03

// member is one size of a standard part.
type member struct {
	n      int64
	system system
	mass   float64 // half the distance between its neighbours, mm
	name   string
}

// standard holds the members that each sort of size may be.
type standard struct {
	bore, ball, key, thread []member
}

// newStandard sorts the tables.
func newStandard(t Tables) standard {
	var s standard
	for _, d := range t.Drills {
		s.bore = append(s.bore, newMember(d.Diameter, d.Series == "metric", drillName(d)))
	}
	for _, b := range t.Balls {
		s.ball = append(s.ball, newMember(b.Diameter, b.Metric, "ball"))
	}
	for _, k := range t.Keys {
		s.key = append(s.key, newMember(k.Width, k.Metric, "key"))
	}
	for _, thread := range t.Threads {
		// The British Association's threads are metric, but of British machines.
		isMetric := thread.TPI == 0 && thread.Family != "BA"
		s.thread = append(s.thread, newMember(thread.Major, isMetric, thread.Designation+" thread"))
	}
	for _, list := range []*[]member{&s.bore, &s.ball, &s.key, &s.thread} {
		*list = spaced(*list)
	}
	return s
}

func drillName(d facts.Drill) string {
	switch d.Series {
	case "number":
		return "No. " + d.Designation[1:] + " drill"
	case "letter":
		return "letter " + d.Designation + " drill"
	}
	return "drill"
}

func newMember(mm float64, isMetric bool, name string) member {
	m := member{n: nearest(mm), system: fractions, name: name}
	if isMetric {
		m.system = metric
	}
	return m
}

// spaced sorts the members by system and size, leaves one of each size, and
// gives every one its mass.
func spaced(list []member) []member {
	slices.SortStableFunc(list, func(a, b member) int {
		return cmp.Or(cmp.Compare(a.system, b.system), cmp.Compare(a.n, b.n))
	})
	list = slices.CompactFunc(list, func(a, b member) bool { return a.system == b.system && a.n == b.n })
	for i := range list {
		for _, j := range []int{i - 1, i + 1} {
			if j >= 0 && j < len(list) && list[j].system == list[i].system {
				list[i].mass += float64(max(list[j].n-list[i].n, list[i].n-list[j].n)) / 2 / nanometres
			}
		}
	}
	return list
}

// reaching returns the members of a system if their range takes in from..to.
func reaching(list []member, s system, from, to int64) []member {
	first := slices.IndexFunc(list, func(m member) bool { return m.system == s })
	if first < 0 {
		return nil
	}
	last := first
	for last+1 < len(list) && list[last+1].system == s {
		last++
	}
	if list[first].n > to || list[last].n < from {
		return nil
	}
	return list[first : last+1]
}

// of returns the members that a size may be: a bore that of a drill, a round a
// ball or, where a reading takes it for one, the major diameter of a thread, a
// width a key.
func (s *standard) of(size *trade.Size, major bool) []member {
	switch {
	case major:
		return s.thread
	case size.Kind == trade.Diameter && size.Surface == trade.Inside:
		return s.bore
	case size.Kind == trade.Diameter && size.Surface == trade.Outside:
		return s.ball
	case size.Kind == trade.Width:
		return s.key
	}
	return nil
}
