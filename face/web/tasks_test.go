package web

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/show/doc"
)

// untilStopped is work that ends when it is told to.
func untilStopped(ctx context.Context, _ func(done, all int)) (*doc.Document, error) {
	<-ctx.Done()
	return nil, ctx.Err()
}

// heard is work that says when its turn comes, and ends when it is told to.
func heard(turn chan<- struct{}) work {
	return func(ctx context.Context, told func(done, all int)) (*doc.Document, error) {
		told(1, 2)
		turn <- struct{}{}
		<-ctx.Done()
		return nil, ctx.Err()
	}
}

func begin(t *testing.T, l *tasks, id, who string, do work) *task {
	t.Helper()
	begun, err := l.begin(&task{ID: id, Title: id, who: who}, do)
	if err != nil {
		t.Fatal(err)
	}
	return begun
}

// end waits for the end of a task, however long that takes.
func end(it *task) { <-it.ended }

// TestTurns has more tasks than are done at once: the last waits, can be stopped
// while it waits, and has its turn when another ends.
func TestTurns(t *testing.T) {
	l := newTasks()
	var first []*task
	turn := make(chan struct{})
	for i := range mostAtOnce {
		first = append(first, begin(t, l, fmt.Sprint("first ", i), fmt.Sprint("person ", i), heard(turn)))
	}
	for range first { // each has its turn
		<-turn
	}
	waits := begin(t, l, "waits", "somebody else", untilStopped)
	waits.stop()
	end(waits)
	if waits.Begun() || !stopped(waits) {
		t.Errorf("stopped while it waits: begun %v, %v", waits.Begun(), waits.Err)
	}
	next := begin(t, l, "next", "a third", func(context.Context, func(done, all int)) (*doc.Document, error) { return nil, nil })
	first[0].stop()
	end(next)
	if _, err := l.begin(&task{ID: "more", who: "person 1"}, untilStopped); asFaults(err) == nil {
		t.Errorf("one person has two at once: %v", err)
	}
	if again := begin(t, l, "first 1", "person 1", untilStopped); again != first[1] {
		t.Error("what is asked twice is done twice")
	}
	if again := begin(t, l, "waits", "somebody else", untilStopped); again == waits {
		t.Error("what was stopped cannot be asked for again")
	}
}

// TestMistakenTask keeps a mistake of the program to the task that it is in.
func TestMistakenTask(t *testing.T) {
	l := newTasks()
	it := begin(t, l, "wrong", "person", func(context.Context, func(done, all int)) (*doc.Document, error) { panic("a wheel is off") })
	end(it)
	if it.Err == nil || !strings.Contains(it.Err.Error(), "a wheel is off") || errors.Is(it.Err, context.Canceled) {
		t.Errorf("it says %v", it.Err)
	}
}

// TestForgotten remembers so many tasks, and forgets first what nobody began.
func TestForgotten(t *testing.T) {
	l := newTasks()
	nothing := func(context.Context, func(done, all int)) (*doc.Document, error) { return nil, nil }
	for i := range mostTasks {
		who := "person"
		if i == 5 {
			who = ""
		}
		end(begin(t, l, fmt.Sprint(i), who, nothing))
	}
	end(begin(t, l, "one more", "person", nothing))
	end(begin(t, l, "and one", "person", nothing))
	for id, remembered := range map[string]bool{"5": false, "0": false, "1": true, "and one": true} {
		if got := l.find(id) != nil; got != remembered {
			t.Errorf("task %s is remembered: %v", id, got)
		}
	}
	if len(l.list) != mostTasks {
		t.Errorf("%d are remembered", len(l.list))
	}
}
