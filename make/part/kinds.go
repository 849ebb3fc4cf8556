package part

import (
	"slices"
	"strings"
	"sync/atomic"

	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// Kind is one entry of the catalogue of parts: how a kind is made out of its shape, and
// what else is known of it. What it is called stands in trade.PartWord, its keys in
// keys.Section("part.shape.KIND").
type Kind struct {
	trade.PartWord

	// Stated reports whether a shape is of this kind, and build makes it out. A kind
	// without them is one of another kind, which Plain gives it.
	Stated func(s *trade.Shape) bool
	build  func(b *builder, s *trade.Shape)

	Plain *PlainShape // for a part without a shape; nil where it needs one

	// Sizes are those of a shape in the order in which it is made. Stops says before
	// what some are to be read; it may be nil.
	Sizes func(s *trade.Shape, take *Taking)
	Stops func(s *trade.Shape, stops *Stops)

	FromTheRight bool // it is drawn from the right too, whether or not it has dimensions there
	Arcs         bool // its round faces are milled about the centre of a groove
}

// PlainShape is the shape of a part of which only the sizes are stated, by what they are
// called.
type PlainShape struct {
	Sizes []string
	Shape func(called func(id string) trade.Measure) trade.Shape
}

// Section is where the shape of the kind is described among the keys of the job file.
func (k *Kind) Section() *keys.Entry { return keys.Section("part.shape." + string(k.Kind)) }

// Missing names what an entry lacks; it is empty for a complete one.
func Missing(k *Kind) []string {
	var list []string
	lacks := func(is bool, what string) {
		if is {
			list = append(list, what)
		}
	}
	lacks(k.Kind == "", "Kind")
	lacks(k.Called == "", "Called")
	lacks((k.Stated == nil) != (k.build == nil), "Stated and build, or neither")
	lacks(k.build == nil && k.Plain == nil, "build nor Plain")
	lacks(k.build != nil && k.Section() == nil, "section among the keys of the job file")
	lacks(k.build != nil && k.Sizes == nil, "Sizes")
	if k.Plain == nil {
		return list
	}
	lacks(len(k.Plain.Sizes) == 0, "Sizes of its Plain")
	lacks(k.Plain.Shape == nil, "Shape of its Plain")
	if section := k.Section(); section != nil {
		for _, size := range k.Plain.Sizes {
			_, there := section.Key(size)
			lacks(!there, "key "+size+" for its Plain")
		}
	}
	return list
}

var current atomic.Pointer[[]*Kind]

func init() {
	all := slices.Concat(turnedKinds, prismKinds)
	current.Store(&all)
}

// Kinds returns the whole catalogue. The entries are shared and must not be changed.
func Kinds() []*Kind { return slices.Clone(*current.Load()) }

// Find returns the entry of a kind of part.
func Find(kind trade.PartKind) (*Kind, bool) {
	list := *current.Load()
	i := slices.IndexFunc(list, func(k *Kind) bool { return k.Kind == kind })
	if i < 0 {
		return nil, false
	}
	return list[i], true
}

// stated returns the kind that a shape is of, nil where it is of none.
func stated(s *trade.Shape) *Kind {
	list := *current.Load()
	i := slices.IndexFunc(list, func(k *Kind) bool { return k.Stated != nil && k.Stated(s) })
	if i < 0 {
		return nil
	}
	return list[i]
}

// Add puts a kind of the caller's own at the end of the catalogue, and its word into
// the job file. It panics on one that is not complete, or that is there already. The
// catalogue is one for the whole program; undo puts it back to what it was before.
func Add(k *Kind) (undo func()) {
	if missing := Missing(k); len(missing) > 0 {
		panic("part: " + string(k.Kind) + " has no " + strings.Join(missing, ", no "))
	}
	if _, known := Find(k.Kind); known {
		panic("part: there is a kind " + string(k.Kind) + " already")
	}
	before := current.Load()
	after := append(slices.Clone(*before), k)
	current.Store(&after)
	forget := trade.AddPartWord(k.PartWord)
	return func() {
		forget()
		current.Store(before)
	}
}
