package report

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/say"
)

// TestSetUpsRead reads the words of every method with its example in the roles:
// nothing in braces is left.
func TestSetUpsRead(t *testing.T) {
	for _, m := range gauge.Methods() {
		if m.Model == nil {
			continue
		}
		r := trade.Reading{By: m.ID}
		for _, role := range m.Roles {
			r.Of = append(r.Of, trade.Arg{Role: role.Name, ID: role.Name + "_here"})
		}
		if said := say.SetUp(&r, nil); strings.ContainsAny(said, "{}") || !strings.Contains(said, "_here") {
			t.Errorf("%s: %s", m.ID, said)
		}
	}
}

func TestPiecesAreNamed(t *testing.T) {
	arg := func(text string) trade.Arg { return trade.Arg{Role: "pin", Value: length(t, text)} }
	lent := []trade.Piece{{ID: "pin_6", Kind: trade.Pin, Size: length(t, "6 mm")}}
	for _, c := range []struct {
		arg  trade.Arg
		want string
	}{
		{trade.Arg{Role: "pin", ID: "mine"}, "Lay two of mine on opposite sides of boss and read over them"},
		{trade.Arg{Role: "pin", ID: "pin_6"}, "Lay two borrowed 6 mm pins on opposite sides of boss and read over them"},
		{arg("1/4 in"), "Lay two 1/4 in pins on opposite sides of boss and read over them"},
	} {
		r := trade.Reading{By: "over-two-pins", Of: []trade.Arg{{Role: "wall", ID: "boss"}, c.arg}}
		if got := say.SetUp(&r, lent); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

func length(t *testing.T, text string) unit.Quantity {
	t.Helper()
	q, err := unit.ParseLength(text, unit.Millimetre)
	if err != nil {
		t.Fatal(err)
	}
	return q
}

const toBeRead = head + `
sizes:
  boss: {kind: diameter, surface: outside, wear: heavy}
  flank: {kind: angle}
readings:
  - {id: a, by: outside, of: {size: boss}, with: cal, saw: 24.88}
`

// TestAdviceInWords: the figures are worked by hand from the error model, with
// ±0.03 mm for the caliper, ±0.005 mm for the micrometer and the protractor's
// step: zero and repeat ±t/√6 each, and step²/12.
func TestAdviceInWords(t *testing.T) {
	for _, c := range []struct {
		options advise.Options
		want    []string
	}{
		{advise.Options{For: "boss"}, []string{
			"boss: now ±0.034 mm, and nothing checks it.",
			"1. Read boss outside with mic: boss would be known to ±0.0078 mm (now ±0.034 mm), and other\n     readings would check it. A new set-up; it will show about 24.880 mm.",
			"2. Read a once more: read boss outside with cal: boss would be known to ±0.030 mm (now ±0.034\n     mm). One more value.",
			"However often you read, with what you own boss cannot be known better than ±",
			"boss has worn: read where it has not",
		}},
		{advise.Options{For: "boss", Want: 0.01}, []string{"One reading reaches ±0.010 mm: the first below."}},
		{advise.Options{For: "boss", Want: 0.0001}, []string{"No readings reach ±0.00010 mm: with what you own it cannot get below ±"}},
		{advise.Options{For: "boss", Want: 1}, []string{"±1.0 mm is reached already."}},
		{advise.Options{}, []string{"flank is not found yet.", "Read the angle flank with pro: flank would be found, to ±0.13°, though nothing would check\n     it."}},
	} {
		var page bytes.Buffer
		if err := Advice(&page, advise.Next(t.Context(), adjusted(t, toBeRead), c.options), Style{}); err != nil {
			t.Fatal(err)
		}
		for _, want := range c.want {
			if !strings.Contains(page.String(), want) {
				t.Errorf("%+v: no %q in\n%s", c.options, want, page.String())
			}
		}
	}
}

func TestAdviceAsJSON(t *testing.T) {
	var page bytes.Buffer
	if err := AdviceJSON(&page, advise.Next(t.Context(), adjusted(t, toBeRead), advise.Options{For: "boss"})); err != nil {
		t.Fatal(err)
	}
	var list []map[string]any
	if err := json.Unmarshal(page.Bytes(), &list); err != nil {
		t.Fatal(err)
	}
	if len(list) < 2 {
		t.Fatalf("%d readings listed", len(list))
	}
	for key, want := range map[string]any{"by": "outside", "with": "mic", "for": "boss", "checks": true, "effort": 2.0, "rough": false} {
		if list[0][key] != want {
			t.Errorf("%s is %v, want %v", key, list[0][key], want)
		}
	}
	first, second := list[0]["u_then"].(float64), list[1]["u_then"].(float64)
	if !(first < second) || list[0]["U_then"].(float64) != adjust.Coverage95*first {
		t.Errorf("u_then %v and %v, U_then %v", first, second, list[0]["U_then"])
	}
	if list[1]["again"] != "a" || len(list[0]["borrow"].([]any)) != 0 {
		t.Errorf("again %v, borrow %v", list[1]["again"], list[0]["borrow"])
	}
}

const toExpect = head + `
sizes:
  boss: {kind: diameter, surface: outside}
  lip: {kind: width}
readings:
  - {id: a, by: outside, of: {size: boss}, with: cal, saw: 24.88}
  - {id: b, by: outside, of: {size: boss}, with: mic}
`

func TestExpectedInWordsAndAsJSON(t *testing.T) {
	job, err := jobfile.ReadPlanned("", []byte(toExpect))
	if err != nil {
		t.Fatal(err)
	}
	e, err := advise.Expect(job)
	if err != nil {
		t.Fatal(err)
	}
	var page, data bytes.Buffer
	if err := Expected(&page, e, Style{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"1 of 2 readings are still planned", "boss  24.880 mm  0.0078 mm  2         others", "Cannot be found from these readings\n  lip:",
	} {
		if !strings.Contains(page.String(), want) {
			t.Errorf("no %q in\n%s", want, page.String())
		}
	}
	if err := ExpectedJSON(&data, e); err != nil {
		t.Fatal(err)
	}
	var out expectedJSON
	if err := json.Unmarshal(data.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	planned := slices.IndexFunc(out.Readings, func(r expectedReadingJSON) bool { return r.Planned })
	if out.Sizes["lip"].Determined || !out.Sizes["boss"].Determined || planned != 1 || out.Readings[1].ID != "b" {
		t.Errorf("%+v", out)
	}
}
