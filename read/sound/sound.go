// Package sound judges whether a job makes sense by itself, whoever made it: a
// file that was read, or a program.
//
// Each thing of the job is told by its keys and values, and the description of
// the file (package keys) says what these may be and what they ask of each other:
// words, signs, bounds, what must be there and what has no place. What takes the
// rest of the job to know stands here: whether an id is that of the right thing,
// an expression can be read and measures what it should, and nothing goes round in
// a circle. What is stated is stated by its value; its place in a file, where there
// is one, only says where a fault is. The stages after it may rely on all of this.
//
// Expressions are read here, once, and what they say is left with the job
// (trade.Formula), where every stage finds it.
package sound

import (
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// mostFaults is how many faults are told of one job.
const mostFaults = 1000

// Check says what is wrong in a job as trade.Faults, nil where nothing is. Each
// fault names the thing that it is about in words, and has its place in the file
// where the job was read from one. A reading without values is planned, and no
// fault.
func Check(job *trade.Job) error {
	c := &check{
		job:      job,
		owners:   map[string]owner{},
		readings: map[string]trade.Pos{},
		made:     map[string]int{},
	}
	if job == nil {
		return trade.Faults{{Text: "there is no job"}}
	}
	c.head()
	c.claimAll()
	for _, section := range []func(){
		c.kit, c.sizes, c.plans, c.places, c.allReadings, c.relations, c.threads,
		c.part, c.joints, c.shop, c.work, c.checks, c.surveys,
	} {
		section()
	}
	return c.faults.Err()
}

// check gathers what is wrong in a job.
type check struct {
	job      *trade.Job
	faults   trade.Faults
	owners   map[string]owner     // what has an id, by the id
	readings map[string]trade.Pos // where a reading's id was written
	made     map[string]int       // index of a size of the part, by its id

	names, partNames []string // what a formula of the job may have meant, and one of the part
}

// fault notes what is wrong, as long as there are not very many faults.
func (c *check) fault(pos trade.Pos, format string, args ...any) {
	if len(c.faults) < mostFaults {
		c.faults.Add(pos, format, args...)
	}
}

// head checks what the job is and the units of its bare numbers.
func (c *check) head() {
	if c.job.Units != unit.Millimetre && c.job.Units != unit.Inch {
		c.fault(trade.Pos{}, "the units of the job are neither millimetres nor inches")
	}
	m := c.job.Machine
	c.tell("machine", "machine", trade.Pos{}, told{"what", m.What}, told{"built", m.Built},
		told{"country", m.Country})
	if c.job.Name == "" {
		c.fault(trade.Pos{}, `the job: "job" is missing: what it is called`)
	}
}
