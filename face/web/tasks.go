package web

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"runtime/debug"
	"slices"
	"sync"
	"sync/atomic"

	"codeberg.org/oddleg/oddleg/show/doc"
)

// How much long work is done: so many tasks at once, the others wait their turn,
// and so many are remembered.
const (
	mostAtOnce = 2
	mostTasks  = 24
)

// task is work that takes longer than anybody waits for a page. It reads what it
// was given and writes nothing, so that it may end with the program.
type task struct {
	ID    string // of what is asked: who asks it again finds it
	Job   string
	Title string
	Path  string // of the page where it was asked

	who       string // for whom it is done; empty: for everybody
	done, all atomic.Int64
	stop      context.CancelFunc
	ended     chan struct{}

	// When it has ended:
	Said *doc.Document
	Err  error
}

// work is what a task does. Told hears how much is done of how much.
type work func(ctx context.Context, told func(done, all int)) (*doc.Document, error)

// Ended reports whether the task is over.
func (t *task) Ended() bool {
	select {
	case <-t.ended:
		return true
	default:
		return false
	}
}

// Begun reports whether it is known how much there is to do.
func (t *task) Begun() bool { return t.all.Load() > 0 }

// Done and All are how much is done of how much.
func (t *task) Done() string { return fmt.Sprint(t.done.Load()) }

// All is how much there is to do.
func (t *task) All() string { return fmt.Sprint(t.all.Load()) }

// Percent is how much is done, in words.
func (t *task) Percent() string {
	return fmt.Sprintf("%d %%", 100*t.done.Load()/max(1, t.all.Load()))
}

// Stops reports whether it can be stopped.
func (t *task) Stops() bool { return t.who != "" }

// told takes note of how far it is. Of several that count the farthest holds.
func (t *task) told(done, all int) {
	t.all.Store(int64(all))
	for old := t.done.Load(); int64(done) > old && !t.done.CompareAndSwap(old, int64(done)); old = t.done.Load() {
	}
}

// tasks are those of all.
type tasks struct {
	sync.Mutex
	list  []*task // the one asked for last is last
	turns chan struct{}
}

func newTasks() *tasks { return &tasks{turns: make(chan struct{}, mostAtOnce)} }

// taskID is that of what is asked.
func taskID(asked ...string) string {
	sum := sha256.Sum256(fmt.Append(nil, asked))
	return hex.EncodeToString(sum[:8])
}

// find returns a task, nil where it is not remembered.
func (l *tasks) find(id string) *task {
	l.Lock()
	defer l.Unlock()
	if i := slices.IndexFunc(l.list, func(t *task) bool { return t.ID == id }); i >= 0 {
		return l.list[i]
	}
	return nil
}

// begin sets a task going, or finds the one that does the same. One person has one
// task at a time, so that nobody holds up the others.
func (l *tasks) begin(t *task, do work) (*task, error) {
	l.Lock()
	defer l.Unlock()
	for _, other := range l.list {
		if other.ID == t.ID && !stopped(other) {
			return other, nil
		}
		if t.who != "" && other.who == t.who && !other.Ended() {
			return nil, wrong("%s is still being worked on for you: wait for it, or stop it first", other.Title)
		}
	}
	l.list = slices.DeleteFunc(l.list, func(o *task) bool { return o.ID == t.ID })
	if err := l.makeRoom(); err != nil {
		return nil, err
	}
	ctx, stop := context.WithCancel(context.Background())
	t.stop, t.ended = stop, make(chan struct{})
	l.list = append(l.list, t)
	go l.do(ctx, t, do)
	return t, nil
}

// stopped reports whether a task was stopped before it was done.
func stopped(t *task) bool { return t.Ended() && t.Err == context.Canceled }

// makeRoom forgets a task that has ended, where there are many: the oldest of those
// that nobody began, else the oldest.
func (l *tasks) makeRoom() error {
	if len(l.list) < mostTasks {
		return nil
	}
	i := slices.IndexFunc(l.list, func(t *task) bool { return t.Ended() && !t.Stops() })
	if i < 0 {
		i = slices.IndexFunc(l.list, (*task).Ended)
	}
	if i < 0 {
		return wrong("so many are waiting for long work that there is no room for more: try again in a while")
	}
	l.list = slices.Delete(l.list, i, i+1)
	return nil
}

// do waits for its turn and does the work. A mistake of the program ends this task
// and no other.
func (l *tasks) do(ctx context.Context, t *task, do work) {
	defer close(t.ended)
	defer t.stop()
	defer func() {
		if mistake := recover(); mistake != nil {
			t.Err = fmt.Errorf("%v\n%s", mistake, debug.Stack())
		}
	}()
	select {
	case l.turns <- struct{}{}:
		defer func() { <-l.turns }()
	case <-ctx.Done():
		t.Err = ctx.Err()
		return
	}
	t.Said, t.Err = do(ctx, t.told)
}
