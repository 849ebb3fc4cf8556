package reckon_test

import (
	"context"
	"errors"
	"os"
	"strings"
	"sync"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/reckon"
)

// patient is a context that ends after it was asked so many times, and counts
// how often it is asked: the work is counted, not the time.
type patient struct {
	context.Context
	mutex       sync.Mutex
	asked, ends int
}

func (p *patient) Err() error {
	p.mutex.Lock()
	defer p.mutex.Unlock()
	p.asked++
	if p.asked > p.ends {
		return context.Canceled
	}
	return nil
}

// doubtful is a job with a slip in it, a thimble turned once too few.
func doubtful(t *testing.T) []byte {
	t.Helper()
	source, err := os.ReadFile("../read/blunder/testdata/ring.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return []byte(strings.ReplaceAll(string(source), "saw: 72.04", "saw: 71.54"))
}

// TestStopped ends a context while a slip is being explained: hardly any of the
// work that it takes is done, no half of an answer is returned, and no stage is
// begun any more.
func TestStopped(t *testing.T) {
	job, err := jobfile.Read("ring.yaml", doubtful(t))
	if err != nil {
		t.Fatal(err)
	}
	whole := &patient{Context: t.Context(), ends: 1 << 30}
	found, err := reckon.Job(whole, job, 1)
	if err != nil {
		t.Fatal(err)
	}
	before := whole.asked
	if len(found.Doubts()) == 0 || whole.asked < before+5 {
		t.Fatalf("the slip is found by %d pieces of work: too few to stop among", whole.asked-before)
	}
	few := &patient{Context: t.Context(), ends: before + 2}
	if found, err = reckon.Job(few, job, 1); err != nil {
		t.Fatal(err)
	}
	if doubts := found.Doubts(); doubts != nil {
		t.Errorf("stopped, it says %v", doubts)
	}
	if _, err := found.Upkeep(); !errors.Is(err, context.Canceled) {
		t.Errorf("a stage is begun after the end: %v", err)
	}
	if _, err := reckon.Job(few, job, 1); !errors.Is(err, context.Canceled) {
		t.Errorf("a job is begun after the end: %v", err)
	}
}

// TestStagesAreStopped ends a context in the midst of each stage that takes long:
// no half of an answer is returned, and hardly any work is done after the end.
func TestStagesAreStopped(t *testing.T) {
	for name, stage := range map[string]struct {
		file string
		ask  func(*reckon.Found) error
	}{
		"fit":      {"../testdata/jobs/part-key.yaml", func(f *reckon.Found) error { _, err := f.Fitted(); return err }},
		"set-ups":  {"../examples/cover-plate.yaml", func(f *reckon.Found) error { _, err := f.SetUps(); return err }},
		"proof":    {"../examples/index-plunger.yaml", func(f *reckon.Found) error { _, err := f.Proved(); return err }},
		"taken on": {"../testdata/jobs/part-spindle.yaml", func(f *reckon.Found) error { _, err := f.Proved(); return err }},
	} {
		source, err := os.ReadFile(stage.file)
		if err != nil {
			t.Fatal(err)
		}
		work := func(ends int) (before, asked int, err error) {
			job, err := jobfile.Read(stage.file, source)
			if err != nil {
				t.Fatal(err)
			}
			p := &patient{Context: t.Context(), ends: ends}
			found, err := reckon.Job(p, job, 1)
			if err != nil {
				t.Fatal(err)
			}
			before = p.asked
			err = stage.ask(found)
			return before, p.asked, err
		}
		before, all, err := work(1 << 30)
		if err != nil || all < before+4 {
			t.Fatalf("%s: %d pieces of work: too few to stop among (%v)", name, all-before, err)
		}
		half := before + (all-before)/2
		_, asked, err := work(half)
		if !errors.Is(err, context.Canceled) || asked > half+40 {
			t.Errorf("%s, stopped after %d of %d pieces of work: it went on to %d (%v)", name, half-before, all-before, asked-before, err)
		}
	}
}
