package jobedit

import (
	"slices"
	"strings"

	"codeberg.org/oddleg/oddleg/file/yamltree"
)

// settlePairs notes the changes of a mapping that has a line for each key.
func (s *sheet) settlePairs(old, want yamltree.Node) {
	s.cutPairs(old, want)
	indent := strings.Repeat(" ", old.Pos.Column-1)
	last := -1 // of the old pairs that stay, the one before
	for _, p := range want.Pairs {
		if i := old.Index(p.Key.Text); i >= 0 {
			s.settle(old.Pairs[i].Value, p.Value, slot{s.afterColon(old.Pairs[i]), indent, false})
			last = i
			continue
		}
		text := s.newPair(old, p, indent)
		if last < 0 {
			s.insert(s.begin(old.Pairs[firstThatStays(old, want)].Key), text+"\n"+indent)
		} else {
			s.insert(s.lineEnd(s.end(old.Pairs[last].Value)), s.gap(old, p)+indent+text)
		}
	}
}

// cutPairs takes out the pairs that are not wanted. The first may stand behind a
// hyphen: then the first that stays takes its place.
func (s *sheet) cutPairs(old, want yamltree.Node) {
	first := firstThatStays(old, want)
	if s.startsLine(s.begin(old)) {
		first = 0
	}
	s.cut(s.begin(old), s.begin(old.Pairs[first].Key))
	for _, p := range old.Pairs[first:] {
		if want.Index(p.Key.Text) < 0 {
			s.cutLines(s.begin(p.Key), s.end(p.Value))
		}
	}
}

// firstThatStays returns the index of the first pair that another mapping has too;
// there is one.
func firstThatStays(old, want yamltree.Node) int {
	return slices.IndexFunc(old.Pairs, func(p yamltree.Pair) bool { return want.Index(p.Key.Text) >= 0 })
}

// afterColon returns where the colon of a pair ends.
func (s *sheet) afterColon(p yamltree.Pair) int { return s.next(s.end(p.Key), "") + 1 }

// gap returns what stands before a new line of a mapping: a blank line too before a
// section of several lines, and where entries are set apart.
func (s *sheet) gap(of yamltree.Node, p yamltree.Pair) string {
	section := of.Pos == s.root.Pos && strings.Contains(pairText(p, "", true), "\n")
	if section || p.Value.Shape == yamltree.Mapping && s.apart(of) {
		return "\n\n"
	}
	return "\n"
}

// apart reports whether a blank line stands before the last entry of a block.
func (s *sheet) apart(of yamltree.Node) bool {
	count := of.Count()
	if count < 2 || of.ValueOf(count-1).Shape != yamltree.Mapping {
		return false
	}
	from, to := s.end(of.ValueOf(count-2)), s.begin(of.ValueOf(count-1))
	for at := s.nextLine(from); at < to; at = s.nextLine(at) {
		if s.isBlank(at) {
			return true
		}
	}
	return false
}

// newPair returns a pair as its neighbours are written: a value of several keys in
// lines where the last of them has lines, and in their column where values stand
// in one.
func (s *sheet) newPair(of yamltree.Node, p yamltree.Pair, indent string) string {
	if of.Pos == s.root.Pos {
		return pairText(p, indent, true)
	}
	neighbour := of.Pairs[len(of.Pairs)-1]
	if p.Value.Shape == yamltree.Mapping && p.Value.Count() > 0 && neighbour.Value.Shape == yamltree.Mapping && !s.inBrackets(neighbour.Value) {
		inner := strings.Repeat(" ", max(neighbour.Value.Pos.Column-1, len(indent)+1))
		return keyOf(p.Key.Text) + ":" + lines(p.Value, inner)
	}
	text := pairText(p, indent, false)
	key := keyOf(p.Key.Text) + ":"
	if rest, inLine := strings.CutPrefix(text, key+" "); inLine {
		text = key + strings.Repeat(" ", max(s.valueColumn(of)-len(indent)-len(key), 1)) + rest
	}
	return text
}

// valueColumn returns how many characters stand before the values of a mapping
// that has them in one column, 0 if it has not.
func (s *sheet) valueColumn(of yamltree.Node) int {
	column, wide := 0, false
	for _, p := range of.Pairs {
		if p.Value.Pos.Line == p.Key.Pos.Line && p.Value.Shape != yamltree.Empty {
			column = max(column, p.Value.Pos.Column-1)
			wide = wide || s.begin(p.Value)-s.afterColon(p) > 1
		}
	}
	if !wide {
		return 0
	}
	return column
}

// settleItems notes the changes of a list that has a line for each item.
func (s *sheet) settleItems(old, want yamltree.Node) {
	partner := partners(old.Items, want.Items)
	for i, item := range old.Items {
		if !slices.Contains(partner, i) {
			s.cutLines(s.hyphen(old, item), s.end(item))
		}
	}
	indent := strings.Repeat(" ", old.Pos.Column-1)
	last := -1
	for i, item := range want.Items {
		if partner[i] >= 0 {
			last = partner[i]
			s.settle(old.Items[last], item, slot{s.hyphen(old, old.Items[last]) + 1, indent, false})
			continue
		}
		text := "- " + s.newItem(old, item, indent)
		if last < 0 {
			first := partner[slices.IndexFunc(partner, isPartner)]
			s.insert(s.hyphen(old, old.Items[first]), text+"\n"+indent)
			continue
		}
		gap := "\n"
		if item.Shape == yamltree.Mapping && s.apart(old) {
			gap = "\n\n"
		}
		s.insert(s.lineEnd(s.end(old.Items[last])), gap+indent+text)
	}
}

// newItem returns an item as the last of a list is written.
func (s *sheet) newItem(of, item yamltree.Node, indent string) string {
	last := of.Items[len(of.Items)-1]
	if item.Shape == yamltree.Mapping && last.Shape == yamltree.Mapping && !s.inBrackets(last) {
		return entryLines(item, indent+"  ")
	}
	return inline(item, false)
}

// partners returns which of the old items each of the new ones was: the same one, or
// one of the same id; what is left over between those goes by its place. It is -1
// for one that is new.
func partners(old, want []yamltree.Node) []int {
	partner := make([]int, len(want))
	from := 0
	for i, item := range want {
		at := slices.IndexFunc(old[from:], item.SameEntry)
		partner[i] = at
		if at >= 0 {
			partner[i] += from
			from = partner[i] + 1
		}
	}
	before := -1
	for i := range want {
		next := len(old)
		if at := slices.IndexFunc(partner[i:], isPartner); at >= 0 {
			next = partner[i+at]
		}
		if partner[i] < 0 && before+1 < next {
			partner[i] = before + 1
		}
		before = max(before, partner[i])
	}
	return partner
}

func isPartner(i int) bool { return i >= 0 }
