package web

import (
	"context"
	"crypto/sha256"
	"errors"
	"sync"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/reckon"
)

// seed is that of all simulations behind a page: the same job shows the same.
const seed = 1

// mostCached is how many jobs are remembered as worked out.
const mostCached = 64

// worked is what a text came to: the job, and what the stages find of it. Where
// the text is wrong Job is nil and Faults says why; where the readings are,
// Found is nil.
type worked struct {
	Job    *trade.Job
	Found  *reckon.Found
	Next   func() *advise.Advice // what to read next, where Found is there
	Faults trade.Faults

	likes unit.Unit // of who asked, as a person's Units: nothing here was worked out by it
}

// view is in what units it is shown.
func (w *worked) view() unit.View { return viewOf(w.Job, w.likes) }

// viewOf is in what units a job is shown: those that somebody likes, else those that it
// is written in.
func viewOf(job *trade.Job, likes unit.Unit) unit.View {
	if likes == unit.One && job != nil {
		likes = job.Units
	}
	return unit.View{In: likes}
}

// key is the hash of a text.
type key [sha256.Size]byte

// cache remembers what the latest texts came to. Whoever asks for one that is
// being worked out waits for it.
type cache struct {
	sync.Mutex
	texts  map[key]func() worked
	order  []key // the one asked for last is last
	misses int   // how often a text was not there
}

func newCache() *cache { return &cache{texts: map[key]func() worked{}} }

// of returns what a text came to, worked out at most once.
func (c *cache) of(source []byte, work func() worked) worked {
	at := key(sha256.Sum256(source))
	c.Lock()
	once, ok := c.texts[at]
	if !ok {
		once = sync.OnceValue(work)
		c.texts[at] = once
		c.misses++
	}
	c.freshen(at)
	c.Unlock()
	return once()
}

// freshen moves a text to the end of those to be forgotten.
func (c *cache) freshen(at key) {
	for i := range c.order {
		if c.order[i] == at {
			c.order = append(c.order[:i], c.order[i+1:]...)
			break
		}
	}
	c.order = append(c.order, at)
	if len(c.order) > mostCached {
		delete(c.texts, c.order[0])
		c.order = c.order[1:]
	}
}

// work works out a text once for all, and returns it to be shown to somebody who likes
// these units.
func (s *desk) work(source []byte, likes unit.Unit) worked {
	is := s.cache.of(source, func() worked {
		job, err := readJob(source)
		if err != nil {
			return worked{Faults: faultsOf(err)}
		}
		// What it comes to is there for all who look: nobody's leaving ends it.
		found, err := reckon.Job(context.Background(), job, seed)
		if err != nil {
			return worked{Job: job, Faults: faultsOf(err)}
		}
		next := sync.OnceValue(func() *advise.Advice { return advise.Next(context.Background(), found.Result, advise.Options{}) })
		return worked{Job: job, Found: found, Next: next}
	})
	is.likes = likes
	return is
}

// faultsOf returns what is wrong with what the user wrote. Any other error of a
// stage is shown as one.
func faultsOf(err error) trade.Faults {
	var faults trade.Faults
	if err != nil && !errors.As(err, &faults) {
		faults = trade.Faults{{Text: err.Error()}}
	}
	return faults
}

// readJob reads a job under way: its readings need not have been taken.
func readJob(source []byte) (*trade.Job, error) { return jobfile.ReadPlanned("", source) }
