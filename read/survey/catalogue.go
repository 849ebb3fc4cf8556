// Package survey is the catalogue of surveys: how to look how far slides and screws
// have worn and how true a machine stands, from what a dial, feelers or rollers showed
// at places along a slide, on collars or on a test bar.
//
// A kind of survey is one entry in one file, its family's: with what it is written, how
// its readings are worked out, what is found, advised and drawn. Missing says what an
// entry lacks. Each survey is one least-squares adjustment of its readings with the
// errors of its instruments, so that a zero cancels where it does at the bench; what
// follows from it carries the standard uncertainty u. Lengths are in mm, angles in
// radians.
package survey

import (
	"slices"
	"strings"
	"sync/atomic"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Kind is one entry of the catalogue.
type Kind struct {
	Name     trade.SurveyKind // the word in the job file
	Title    string
	Says     string // one plain sentence: what it is for and how it is read
	Source   string // of what its figures are worked out by
	Keys     []Key
	Stations int  // the fewest that it needs; 0: it has none
	Rollers  bool // it is read with rollers

	Work   func(l *Look) error
	Finds  []string // the keys of all that it may find, the chief ones first
	Judged string   // which of these its tolerance is held against as it grows from survey to survey, if any
	Bounds string   // what the limits of its plot are of; empty: what was judged
}

// Key is a key of a survey, for an angle, a length or pitch above 0, readings with the
// instrument, an instrument, or one of some words.
type Key struct {
	Name       string
	Sort       Sort
	Words      []string // of which it is one; the first where none is written
	Count      int      // of readings; 0: one or several
	Obligatory bool
	Beside     string // another key that must stand where this one does
	Say        string
}

// Sort is what stands under a key of a survey.
type Sort uint8

// The sorts.
const (
	Length Sort = iota
	Angle
	Readings
	Instrument
	Word
	Pitch
)

// Missing names what an entry lacks; it is empty for a complete one.
func Missing(k *Kind) []string {
	var list []string
	lacks := func(is bool, what string) {
		if is {
			list = append(list, what)
		}
	}
	lacks(k.Name == "", "Name")
	lacks(k.Title == "", "Title")
	lacks(k.Says == "", "Says")
	lacks(k.Source == "", "Source")
	lacks(k.Work == nil, "Work")
	lacks(len(k.Finds) == 0, "Finds")
	lacks(k.Judged != "" && !slices.Contains(k.Finds, k.Judged), "finding "+k.Judged+" for its Judged")
	lacks(k.Stations == 0 && !k.Rollers && !slices.ContainsFunc(k.Keys, obliges), "Stations, Rollers nor readings that it obliges to")
	for _, key := range k.Keys {
		lacks(key.Name == "", "Name of a key")
		lacks(key.Say == "", "Say of its key "+key.Name)
		lacks((key.Sort == Word) != (len(key.Words) > 0), "words, or no Sort for words, of its key "+key.Name)
		lacks(key.Beside != "" && k.Key(key.Beside) == nil, "key "+key.Beside+" beside its key "+key.Name)
	}
	return list
}

func obliges(key Key) bool { return key.Sort == Readings && key.Obligatory }

// Key returns the key with this name, nil where there is none.
func (k *Kind) Key(name string) *Key {
	i := slices.IndexFunc(k.Keys, func(key Key) bool { return key.Name == name })
	if i < 0 {
		return nil
	}
	return &k.Keys[i]
}

// book is a state of the catalogue: it is made once and never changed.
type book struct{ list []*Kind }

var current = func() *atomic.Pointer[book] {
	var p atomic.Pointer[book]
	p.Store(&book{slices.Concat(screws, slides, alignments, dovetails)})
	return &p
}()

// Kinds returns the whole catalogue. The entries are shared and must not be changed.
func Kinds() []*Kind { return slices.Clone(current.Load().list) }

// Find returns the entry of a kind.
func Find(kind trade.SurveyKind) (*Kind, bool) {
	list := current.Load().list
	i := slices.IndexFunc(list, func(k *Kind) bool { return k.Name == kind })
	if i < 0 {
		return nil, false
	}
	return list[i], true
}

// Add puts a kind of the caller's own at the end of the catalogue, for everything that
// looks into it from then on. It panics on one that is not complete, or that is there
// already. The catalogue is one for the whole program; undo puts it back to what it was
// before.
func Add(k *Kind) (undo func()) {
	if missing := Missing(k); len(missing) > 0 {
		panic("survey: " + string(k.Name) + " has no " + strings.Join(missing, ", no "))
	}
	if _, known := Find(k.Name); known {
		panic("survey: there is a survey " + string(k.Name) + " already")
	}
	before := current.Load()
	current.Store(&book{append(slices.Clone(before.list), k)})
	return func() { current.Store(before) }
}

// Edition stands for a state of the catalogue: two are equal if nothing was put in or
// taken out between them.
type Edition struct{ of *book }

// CurrentEdition returns the edition of now, by which something made out of the
// catalogue knows whether it must be made again.
func CurrentEdition() Edition { return Edition{current.Load()} }
