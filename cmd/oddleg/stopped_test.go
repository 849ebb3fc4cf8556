package main

import (
	"bytes"
	"context"
	"strings"
	"sync"
	"testing"
)

// TestStopped: a verb that the user wants no more of says so in a sentence, prints
// no part of an answer and fails, wherever it was when it was stopped.
func TestStopped(t *testing.T) {
	for _, args := range [][]string{
		{"sizes", "../../examples/index-plunger.yaml"},
		{"sizes", "--json", "--simulate", "1000000", "../../examples/index-plunger.yaml"},
		{"next", "../../examples/index-plunger.yaml"},
		{"fit", "../../examples/index-plunger.yaml"},
		{"setup", "../../examples/cover-plate.yaml"},
		{"check", "--json", "../../examples/index-plunger.yaml"},
	} {
		for _, pieces := range []int{0, 1, 2, 5} {
			if len(args) == 2 && args[0] == "sizes" && pieces > 1 {
				continue // a job in which nothing is wrong is done by then
			}
			var out, complain bytes.Buffer
			ctx := &impatient{Context: context.Background(), left: pieces}
			status := run(args, streams{out: &out, complain: &complain, until: ctx})
			if status != broken || out.Len() > 0 || !strings.Contains(complain.String(), "stopped before the end") {
				t.Errorf("%v after %d pieces of work: status %d, %q and %q", args, pieces, status, out.String(), complain.String())
			}
		}
	}
}

// impatient is a context that ends once it has been asked so many times.
type impatient struct {
	context.Context
	mutex sync.Mutex
	left  int
}

func (c *impatient) Err() error {
	c.mutex.Lock()
	defer c.mutex.Unlock()
	if c.left--; c.left < 0 {
		return context.Canceled
	}
	return nil
}
