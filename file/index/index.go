// Package index says what a job is found by: its words, its threads, the sizes it
// has and those it is made to. It reads what somebody asks for in the same terms,
// so that a stud read as 11.1 mm is found by 7/16 in.
//
// A job that cannot be worked out yet is found by its words. Nothing here is kept:
// the record keeps an index beside the text that it was made of.
package index

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/fit"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// Read returns what the job of a text is found by. A job that is not far enough
// for sizes is found by its words; doubt then says why.
func Read(name string, source []byte) (entry record.Index, doubt string, err error) {
	job, err := jobfile.ReadPlanned(name, source)
	if err != nil {
		return record.Index{}, "", err
	}
	x := begin(job)
	f, err := found(name, source)
	if err == nil {
		err = x.sizes(f)
	}
	if err != nil {
		var faults trade.Faults
		if !errors.As(err, &faults) {
			return record.Index{}, "", err
		}
		doubt = fmt.Sprintf("It cannot be found by its sizes yet: %s.", strings.TrimSuffix(faults[0].Text, "."))
	}
	return x.index, doubt, nil
}

// Any is Read for a text that may be wrong: then the job is found by nothing but
// what could be read.
func Any(source []byte) record.Index {
	entry, _, _ := Read("", source)
	return entry
}

// Of is Read for a job that has been worked out already; found is nil where
// nothing can be.
func Of(job *trade.Job, found *reckon.Found) record.Index {
	x := begin(job)
	if found != nil {
		_ = x.sizes(found) // the sizes to make may be missing yet
	}
	return x.index
}

// begin takes in what needs no working out.
func begin(job *trade.Job) *indexer {
	x := &indexer{job: job, index: record.Index{Name: job.Name, Machine: job.Machine}}
	x.words()
	x.threads()
	return x
}

// seed is that of the simulations behind what is found.
const seed = 1

// found reads a job and takes it through the stages.
func found(name string, source []byte) (*reckon.Found, error) {
	job, err := jobfile.Read(name, source)
	if err != nil {
		return nil, err
	}
	return reckon.Job(context.Background(), job, seed)
}

// indexer gathers what a job is found by.
type indexer struct {
	job   *trade.Job
	index record.Index
}

func (x *indexer) word(words ...string) {
	for _, word := range words {
		if word != "" {
			x.index.Words = append(x.index.Words, strings.NewReplacer("_", " ", "-", " ").Replace(word))
		}
	}
}

// words takes the words of the job in.
func (x *indexer) words() {
	for _, size := range x.job.Sizes {
		x.word(size.ID, size.Meant, size.Say)
	}
	for _, reading := range x.job.Readings {
		x.word(reading.Say)
	}
	for _, joint := range x.job.Joints {
		x.word(joint.ID, joint.Say)
	}
	for _, operation := range x.job.Work {
		x.word(operation.Do, operation.Say)
	}
	part := x.job.Part
	if part == nil {
		return
	}
	x.index.Part = part.Name
	x.word(part.Name, string(part.Kind), part.Material)
	for _, size := range part.Sizes {
		x.word(size.ID, size.Say)
	}
}

// threads takes in the threads that were decided on.
func (x *indexer) threads() {
	for _, t := range x.job.Threads {
		x.thread(t.ID, t.Meant)
	}
	for _, joint := range x.job.Joints {
		x.thread(joint.ID, joint.Stud.Thread)
		x.thread(joint.ID, joint.Into.Thread)
	}
	if x.job.Part == nil {
		return
	}
	for _, size := range x.job.Part.Sizes {
		x.thread(size.ID, size.Thread)
	}
}

// thread takes one in, as the tables write it where they have it.
func (x *indexer) thread(name, text string) {
	if text == "" {
		return
	}
	if known, ok := facts.FindThread(text); ok {
		text = known.Designation
	}
	x.index.Threads = append(x.index.Threads, record.Thread{Name: name, Designation: text})
	x.word(text)
}

// sizes takes in the lengths that are found, and those to make.
func (x *indexer) sizes(f *reckon.Found) error {
	for _, size := range f.Result.Sizes {
		if size.Determined && size.Dimension == unit.Length {
			x.size(size.ID, size.Value)
		}
	}
	if x.job.Part == nil {
		return nil
	}
	made, err := fit.Sizes(f.Result, f.Meaning())
	if err != nil {
		return err
	}
	for _, m := range made {
		if m.Size.From != trade.IsThread && m.Size.Kind.Dimension() == unit.Length {
			x.size("part."+m.Size.ID, m.Target)
		}
	}
	return nil
}

func (x *indexer) size(name string, mm float64) {
	if math.IsNaN(mm) || math.IsInf(mm, 0) {
		return
	}
	x.index.Sizes = append(x.index.Sizes, record.Size{Name: name, Text: unit.ShowLength(mm, x.job.Units), MM: mm})
}
