package jobfile

import (
	"slices"
	"strconv"
	"strings"
)

// The functions of this file change the tree of a job file. They never change a
// node in place: who has the old tree keeps it.

// same reports whether two nodes say the same, wherever they were written and in
// whatever order the keys of a mapping are.
func (n node) same(other node) bool {
	if n.shape != other.shape || n.text != other.text || len(n.pairs) != len(other.pairs) {
		return false
	}
	for i, p := range n.pairs {
		if other.pairs[i].key.text != p.key.text {
			if i = other.index(p.key.text); i < 0 {
				return false
			}
		}
		if !p.value.same(other.pairs[i].value) {
			return false
		}
	}
	return slices.EqualFunc(n.items, other.items, node.same)
}

// index returns which pair of a mapping has this key, -1 if none has.
func (n node) index(key string) int {
	return slices.IndexFunc(n.pairs, func(p pair) bool { return p.key.text == key })
}

// under returns what stands under a key of a mapping: nothing, if there is no such
// key.
func (n node) under(key string) node {
	if i := n.index(key); i >= 0 {
		return n.pairs[i].value
	}
	return node{}
}

// with returns a mapping with a value under a key. A key that is new stands after
// the last of those that come before it in the order, at the end where the order
// has none of them.
func (n node) with(key, value node, order []string) node {
	n.shape, n.pairs = mapping, slices.Clone(n.pairs)
	if i := n.index(key.text); i >= 0 {
		n.pairs[i].value = value
		return n
	}
	at := len(n.pairs)
	if rank := slices.Index(order, key.text); rank >= 0 {
		for at > 0 && slices.Index(order, n.pairs[at-1].key.text) > rank {
			at--
		}
	}
	n.pairs = slices.Insert(n.pairs, at, pair{key, value})
	return n
}

// count returns how many items or pairs a node has.
func (n node) count() int { return len(n.items) + len(n.pairs) }

// valueOf returns the value of the pair, or the item, of an index.
func (n node) valueOf(i int) node {
	if n.shape == list {
		return n.items[i]
	}
	return n.pairs[i].value
}

// replaced returns a list or a mapping with another value at an index.
func (n node) replaced(i int, value node) node {
	if n.shape == list {
		n.items = slices.Clone(n.items)
		n.items[i] = value
		return n
	}
	n.pairs = slices.Clone(n.pairs)
	n.pairs[i].value = value
	return n
}

// less returns a list or a mapping without what stands at an index.
func (n node) less(i int) node {
	if n.shape == list {
		n.items = slices.Delete(slices.Clone(n.items), i, i+1)
		return n
	}
	n.pairs = slices.Delete(slices.Clone(n.pairs), i, i+1)
	return n
}

// entry returns the index of the entry of an id in a section, -1 if there is
// none.
func (n node) entry(id string) int {
	if n.shape != list {
		return n.index(id)
	}
	for i, item := range n.items {
		if written := item.under("id"); written.shape == scalar && written.text == id && id != "" {
			return i
		}
	}
	return n.place(id)
}

// place returns the index of the item of a list that has no id and is the 2nd for
// "2" or "joint 2", -1 if there is none.
func (n node) place(id string) int {
	number, err := strconv.Atoi(id[strings.LastIndexByte(id, ' ')+1:])
	if err != nil || number < 1 || number > len(n.items) || n.items[number-1].index("id") >= 0 {
		return -1
	}
	return number - 1
}

// changed returns the tree with what stands at the end of a way changed. What is
// missing on the way is made.
func (n node) changed(way, order []string, change func(node) (node, error)) (node, error) {
	if len(way) == 0 {
		return change(n)
	}
	if n.shape != mapping && n.shape != empty {
		return n, refusal("no %s here: found %s where a mapping {key: value} should be", quote(way[0]), n.found())
	}
	key, err := writtenKey(way[0])
	if err != nil {
		return n, err
	}
	value, err := n.under(way[0]).changed(way[1:], keyOrder[way[0]], change)
	if err != nil || n.index(way[0]) < 0 && value.shape == empty {
		return n, err
	}
	return n.with(key, value, order), nil
}

// pruned returns the tree without the mappings on a way in which nothing is left.
func (n node) pruned(way []string) node {
	if len(way) == 0 || n.index(way[0]) < 0 {
		return n
	}
	i := n.index(way[0])
	value := n.pairs[i].value.pruned(way[1:])
	if value.shape == mapping && value.count() == 0 {
		return n.less(i)
	}
	return n.replaced(i, value)
}
