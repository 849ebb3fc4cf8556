// Package trade holds the words of the trade as types: a job with its kit,
// the sizes sought, the readings taken and what ties the sizes together.
//
// It does no arithmetic and knows no files. Package jobfile makes a Job from
// text and checks all of it; the stages (package adjust and those after it)
// take a checked Job and work out results from it, afresh each time: what is
// kept is what was read and decided, never a result.
package trade

import "codeberg.org/oddleg/oddleg/num/unit"

// Pos is where in its file a thing was written, both counted from 1. The zero
// Pos is that of a thing made by a program.
type Pos struct {
	Line, Column int
}

// Job is one repair: everything seen and decided about one part.
type Job struct {
	Name        string
	Machine     Machine
	Units       unit.Unit // unit.Millimetre or unit.Inch: of bare numbers, and what is shown to who likes neither better
	Instruments []Instrument
	Pieces      []Piece
	Sizes       []Size
	Readings    []Reading
	Relations   []Relation
	Plans       []Plan
	Places      []Place
	Threads     []Thread
	Part        *Part // nil where nothing is to be made
	Joints      []Joint
	Shop        []Machinery
	Work        []Operation
	Checks      []Check
	Surveys     []Survey
}

// Machine is the machine being mended: a prior for what its maker meant.
type Machine struct {
	What    string
	Built   int // year, 0 if unknown
	Country string
}

// Instrument returns the instrument with this id, nil if there is none.
func (j *Job) Instrument(id string) *Instrument { return byID(j.Instruments, id) }

// Piece returns the gauge piece with this id, nil if there is none.
func (j *Job) Piece(id string) *Piece { return byID(j.Pieces, id) }

// Size returns the size with this id, nil if there is none.
func (j *Job) Size(id string) *Size { return byID(j.Sizes, id) }

// Reading returns the reading with this id, nil if there is none.
func (j *Job) Reading(id string) *Reading { return byID(j.Readings, id) }

// Place returns the circle or line with this id, nil if there is none.
func (j *Job) Place(id string) *Place { return byID(j.Places, id) }

// Hole returns the plan that the hole with this id belongs to and its index
// there, nil if there is none.
func (j *Job) Hole(id string) (*Plan, int) {
	for p := range j.Plans {
		for h, hole := range j.Plans[p].Holes {
			if hole == id {
				return &j.Plans[p], h
			}
		}
	}
	return nil, 0
}

// Machinery returns the machine of the shop with this id, nil if there is none.
func (j *Job) Machinery(id string) *Machinery { return byID(j.Shop, id) }

type identified interface{ id() string }

func byID[T any, P interface {
	*T
	identified
}](list []T, id string) *T {
	for i := range list {
		if P(&list[i]).id() == id {
			return &list[i]
		}
	}
	return nil
}

func (i *Instrument) id() string { return i.ID }
func (p *Piece) id() string      { return p.ID }
func (s *Size) id() string       { return s.ID }
func (r *Reading) id() string    { return r.ID }
func (p *Place) id() string      { return p.ID }
