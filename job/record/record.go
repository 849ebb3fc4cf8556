// Package record holds the words of the shop's record as types: jobs and their
// revisions, parts made and spares on the shelf, photographs, the kit, and the
// devices that may look and write.
//
// It does nothing. Package store keeps these things, package web shows them,
// and neither knows the other. What is kept is what was written: no result is
// in here but an Index, which a job is found by.
package record

import (
	"errors"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Stamp says when something was done, by whom and why.
type Stamp struct {
	When time.Time
	Who  string
	Note string
}

// Job is a job as its current revision has it.
type Job struct {
	ID       string // short, to be written on a bag: never changes
	Name     string
	Machine  trade.Machine
	Part     string
	Revision int       // the current one
	Saved    time.Time // when that was
	OnShelf  int       // spares
	Pictures int       // how many photographs are kept with it
	Branches []int     // that nobody has taken in yet, by their first revision
	Example  bool      // came with the program
	PutAway  bool      // out of the lists, kept all the same
}

// Revision is a job as it was saved once.
type Revision struct {
	Stamp
	Job      string // its id
	Number   int    // from 1, in the order of saving
	From     int    // the revision it was made from, 0 for none
	Branch   int    // 0 on the main line, else the number of its branch's first revision
	Merges   int    // the branch that it takes in, 0 for none
	Restores int    // the revision whose text it brings back, 0 for none
}

// Save is a job to be saved.
type Save struct {
	Stamp
	Job     string // its id, empty for a new job
	From    int    // the revision it was made from, 0 for none
	Merges  int    // the branch that it takes in, 0 for none
	File    string // the file outside the record that it was read from, remembered; empty for none
	Example bool   // a new job that comes with the program
	Source  []byte
	Index   Index
}

// Saved is what became of a save.
type Saved struct {
	Revision
	Unchanged bool       // nothing was different: it is the revision that was there
	Later     []Revision // saved on the main line since the one it was made from: it is now a branch beside them
}

// Index is what a job is found by. It is made from the job by who knows how to
// read one.
type Index struct {
	Name    string
	Machine trade.Machine // the one being mended
	Part    string
	Words   []string
	Sizes   []Size
	Threads []Thread
}

// Size is a size as written and in mm.
type Size struct {
	Name string
	Text string
	MM   float64
}

// Thread is a thread by its designation.
type Thread struct {
	Name        string
	Designation string
}

// Entry is what happened to parts made of a job: some were made, some of them
// fitted or scrapped. What is left is on the shelf.
type Entry struct {
	Stamp           // its Note is not kept: How and Better say it
	ID       string // of 16 of the letters of ids; empty: given by the record
	Job      string
	Revision int // of the job that they were made to, 0: the current one
	Made     int
	Fitted   int
	Scrapped int
	Place    string // where on the shelf; empty: as before
	Drawing  string // its revision
	Material string
	How      string // how they were made
	Better   string // what to do better next time
	Sizes    []Size // as they came out
}

// Photograph is a picture kept with a job. The note of its stamp is its caption.
type Photograph struct {
	Stamp
	Job    string
	SHA256 string // of its bytes, in hexadecimal: its name
	MIME   string // image/jpeg or image/png
	Data   []byte // nil in a list
	Pins   []Pin
}

// Pin ties a point of a photograph to a size of its job. X and Y are parts of
// the picture's width and height, from its upper left corner.
type Pin struct {
	ID   string // given by the record
	X, Y float64
	Size string // id of the size; empty: only Say
	Say  string
}

// Class says what sort of thing in the shop's kit it is.
type Class string

// The classes.
const (
	Instrument Class = "instrument"
	Piece      Class = "piece"
	Machine    Class = "machine"
)

// Tool is an instrument, a gauge piece or a machine of the shop.
type Tool struct {
	ID         string
	Class      Class
	Kind       string // as a job file has it: micrometer, roller, lathe
	Size       Size   // of a piece: as written, and in mm where it has a text
	Tolerance  string // as written
	Calibrated string // date, empty: not known
	Written    string // the rest, as a job file has it: "resolution: 0.01 mm, mpe: 0.01 mm"
	Say        string
}

// Query is what is sought. All of Sizes and Threads must be there; of the words
// as many as can be.
type Query struct {
	Words   []string
	Sizes   []Span
	Threads []string // designations
}

// Span is a size in mm, and how far off it may be.
type Span struct {
	MM, Within float64
}

// Hit is something found.
type Hit struct {
	Job     *Job  // or
	Tool    *Tool // of the shop's kit
	Matched []string
	Missing []string // words that it has not
	Places  []string // where spares of the job are
}

// Invitation lets one device join, once, before a time. Only the hash of its
// key is kept.
type Invitation struct {
	Hash  string // SHA-256 of the key, in hexadecimal
	Guest bool   // who joins by it may look and not write
	Until time.Time
}

// Device is a telephone or a computer that has joined. Only the hash of its
// key is kept.
type Device struct {
	ID      string // given by the record
	Name    string // as its user calls it
	Guest   bool   // may look and not write
	Joined  time.Time
	Seen    time.Time // last, to the minute
	Revoked time.Time // zero: it may come in
}

// What keeps a record from being written. The errors of a record wrap them; what
// was saved before is there all the same.
var (
	ErrFull     = errors.New("the disk is full: make room, then save again; what you typed is still here")
	ErrReadOnly = errors.New("the record cannot be written to: its disk or file is read-only; what you typed is still here")
	ErrBusy     = errors.New("another program is writing to the record and does not let go; save again in a moment")
)
