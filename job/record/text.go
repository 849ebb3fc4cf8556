package record

// Item is one entry of a job's text, as it is to be written: a reading, a size,
// a gauge piece. One of a list that has no id goes by its place, from 1: "2", or
// as faults name it, "joint 2"; one that is to be added to a list need not have
// any.
type Item struct {
	Section string // kit, sizes, readings ... ; part.sizes, shop.lathe.cutters for those within
	ID      string
	Fields  []Field
}

// Field is one key of an entry and what the user typed for it: one text, a list
// of them, keys of its own, or items, which are fields without keys. One that
// holds none of these takes its key out. A single field without a key is the
// whole of an entry that has no keys, such as a travel.
type Field struct {
	Key   string
	Text  string
	List  []string
	Map   []Field
	Items []Field
}

// Clash is an entry of a job that two people changed in different ways, or a
// section as a whole where ID is empty. Where Section is empty it is a run of
// lines, with ID "line 12" for its first in the merged text, or what stands below
// all sections. An empty text says that it is not there.
type Clash struct {
	Section, ID        string
	Base, Mine, Theirs string
}
