package store

import (
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

func TestPutAway(t *testing.T) {
	s := fresh(t)
	if !must[bool](t)(s.Fresh(ctx)) {
		t.Error("a new store is not fresh")
	}
	job := save(t, s, "", 0, "one", 0).Job
	must[record.Entry](t)(s.Shelve(ctx, record.Entry{Stamp: at(1), Job: job, Made: 1, Place: "drawer 4"}))
	away := func(away bool) {
		t.Helper()
		for range 2 { // sent twice it does no harm
			if err := s.PutAway(ctx, job, away, at(2)); err != nil {
				t.Fatal(err)
			}
		}
	}
	listed := func(want bool) {
		t.Helper()
		jobs, put := must[[]record.Job](t)(s.Jobs(ctx)), must[[]record.Job](t)(s.PutAwayJobs(ctx))
		on := must[[]record.Job](t)(s.JobsOn(ctx, shaper))
		hits := must[[]record.Hit](t)(s.Find(ctx, record.Query{Words: []string{"clapper"}}))
		named := must[[]record.Job](t)(s.JobsCalled(ctx, clamp.Name, shaper))
		machines := must[[]trade.Machine](t)(s.Machines(ctx))
		for what, there := range map[string]int{
			"jobs": len(jobs), "on the machine": len(on), "found": len(hits), "of its name": len(named), "machines": len(machines), "put away": 1 - len(put),
		} {
			if (there == 1) != want {
				t.Errorf("%s: %d, want it there: %v", what, there, want)
			}
		}
	}
	listed(true)
	away(true)
	listed(false)
	if spares := must[[]record.Hit](t)(s.OnShelf(ctx)); len(spares) != 1 {
		t.Errorf("what is on the shelf stays there: %+v", spares)
	}
	if j := must[record.Job](t)(s.Job(ctx, "tool head")); !j.PutAway {
		t.Errorf("by its name: %+v", j)
	}
	away(false)
	listed(true)
	away(true)
	save(t, s, job, 1, "one", 3) // nothing new in it
	listed(false)
	save(t, s, job, 1, "two", 3)
	listed(true)
	if must[bool](t)(s.Fresh(ctx)) {
		t.Error("a store with a job is fresh")
	}
	refuses(t, s.PutAway(ctx, "ABCDEF", true, at(0)), "no job has the id")
}

// TestJobIsNotHiddenByOneAway: a name leads to the job that is in the lists.
func TestJobIsNotHiddenByOneAway(t *testing.T) {
	s := fresh(t)
	first, second := save(t, s, "", 0, "one", 0).Job, save(t, s, "", 0, "other", 0).Job
	if err := s.PutAway(ctx, first, true, at(1)); err != nil {
		t.Fatal(err)
	}
	for _, called := range []string{clamp.Name, "tool head", second} {
		if j := must[record.Job](t)(s.Job(ctx, called)); j.ID != second {
			t.Errorf("%q leads to %s, want %s", called, j.ID, second)
		}
	}
	if j := must[record.Job](t)(s.Job(ctx, first)); j.ID != first {
		t.Errorf("the id leads to %+v", j)
	}
	if other := must[[]record.Job](t)(s.JobsOn(ctx, trade.Machine{What: "planer"})); len(other) != 0 {
		t.Errorf("on another machine: %+v", other)
	}
}

func TestExamples(t *testing.T) {
	s := fresh(t)
	example := must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(0), Example: true, Source: []byte("one"), Index: clamp})).Job
	save(t, s, example, 1, "two", 1)
	if j := must[record.Job](t)(s.Job(ctx, example)); !j.Example || j.Revision != 2 {
		t.Errorf("an example that was worked on: %+v", j)
	}
	own := save(t, s, "", 0, "one", 0).Job
	_, err := s.Save(ctx, record.Save{Stamp: at(1), Job: own, From: 1, Example: true, Source: []byte("two"), Index: clamp})
	refuses(t, err, "cannot become an example")
	_, err = s.Save(ctx, record.Save{Stamp: at(1), Job: "../etc", Source: []byte("two"), Index: clamp})
	refuses(t, err, "no job has the id")
}
