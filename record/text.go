package record

// Item is one entry of a job's text, as it is to be written: a reading, a size,
// a gauge piece.
type Item struct {
	Section string // kit, sizes, readings ... ; part.sizes for those of the part
	ID      string
	Fields  []Field
}

// Field is one key of an entry and what the user typed for it: one text, a list
// of them, or keys of its own.
type Field struct {
	Key  string
	Text string
	List []string
	Map  []Field
}

// Clash is an entry of a job that two people changed in different ways. An empty
// text says that it is not there.
type Clash struct {
	Section, ID        string
	Base, Mine, Theirs string
}
