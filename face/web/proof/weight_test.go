package proof

import (
	"fmt"
	"strings"
	"testing"
)

// heaviest is the most that the first look at a job may weigh, with all that the
// page loads, as it comes over the wire.
const heaviest = 150_000

// TestWeight weighs the page of a job at the first look, when nothing of it is in
// the browser yet: that of an example, and one with a hundred readings.
func TestWeight(t *testing.T) {
	s := fresh(t)
	at := s.send("/new", "once", "CDEFGH", "name", "A hundred readings", "units", "mm")
	job := strings.TrimSuffix(at, "/readings")
	s.send(job+"/text", "from", "1", "text", hundred())
	for _, c := range []struct{ name, job string }{{"an example", "/job/" + s.jobs()[1]}, {"a hundred readings", job}} {
		t.Run(c.name, func(t *testing.T) {
			p := open(t, browser(t), s, phone)
			p.visit(c.job + "/readings")
			p.settle()
			p.Lock()
			weight := p.bytes
			p.Unlock()
			t.Logf("%.0f kB", weight/1000)
			if weight > heaviest || weight < 10_000 {
				t.Errorf("the page weighs %.0f bytes, at most %d are allowed", weight, heaviest)
			}
		})
	}
}

// hundred is a job with as many readings: fifty widths, each read twice.
func hundred() string {
	var b strings.Builder
	b.WriteString("oddleg: 1\njob: A hundred readings\nunits: mm\nkit:\n  mic: {kind: micrometer, resolution: 0.01 mm}\n  cal: {kind: caliper, resolution: 0.02 mm}\nsizes:\n")
	for i := range 50 {
		fmt.Fprintf(&b, "  w%d: {kind: width, surface: outside}\n", i)
	}
	b.WriteString("readings:\n")
	for i := range 50 {
		fmt.Fprintf(&b, "  - {id: m%d, by: outside, of: {size: w%d}, with: mic, saw: [%d.01, %d.02]}\n", i, i, 10+i, 10+i)
		fmt.Fprintf(&b, "  - {id: c%d, by: outside, of: {size: w%d}, with: cal, saw: %d.02}\n", i, i, 10+i)
	}
	return b.String()
}
