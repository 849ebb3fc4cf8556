package web_test

import (
	"strings"
	"testing"
)

func TestText(t *testing.T) {
	c := newCounter(t)
	job := c.job("Index plunger and its bush")
	at := "/job/" + job.ID + "/text"
	first := c.source(job)
	has(t, c.see(at), first)
	// What is wrong is kept, said to be wrong, and found by its name.
	c.send(at, "from", "1", "text", strings.ReplaceAll(first+"bogus: 1\n", "\n", "\r\n"))
	wrong := c.job(job.Name)
	if wrong.Revision != 2 || c.source(wrong) != first+"bogus: 1\n" {
		t.Errorf("revision %d is %q", wrong.Revision, c.source(wrong))
	}
	has(t, c.see(at), "saved as it is", `unknown key "bogus"`, "data-line=", "bogus: 1")
	c.see("/job/" + job.ID + "/record")
	// What is no text is not kept, and stands in its box.
	has(t, c.refused(at, "from", "2", "text", "job: caf\xe9 by the press"), "not saved", "not UTF-8", "by the press", `value="2"`)
	has(t, c.refused(at, "from", "2", "text", strings.Repeat("# far too long\n", 1<<17)), "the most is 1048576", "far too long")
	has(t, c.refused(at, "from", "x", "text", "job: typed"), "does not say which revision", "job: typed")
	if now := c.job(job.ID); now.Revision != 2 {
		t.Errorf("revision %d is current", now.Revision)
	}
}

func TestSection(t *testing.T) {
	c := newCounter(t)
	job := c.job("Index plunger and its bush")
	at := "/job/" + job.ID + "/text/"
	has(t, c.see(at+"kit"), "roll6")
	c.send(at+"surveys", "from", "1", "text", "surveys:\n  - {kind: lost-motion, of: feed screw, date: 2031-03-01, with: mic, within: 0.02, at: {10: 0.02, 100: 0.3, 200: 0.02}}\n")
	has(t, c.source(c.job(job.ID)), "feed screw")
	has(t, c.refused(at+"surveys", "from", "2", "text", "surveys: [unfinished"), "not saved", "surveys: [unfinished")
	has(t, c.see("/machines"), "Lost motion of a screw (feed screw) on 1 Mar 2031: beyond its tolerance")
}
