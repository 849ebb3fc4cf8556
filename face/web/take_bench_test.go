package web_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// hundred is a job of 50 sizes, each read twice with two instruments, half of
// them over one pin. The figures are constructed.
func hundred() string {
	var b strings.Builder
	b.WriteString("oddleg: 1\njob: A hundred readings\nunits: mm\nkit:\n  mic: {kind: micrometer, resolution: 0.01 mm}\n" +
		"  cal: {kind: caliper, resolution: 0.01 mm}\n  pin6: {kind: pin, size: 6 mm, tolerance: 0.002 mm}\nsizes:\n")
	for i := range 50 {
		fmt.Fprintf(&b, "  s%d: {kind: diameter, surface: outside, wear: light}\n", i)
	}
	b.WriteString("readings:\n")
	for i := range 50 {
		by, of, over := "outside", "size: ", 0.0
		if i%2 == 1 {
			by, of, over = "over-two-pins", "pin: pin6, wall: ", 12
		}
		for j, with := range []string{"mic", "cal"} {
			saw := 20 + float64(i) + over + 0.01*float64(j)
			fmt.Fprintf(&b, "  - {id: r%d_%d, by: %s, of: {%ss%d}, with: %s, saw: [%.2f, %.2f]}\n", i, j, by, of, i, with, saw, saw+0.01)
		}
	}
	return b.String()
}

// BenchmarkHundred measures what a person waits for in a job of 100 readings: a
// reading saved and the list shown again, all worked out afresh each time.
func BenchmarkHundred(b *testing.B) {
	bench := newBench(b, hundred())
	bench.see("readings")
	for _, page := range []string{"readings", "sizes", "meant", "take/by/over-two-pins?like=r1_0"} {
		b.Run("look at "+strings.Split(page, "/")[0], func(b *testing.B) {
			for b.Loop() {
				bench.see(page)
			}
		})
	}
	for _, save := range []struct{ name, figures string }{{"save and look", "39.0%d"}, {"save a slip and look", "39.5%d"}} {
		b.Run(save.name, func(b *testing.B) {
			bench := newBench(b, hundred())
			n := 0
			for b.Loop() {
				form := url.Values{"from": {"1"}, "of.wall": {"s7"}, "of.pin": {"pin6"}, "with": {"mic"}, "changes": {"r7_0"}, "saw": {fmt.Sprintf(save.figures, n%2)}, "say": {fmt.Sprint(n)}}
				form.Set("from", fmt.Sprint(bench.revision()))
				if w := bench.ask(http.MethodPost, "take/by/over-two-pins", form); w.Code != http.StatusSeeOther {
					b.Fatalf("status %d", w.Code)
				}
				bench.see("readings")
				n++
			}
		})
	}
	b.Run("check", func(b *testing.B) {
		n := 0
		for b.Loop() {
			n++
			fields := []string{"of.wall", "s1", "of.pin", "pin6", "with", "mic", "saw", fmt.Sprintf("33.%03d", n%1000)}
			if w := bench.send("take/by/over-two-pins/check", fields...); w.Code != http.StatusOK {
				b.Fatalf("status %d", w.Code)
			}
		}
	})
}
