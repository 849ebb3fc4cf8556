package trade

import (
	"slices"
	"sync/atomic"
)

// PartWord is what the trade knows of a kind of part: its word, what it is called and
// whether its threads are cut inside where no shape says so. How it is made out stands
// in its entry in make/part.
type PartWord struct {
	Kind   PartKind
	Called string // in a sentence: "turned part"
	Nut    bool
}

var partWords = func() *atomic.Pointer[[]PartWord] {
	var p atomic.Pointer[[]PartWord]
	p.Store(&[]PartWord{
		{Kind: TurnedPart, Called: "turned part"},
		{Kind: SectorShoe, Called: "sector shoe"},
		{Kind: PlatePart, Called: "plate"},
		{Kind: NutPart, Called: "nut", Nut: true},
		{Kind: BushPart, Called: "bush"},
		{Kind: KeyPart, Called: "key"},
		{Kind: GibPart, Called: "gib"},
		{Kind: WasherPart, Called: "washer"},
	})
	return &p
}()

// PartKinds lists every kind of part.
func PartKinds() []PartKind {
	var list []PartKind
	for _, w := range *partWords.Load() {
		list = append(list, w.Kind)
	}
	return list
}

// Word returns what the trade knows of a kind of part; of one that there is not, its
// word alone.
func (k PartKind) Word() PartWord {
	list := *partWords.Load()
	if i := slices.IndexFunc(list, func(w PartWord) bool { return w.Kind == k }); i >= 0 {
		return list[i]
	}
	return PartWord{Kind: k, Called: string(k)}
}

// AddPartWord puts a kind of part of the caller's own after those there are; undo takes
// it out again. Whoever adds one adds its entry in make/part, which calls this.
func AddPartWord(w PartWord) (undo func()) {
	before := partWords.Load()
	after := append(slices.Clone(*before), w)
	partWords.Store(&after)
	return func() { partWords.Store(before) }
}

// PartWordsEdition stands for a state of the list of kinds: two are equal if none was
// put in or taken out between them.
type PartWordsEdition struct{ of *[]PartWord }

// CurrentPartWords returns the edition of now.
func CurrentPartWords() PartWordsEdition { return PartWordsEdition{partWords.Load()} }
