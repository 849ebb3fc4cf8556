package jobfile

import (
	"slices"
	"strings"
)

// settlePairs notes the changes of a mapping that has a line for each key.
func (s *sheet) settlePairs(old, want node) {
	s.cutPairs(old, want)
	indent := strings.Repeat(" ", old.pos.Column-1)
	last := -1 // of the old pairs that stay, the one before
	for _, p := range want.pairs {
		if i := old.index(p.key.text); i >= 0 {
			s.settle(old.pairs[i].value, p.value, slot{s.afterColon(old.pairs[i]), indent, false})
			last = i
			continue
		}
		text := s.newPair(old, p, indent)
		if last < 0 {
			s.insert(s.begin(old.pairs[firstThatStays(old, want)].key), text+"\n"+indent)
		} else {
			s.insert(s.lineEnd(s.end(old.pairs[last].value)), s.gap(old, p)+indent+text)
		}
	}
}

// cutPairs takes out the pairs that are not wanted. The first may stand behind a
// hyphen: then the first that stays takes its place.
func (s *sheet) cutPairs(old, want node) {
	first := firstThatStays(old, want)
	if s.startsLine(s.begin(old)) {
		first = 0
	}
	s.cut(s.begin(old), s.begin(old.pairs[first].key))
	for _, p := range old.pairs[first:] {
		if want.index(p.key.text) < 0 {
			s.cutLines(s.begin(p.key), s.end(p.value))
		}
	}
}

// firstThatStays returns the index of the first pair that another mapping has too;
// there is one.
func firstThatStays(old, want node) int {
	return slices.IndexFunc(old.pairs, func(p pair) bool { return want.index(p.key.text) >= 0 })
}

// afterColon returns where the colon of a pair ends.
func (s *sheet) afterColon(p pair) int { return s.next(s.end(p.key), "") + 1 }

// gap returns what stands before a new line of a mapping: a blank line too before a
// section of several lines, and where entries are set apart.
func (s *sheet) gap(of node, p pair) string {
	section := of.pos == s.root.pos && strings.Contains(pairText(p, "", true), "\n")
	if section || p.value.shape == mapping && s.apart(of) {
		return "\n\n"
	}
	return "\n"
}

// apart reports whether a blank line stands before the last entry of a block.
func (s *sheet) apart(of node) bool {
	count := of.count()
	if count < 2 || of.valueOf(count-1).shape != mapping {
		return false
	}
	from, to := s.end(of.valueOf(count-2)), s.begin(of.valueOf(count-1))
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
func (s *sheet) newPair(of node, p pair, indent string) string {
	if of.pos == s.root.pos {
		return pairText(p, indent, true)
	}
	neighbour := of.pairs[len(of.pairs)-1]
	if p.value.shape == mapping && p.value.count() > 0 && neighbour.value.shape == mapping && !s.inBrackets(neighbour.value) {
		inner := strings.Repeat(" ", max(neighbour.value.pos.Column-1, len(indent)+1))
		return keyOf(p.key.text) + ":" + lines(p.value, inner)
	}
	text := pairText(p, indent, false)
	key := keyOf(p.key.text) + ":"
	if rest, inLine := strings.CutPrefix(text, key+" "); inLine {
		text = key + strings.Repeat(" ", max(s.valueColumn(of)-len(indent)-len(key), 1)) + rest
	}
	return text
}

// valueColumn returns how many characters stand before the values of a mapping
// that has them in one column, 0 if it has not.
func (s *sheet) valueColumn(of node) int {
	column, wide := 0, false
	for _, p := range of.pairs {
		if p.value.pos.Line == p.key.pos.Line && p.value.shape != empty {
			column = max(column, p.value.pos.Column-1)
			wide = wide || s.begin(p.value)-s.afterColon(p) > 1
		}
	}
	if !wide {
		return 0
	}
	return column
}

// settleItems notes the changes of a list that has a line for each item.
func (s *sheet) settleItems(old, want node) {
	partner := partners(old.items, want.items)
	for i, item := range old.items {
		if !slices.Contains(partner, i) {
			s.cutLines(s.hyphen(old, item), s.end(item))
		}
	}
	indent := strings.Repeat(" ", old.pos.Column-1)
	last := -1
	for i, item := range want.items {
		if partner[i] >= 0 {
			last = partner[i]
			s.settle(old.items[last], item, slot{s.hyphen(old, old.items[last]) + 1, indent, false})
			continue
		}
		text := "- " + s.newItem(old, item, indent)
		if last < 0 {
			first := partner[slices.IndexFunc(partner, isPartner)]
			s.insert(s.hyphen(old, old.items[first]), text+"\n"+indent)
			continue
		}
		gap := "\n"
		if item.shape == mapping && s.apart(old) {
			gap = "\n\n"
		}
		s.insert(s.lineEnd(s.end(old.items[last])), gap+indent+text)
	}
}

// newItem returns an item as the last of a list is written.
func (s *sheet) newItem(of, item node, indent string) string {
	last := of.items[len(of.items)-1]
	if item.shape == mapping && last.shape == mapping && !s.inBrackets(last) {
		return entryLines(item, indent+"  ")
	}
	return inline(item, false)
}

// partners returns which of the old items each of the new ones was: the same one, or
// one of the same id; what is left over between those goes by its place. It is -1
// for one that is new.
func partners(old, want []node) []int {
	partner := make([]int, len(want))
	from := 0
	for i, item := range want {
		at := slices.IndexFunc(old[from:], item.isEntry)
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

// isEntry reports whether two items are the same entry of a list, changed or not.
func (n node) isEntry(other node) bool {
	id := n.under("id").text
	return id != "" && id == other.under("id").text || n.same(other)
}
