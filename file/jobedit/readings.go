package jobedit

import (
	"slices"
	"strconv"

	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/read/gauge"
)

// AddSaw returns the text with more values in a reading or a check, behind those
// that it has: one value becomes a list. A touch takes them in pairs, x then y.
// The values are written as they were typed; whether they can be read is for
// Read to say. A gauge that goes or stops has no values to add to.
func AddSaw(source []byte, reading string, saw ...string) ([]byte, error) {
	return changeReading(source, reading, func(n yamltree.Node) (yamltree.Node, error) {
		if n.Index("goes") >= 0 || n.Index("stops") >= 0 {
			return n, refusal("reading %s has goes and stops; it has no values", yamltree.Quote(reading))
		}
		values := valuesOf(n)
		for group := range slices.Chunk(saw, valueWidth(n)) {
			if len(group) != valueWidth(n) {
				return n, refusal("reading %s is a touch: it takes values in pairs, x and y", yamltree.Quote(reading))
			}
			value, err := fieldValue(group)
			if err != nil {
				return n, err
			}
			values = append(values, value)
		}
		return withSaw(n, values), nil
	})
}

// SetAside returns the text with one value of a reading or a check, by its index
// from 0, set aside or taken back; an index of -1 means all of them, and those still
// to come. Where a why is given it is written; it goes when nothing is set aside
// any more.
func SetAside(source []byte, reading string, index int, why string, aside bool) ([]byte, error) {
	return changeReading(source, reading, func(n yamltree.Node) (yamltree.Node, error) {
		count := len(valuesOf(n))
		if index < -1 || index >= count {
			return n, refusal("reading %s has no value %d; it has %d", yamltree.Quote(reading), index, count)
		}
		field := record.Field{Key: "set-aside"}
		switch left := otherThan(asideIn(n, count), index); {
		case index < 0 && aside:
			field.Text = "all"
		case index < 0:
		case aside:
			field.List = numbers(append(left, index))
		case len(left) > 0:
			field.List = numbers(left)
		}
		n, err := set(n, field, readingKeys)
		if err == nil && (why != "" || holdsNothing(field)) {
			n, err = set(n, record.Field{Key: "why", Text: why}, readingKeys)
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
	return rewrite(source, func(s *sheet) (yamltree.Node, error) {
		root, err := set(s.root, record.Field{Key: "job", Text: name}, sections)
		if err != nil {
			return root, err
		}
		if i := root.Index("surveys"); i >= 0 {
			root = root.Without(i)
		}
		for _, section := range []string{"readings", "checks"} {
			if i := root.Index(section); i >= 0 {
				root = root.Replaced(i, planned(root.Pairs[i].Value))
			}
		}
		return root, nil
	})
}

// seenKeys are what is written of a reading when it is taken.
var seenKeys = []string{"saw", "set-aside", "why", "piece", "at-temp", "with-temp", "in-machine"}

// planned returns a list of readings that are still to be taken.
func planned(n yamltree.Node) yamltree.Node {
	plan := n
	plan.Items = nil
	for _, item := range n.Items {
		if item.Index("goes") >= 0 || item.Index("stops") >= 0 || valueWidth(item) > 1 {
			continue
		}
		for _, key := range seenKeys {
			if i := item.Index(key); i >= 0 {
				item = item.Without(i)
			}
		}
		plan.Items = append(plan.Items, item)
	}
	if len(plan.Items) == 0 {
		return yamltree.Node{Pos: n.Pos}
	}
	return plan
}

// changeReading changes the reading or the check of an id.
func changeReading(source []byte, id string, change func(yamltree.Node) (yamltree.Node, error)) ([]byte, error) {
	return rewrite(source, func(s *sheet) (yamltree.Node, error) {
		for _, section := range []string{"readings", "checks"} {
			if i := s.root.Under(section).Entry(id); i >= 0 {
				return changed(s.root, []string{section}, sections, func(n yamltree.Node) (yamltree.Node, error) {
					reading, err := change(n.ValueOf(i))
					return n.Replaced(i, reading), err
				})
			}
		}
		return s.root, refusal("there is no reading %s", yamltree.Quote(id))
	})
}

// valueWidth returns how many figures make one value of a reading.
func valueWidth(reading yamltree.Node) int {
	if gauge.Pairs(reading.Under("by").Text) {
		return 2
	}
	return 1
}

// valuesOf returns the values of a reading, one or several.
func valuesOf(reading yamltree.Node) []yamltree.Node {
	saw := reading.Under("saw")
	switch {
	case saw.Shape == yamltree.Empty:
		return nil
	case saw.Shape != yamltree.List, valueWidth(reading) > 1 && saw.IsPair():
		return []yamltree.Node{saw}
	}
	return slices.Clone(saw.Items)
}

// fieldValue returns one value of a reading as it is written.
func fieldValue(figures []string) (yamltree.Node, error) {
	if len(figures) == 1 {
		return written(figures[0])
	}
	return nodeOf(record.Field{List: figures})
}

// withSaw returns a reading with these values, one of them alone or a list.
func withSaw(n yamltree.Node, values []yamltree.Node) yamltree.Node {
	saw := yamltree.Node{Shape: yamltree.List, Items: values}
	switch len(values) {
	case 0:
		return n
	case 1:
		if was := n.Under("saw"); was.Shape != yamltree.List || valueWidth(n) > 1 {
			saw = values[0]
		}
	}
	return n.With(yamltree.Node{Shape: yamltree.Scalar, Text: "saw"}, saw, readingKeys)
}

// asideIn returns the indices of the values of a reading that are set aside.
func asideIn(reading yamltree.Node, count int) (indices []int) {
	written := reading.Under("set-aside")
	items := written.Items
	switch {
	case written.Text == "all":
		for i := range count {
			indices = append(indices, i)
		}
		return indices
	case written.Shape == yamltree.Scalar:
		items = []yamltree.Node{written}
	}
	for _, n := range items {
		if i, err := strconv.Atoi(n.Text); err == nil {
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
