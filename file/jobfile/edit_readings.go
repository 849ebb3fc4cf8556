package jobfile

import (
	"slices"
	"strconv"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// AddSaw returns the text with more values in a reading or a check, behind those
// that it has: one value becomes a list. A touch takes them in pairs, x then y.
// The values are written as they were typed; whether they can be read is for
// Read to say. A gauge that goes or stops has no values to add to.
func AddSaw(source []byte, reading string, saw ...string) ([]byte, error) {
	return changeReading(source, reading, func(n node) (node, error) {
		if n.index("goes") >= 0 || n.index("stops") >= 0 {
			return n, refusal("reading %s has goes and stops; it has no values", quote(reading))
		}
		values := valuesOf(n)
		for group := range slices.Chunk(saw, valueWidth(n)) {
			if len(group) != valueWidth(n) {
				return n, refusal("reading %s is a touch: it takes values in pairs, x and y", quote(reading))
			}
			value, err := fieldValue(group)
			if err != nil {
				return n, err
			}
			values = append(values, value)
		}
		return n.withSaw(values), nil
	})
}

// SetAside returns the text with one value of a reading or a check, by its index
// from 0, set aside or taken back; an index of -1 means all of them, and those still
// to come. Where a why is given it is written; it goes when nothing is set aside
// any more.
func SetAside(source []byte, reading string, index int, why string, aside bool) ([]byte, error) {
	return changeReading(source, reading, func(n node) (node, error) {
		count := len(valuesOf(n))
		if index < -1 || index >= count {
			return n, refusal("reading %s has no value %d; it has %d", quote(reading), index, count)
		}
		set := record.Field{Key: "set-aside"}
		switch left := otherThan(asideIn(n, count), index); {
		case index < 0 && aside:
			set.Text = "all"
		case index < 0:
		case aside:
			set.List = numbers(append(left, index))
		case len(left) > 0:
			set.List = numbers(left)
		}
		n, err := n.set(set, readingKeys)
		if err == nil && (why != "" || holdsNothing(set)) {
			n, err = n.set(record.Field{Key: "why", Text: why}, readingKeys)
		}
		return n, err
	})
}

// WithoutReadings returns the text of another job like this one, under its own
// name: the same machine, kit, sizes, relations, plans, places, part, joints, shop
// and work. Its readings and checks are planned, without what was seen and what
// was set aside; touches and gauges that go or stop, which cannot be planned, are
// left out, and so are surveys. ReadPlanned takes it; comments stay.
func WithoutReadings(source []byte, name string) ([]byte, error) {
	return rewrite(source, func(s *sheet) (node, error) {
		root, err := s.root.set(record.Field{Key: "job", Text: name}, sections)
		if err != nil {
			return root, err
		}
		if i := root.index("surveys"); i >= 0 {
			root = root.less(i)
		}
		for _, section := range []string{"readings", "checks"} {
			if i := root.index(section); i >= 0 {
				root = root.replaced(i, root.pairs[i].value.planned())
			}
		}
		return root, nil
	})
}

// seenKeys are what is written of a reading when it is taken.
var seenKeys = []string{"saw", "set-aside", "why", "piece", "at-temp", "with-temp", "in-machine"}

// planned returns a list of readings that are still to be taken.
func (n node) planned() node {
	plan := n
	plan.items = nil
	for _, item := range n.items {
		if item.index("goes") >= 0 || item.index("stops") >= 0 || valueWidth(item) > 1 {
			continue
		}
		for _, key := range seenKeys {
			if i := item.index(key); i >= 0 {
				item = item.less(i)
			}
		}
		plan.items = append(plan.items, item)
	}
	if len(plan.items) == 0 {
		return node{pos: n.pos}
	}
	return plan
}

// changeReading changes the reading or the check of an id.
func changeReading(source []byte, id string, change func(node) (node, error)) ([]byte, error) {
	return rewrite(source, func(s *sheet) (node, error) {
		for _, section := range []string{"readings", "checks"} {
			if i := s.root.under(section).entry(id); i >= 0 {
				return s.root.changed([]string{section}, sections, func(n node) (node, error) {
					reading, err := change(n.valueOf(i))
					return n.replaced(i, reading), err
				})
			}
		}
		return s.root, refusal("there is no reading %s", quote(id))
	})
}

// valueWidth returns how many figures make one value of a reading.
func valueWidth(reading node) int {
	if gauge.Pairs(reading.under("by").text) {
		return 2
	}
	return 1
}

// valuesOf returns the values of a reading, one or several.
func valuesOf(reading node) []node {
	saw := reading.under("saw")
	switch {
	case saw.shape == empty:
		return nil
	case saw.shape != list, valueWidth(reading) > 1 && saw.isPair():
		return []node{saw}
	}
	return slices.Clone(saw.items)
}

// fieldValue returns one value of a reading as it is written.
func fieldValue(figures []string) (node, error) {
	if len(figures) == 1 {
		return written(figures[0])
	}
	return nodeOf(record.Field{List: figures})
}

// withSaw returns a reading with these values, one of them alone or a list.
func (n node) withSaw(values []node) node {
	saw := node{shape: list, items: values}
	switch len(values) {
	case 0:
		return n
	case 1:
		if was := n.under("saw"); was.shape != list || valueWidth(n) > 1 {
			saw = values[0]
		}
	}
	return n.with(node{shape: scalar, text: "saw"}, saw, readingKeys)
}

// asideIn returns the indices of the values of a reading that are set aside.
func asideIn(reading node, count int) (indices []int) {
	written := reading.under("set-aside")
	items := written.items
	switch {
	case written.text == "all":
		for i := range count {
			indices = append(indices, i)
		}
		return indices
	case written.shape == scalar:
		items = []node{written}
	}
	for _, n := range items {
		if i, err := strconv.Atoi(n.text); err == nil {
			indices = append(indices, i)
		}
	}
	return indices
}

func otherThan(indices []int, index int) []int {
	return slices.DeleteFunc(indices, func(i int) bool { return i == index })
}

// numbers returns indices in their order as they are written.
func numbers(indices []int) []string {
	slices.Sort(indices)
	texts := make([]string, len(indices))
	for i, index := range indices {
		texts[i] = strconv.Itoa(index)
	}
	return texts
}
