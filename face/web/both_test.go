package web_test

import (
	"context"
	"strings"
	"testing"
)

// begun is a job of which two people have each changed something.
func branched(t *testing.T, c *counter, mine, theirs [2]string) (at string) {
	t.Helper()
	job := c.job("Index plunger and its bush")
	at = "/job/" + job.ID
	first := c.source(job)
	c.send(at+"/text", "from", "1", "text", strings.Replace(first, theirs[0], theirs[1], 1))
	to := c.send(at+"/text", "from", "1", "text", strings.Replace(first, mine[0], mine[1], 1))
	if to != at+"/both/3" {
		t.Fatalf("the later save leads to %s", to)
	}
	return at
}

func TestTakeBoth(t *testing.T) {
	c := newCounter(t)
	at := branched(t, c, [2]string{"country: GB", "country: US"}, [2]string{"[19.04, 19.04, 19.04]", "[19.04, 19.04, 19.04, 19.05]"})
	has(t, c.see(at+"/readings"), "Two versions of this job were saved", at+"/both/3")
	page := c.see(at + "/both/3")
	has(t, page, "both can be taken", "Both were made from revision 1", "country: US", "19.04, 19.04, 19.04, 19.05")
	for range 2 {
		c.send(at+"/both/3", "mine", hidden(t, page, "mine"), "theirs", hidden(t, page, "theirs"), "by", "choice")
	}
	job := c.job("Index plunger and its bush")
	has(t, c.source(job), "country: US", "19.04, 19.04, 19.04, 19.05")
	if len(job.Branches) != 0 || job.Revision != 4 || job.Machine.Country != "US" {
		t.Errorf("the job is %+v", job)
	}
	hasNot(t, c.see(at+"/readings"), "Two versions")
}

func TestClash(t *testing.T) {
	const was, mine, theirs = "[19.04, 19.04, 19.04]", "[19.05, 19.03]", "[19.01, 19.02]"
	for choice, want := range map[string]string{"mine": mine, "theirs": theirs} {
		c := newCounter(t)
		at := branched(t, c, [2]string{was, mine}, [2]string{was, theirs})
		page := c.see(at + "/both/3")
		has(t, page, "One thing was changed in two ways", "readings", mine, theirs)
		fields := []string{"mine", "3", "theirs", "2", "by", "choice"}
		has(t, c.refused(at+"/both/3", fields...), "choose one")
		has(t, c.refused(at+"/both/3", "mine", "3", "theirs", "1", "by", "choice", "clash.0", choice), "saved again meanwhile")
		c.send(at+"/both/3", append(fields, "clash.0", choice)...)
		job := c.job("Index plunger and its bush")
		if text := c.source(job); !strings.Contains(text, want) || strings.Contains(text, was) || len(job.Branches) > 0 {
			t.Errorf("%s: %s", choice, text)
		}
	}
}

// TestBothByHand puts two versions together by typing the one text, and leaves
// what was typed in its box while something is wrong.
func TestBothByHand(t *testing.T) {
	c := newCounter(t)
	at := branched(t, c, [2]string{"country: GB", "country: US"}, [2]string{"country: GB", "country: DE"})
	job := c.job("Index plunger and its bush")
	byHand := strings.Replace(c.source(job), "country: DE", "country: FR", 1)
	has(t, c.refused(at+"/both/3", "mine", "3", "theirs", "1", "by", "hand", "text", byHand), "country: FR")
	c.send(at+"/both/3", "mine", "3", "theirs", "2", "by", "hand", "text", byHand)
	job = c.job("Index plunger and its bush")
	if job.Machine.Country != "FR" || len(job.Branches) > 0 {
		t.Errorf("the job is %+v", job)
	}
	history, err := c.bench.Record.History(context.Background(), job.ID)
	if err != nil || history[len(history)-1].Merges != 3 {
		t.Errorf("%+v, %v", history, err)
	}
}
