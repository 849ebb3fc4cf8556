// Package jobfile reads a job from its YAML file. What keys there are and what
// each may hold is described in package keys; the readers of the sections ask the
// fields of a mapping for them, and check what one thing asks of another.
//
// Every value is text to the YAML layer, so 1:20 and NO stay what they look like.
// What is not known is an error, never passed over. All that is wrong is found in
// one go where that can be done, each fault with its line and column, and a wrong
// file gives no job at all.
package jobfile

import (
	"codeberg.org/oddleg/oddleg/file/yamltree"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/sound"
)

// MaxSize is the most bytes a job file may have: 1 MB.
const MaxSize = yamltree.MaxSize

// Read returns the job written in data. The error, if any, is trade.Faults in
// the order of the file, and the job is then nil. The file has at most MaxSize
// bytes of UTF-8, with or without a byte-order mark and carriage returns. Its
// name does not matter to what is read.
func Read(_ string, data []byte) (*trade.Job, error) { return newReader(keys.File(), false).read(data) }

// ReadPlanned is Read for a job whose readings need not have been taken: one
// without `saw` is planned. A touch says in `saw` about where it will be.
func ReadPlanned(_ string, data []byte) (*trade.Job, error) {
	return newReader(keys.File(), true).read(data)
}

// newReader returns a reader of files that have the keys described.
func newReader(file *keys.Entry, planned bool) *reader {
	known := &register{
		complaints: &complaints{},
		job:        &trade.Job{Units: unit.Millimetre},
		owners:     map[string]owner{},
		readings:   map[string]trade.Pos{},
		made:       map[string]int{},
	}
	return &reader{values: &values{register: known, metals: map[string]bool{}}, file: file, planned: planned}
}

func (r *reader) read(data []byte) (*trade.Job, error) {
	text, err := yamltree.Plain(data)
	if err != nil {
		return nil, err
	}
	root, err := yamltree.Parse(text)
	if err != nil {
		return nil, err
	}
	r.document(root)
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	if err := sound.Check(r.job); err != nil {
		return nil, err
	}
	return r.job, nil
}

// reader makes the job from the tree of the file, section by section: each has a
// reader of its own, which asks the fields of a mapping for what it wants to know.
type reader struct {
	*values
	file    *keys.Entry
	planned bool // readings may be without values
}

func (r *reader) document(root yamltree.Node) {
	if root.Shape == yamltree.Empty {
		root.Pos = trade.Pos{Line: 1, Column: 1}
	}
	f := r.fields(root, "the file", r.file)
	if f.absent() {
		return
	}
	r.readHead(f)
	// What readings and relations name is read before them, wherever it stands.
	kitReader{r.values}.readKit(f)
	sizeReader{r.values}.readSizes(f)
	places := planReader{r.values}
	places.readPlans(f)
	places.readPlaces(f)
	r.names = r.ids(aSize, aPiece)
	readings := readingReader{r.values, r.planned}
	readings.readReadings(f)
	relationReader{r.values}.readRelations(f)
	threadReader{r.values}.readThreads(f)
	partReader{r.values}.readPart(f)
	jointReader{r.values}.readJoints(f)
	shopReader{r.values}.readShop(f)
	workReader{r.values}.readWork(f)
	checkReader{readings}.readChecks(f)
	surveyReader{r.values}.readSurveys(f)
}

// readHead reads what the job is and the units of its bare numbers.
func (r *reader) readHead(f fields) {
	if v := f.text("oddleg"); v != "" && v != keys.Version {
		r.fault(f.at("oddleg"), "version %s of the format is not known; this program reads %s", yamltree.Quote(v), keys.Version)
	}
	r.job.Name = f.text("job")
	if f.text("units") == "in" {
		r.job.Units = unit.Inch
	}
	if f.has("machine") {
		m := f.item("machine", f.at("machine"), "machine")
		r.job.Machine = trade.Machine{What: m.text("what"), Built: m.whole("built"), Country: m.text("country")}
	}
}
