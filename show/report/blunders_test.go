package report

import (
	"bytes"
	"context"
	"encoding/json"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/blunder"
)

// withDoubts returns a result's JSON with what may have gone wrong.
func withDoubts(t *testing.T, r *adjust.Result) map[string]any {
	t.Helper()
	var page bytes.Buffer
	if err := JSON(&page, r, WithDoubts(r, blunder.Explain(context.Background(), r))); err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(page.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// tableOf returns a result's table with what may have gone wrong.
func tableOf(t *testing.T, r *adjust.Result) string {
	t.Helper()
	var page bytes.Buffer
	if err := Table(&page, r, Style{}, blunder.Explain(context.Background(), r)...); err != nil {
		t.Fatal(err)
	}
	return page.String()
}

// turned has one turn of the thimble too many in one of four readings. The
// figures are constructed.
const turned = head + `
sizes: {a: {kind: width}}
readings:
  - {id: r, by: outside, of: {size: a}, with: mic, saw: 20.00}
  - {id: s, by: outside, of: {size: a}, with: mic, saw: 20.50}
  - {id: t, by: outside, of: {size: a}, with: cal, saw: 20.00}
  - {id: u, by: outside, of: {size: a}, with: cal, saw: 20.01}
`

func TestJSONOfWhatMayHaveGoneWrong(t *testing.T) {
	out := withDoubts(t, adjusted(t, turned))
	perhaps := at(t, out, "readings", 1, "perhaps", 0)
	for key, want := range map[string]any{"kind": "thimble-turn", "text": "one turn of the thimble", "would_be": 20.0} {
		if got := at(t, perhaps, key); got != want {
			t.Errorf("%s is %v, want %v", key, got, want)
		}
	}
	if p := at(t, perhaps, "p").(float64); p < 0.9 || p > 1 {
		t.Errorf("p is %v", p)
	}
	if a := at(t, perhaps, "becomes", "a").(float64); a < 19.99 || a > 20.02 {
		t.Errorf("a becomes %v, want 20.00", a)
	}
	sound := at(t, out, "readings", 0).(map[string]any)
	if _, there := sound["perhaps"]; there {
		t.Error("a sound reading has an explanation")
	}
}

func TestJSONOfWhatWouldSettleIt(t *testing.T) {
	out := withDoubts(t, adjusted(t, head+`
sizes: {a: {kind: width}}
readings:
  - {id: r, by: outside, of: {size: a}, with: mic, saw: 20}
  - {id: s, by: outside, of: {size: a}, with: mic, saw: 21}
`))
	if got := at(t, out, "either_settled_by", 0).(string); !strings.Contains(got, "about 20.000 mm if it is s, about 21.000 mm if it is r") {
		t.Errorf("settled by %q", got)
	}
}

func TestJSONOfASuspectPieceAndZero(t *testing.T) {
	out := withDoubts(t, adjusted(t, head+`
  p6: {kind: pin, size: 6 in, tolerance: 0.002 mm}
sizes: {a: {kind: diameter}, b: {kind: diameter}}
readings:
  - {id: r, by: outside, of: {size: a}, with: cal, saw: 20.00}
  - {id: s, by: over-two-pins, of: {wall: a, pin: p6}, with: mic, saw: 32.00}
  - {id: t, by: outside, of: {size: b}, with: cal, saw: 30.00}
  - {id: u, by: over-two-pins, of: {wall: b, pin: p6}, with: mic, saw: 42.00}
  - {id: v, by: outside, of: {size: b}, with: mic, saw: 30.00}
`))
	perhaps := at(t, out, "kit", "p6", "perhaps", 0)
	if at(t, perhaps, "kind") != "mm-for-inch" || at(t, perhaps, "would_be") != 6.0 {
		t.Errorf("%v", perhaps)
	}
}

func TestTableOfWhatMayHaveGoneWrong(t *testing.T) {
	for _, c := range []struct {
		name, source string
		says         []string
	}{
		{"a slip", turned, []string{
			"  s (outside): saw 20.500 mm, without it the others give 20.00", "    perhaps one turn of the thimble: 20.000 mm (over 99 %); then a 20.0",
		}},
		{"no slip that is known", strings.Replace(turned, "20.50", "20.37", 1), []string{"    none of the usual slips explains it"}},
		{"either", head + `
sizes: {a: {kind: width}}
readings:
  - {id: r, by: outside, of: {size: a}, with: mic, saw: [20.00, 20.00]}
  - {id: s, by: outside, of: {size: a}, with: cal, saw: [21.00, 21.00]}
`, []string{"  mic or cal or r (outside) or s (outside)", "    a further reading of a, "}},
	} {
		t.Run(c.name, func(t *testing.T) {
			page := tableOf(t, adjusted(t, c.source))
			for _, want := range c.says {
				if !strings.Contains(page, want) {
					t.Errorf("%q is not said:\n%s", want, page)
				}
			}
		})
	}
}
