package yamltree

import (
	"slices"
	"strconv"
	"strings"
)

// The functions of this file change the tree of a job file. They never change a
// node in place: who has the old tree keeps it.

// Same reports whether two nodes say the same, wherever they were written and in
// whatever order the keys of a mapping are.
func (n Node) Same(other Node) bool {
	if n.Shape != other.Shape || n.Text != other.Text || len(n.Pairs) != len(other.Pairs) {
		return false
	}
	for i, p := range n.Pairs {
		if other.Pairs[i].Key.Text != p.Key.Text {
			if i = other.Index(p.Key.Text); i < 0 {
				return false
			}
		}
		if !p.Value.Same(other.Pairs[i].Value) {
			return false
		}
	}
	return slices.EqualFunc(n.Items, other.Items, Node.Same)
}

// Index returns which pair of a mapping has this key, -1 if none has.
func (n Node) Index(key string) int {
	return slices.IndexFunc(n.Pairs, func(p Pair) bool { return p.Key.Text == key })
}

// Under returns what stands under a key of a mapping: nothing, if there is no such
// key.
func (n Node) Under(key string) Node {
	if i := n.Index(key); i >= 0 {
		return n.Pairs[i].Value
	}
	return Node{}
}

// With returns a mapping with a value under a key. A key that is new stands after
// the last of those that come before it in the order, at the end where the order
// has none of them.
func (n Node) With(key, value Node, order []string) Node {
	n.Shape, n.Pairs = Mapping, slices.Clone(n.Pairs)
	if i := n.Index(key.Text); i >= 0 {
		n.Pairs[i].Value = value
		return n
	}
	at := len(n.Pairs)
	if rank := slices.Index(order, key.Text); rank >= 0 {
		for at > 0 && slices.Index(order, n.Pairs[at-1].Key.Text) > rank {
			at--
		}
	}
	n.Pairs = slices.Insert(n.Pairs, at, Pair{key, value})
	return n
}

// Count returns how many items or pairs a node has.
func (n Node) Count() int { return len(n.Items) + len(n.Pairs) }

// ValueOf returns the value of the pair, or the item, of an index.
func (n Node) ValueOf(i int) Node {
	if n.Shape == List {
		return n.Items[i]
	}
	return n.Pairs[i].Value
}

// Replaced returns a list or a mapping with another value at an index.
func (n Node) Replaced(i int, value Node) Node {
	if n.Shape == List {
		n.Items = slices.Clone(n.Items)
		n.Items[i] = value
		return n
	}
	n.Pairs = slices.Clone(n.Pairs)
	n.Pairs[i].Value = value
	return n
}

// Without returns a list or a mapping without what stands at an index.
func (n Node) Without(i int) Node {
	if n.Shape == List {
		n.Items = slices.Delete(slices.Clone(n.Items), i, i+1)
		return n
	}
	n.Pairs = slices.Delete(slices.Clone(n.Pairs), i, i+1)
	return n
}

// Entry returns the index of the entry of an id in a section, -1 if there is
// none.
func (n Node) Entry(id string) int {
	if n.Shape != List {
		return n.Index(id)
	}
	for i, item := range n.Items {
		if written := item.Under("id"); written.Shape == Scalar && written.Text == id && id != "" {
			return i
		}
	}
	return n.place(id)
}

// place returns the index of the item of a list that has no id and is the 2nd for
// "2" or "joint 2", -1 if there is none.
func (n Node) place(id string) int {
	number, err := strconv.Atoi(id[strings.LastIndexByte(id, ' ')+1:])
	if err != nil || number < 1 || number > len(n.Items) || n.Items[number-1].Index("id") >= 0 {
		return -1
	}
	return number - 1
}

// Pruned returns the tree without the mappings on a way in which nothing is left.
func (n Node) Pruned(way []string) Node {
	if len(way) == 0 || n.Index(way[0]) < 0 {
		return n
	}
	i := n.Index(way[0])
	value := n.Pairs[i].Value.Pruned(way[1:])
	if value.Shape == Mapping && value.Count() == 0 {
		return n.Without(i)
	}
	return n.Replaced(i, value)
}

// EachWord calls f with each key and each text of a tree.
func (n Node) EachWord(f func(string)) {
	if n.Shape == Scalar {
		f(n.Text)
	}
	for _, item := range n.Items {
		item.EachWord(f)
	}
	for _, p := range n.Pairs {
		f(p.Key.Text)
		p.Value.EachWord(f)
	}
}

// SameEntry reports whether two items are the same entry of a list, changed or not.
func (n Node) SameEntry(other Node) bool {
	id := n.Under("id").Text
	return id != "" && id == other.Under("id").Text || n.Same(other)
}

// Found describes a node for a fault.
func (n Node) Found() string {
	if n.Shape == Scalar {
		return Quote(n.Text)
	}
	return n.Shape.String()
}

// IsPair reports whether the node is [x, y].
func (n Node) IsPair() bool {
	return n.Shape == List && len(n.Items) == 2 && n.Items[0].Shape == Scalar && n.Items[1].Shape == Scalar
}
