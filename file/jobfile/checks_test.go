package jobfile_test

import (
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
)

const checkedPart = `oddleg: 1
job: checks
kit: {mic: {kind: micrometer, resolution: 0.01}}
sizes: {bore: {kind: diameter, surface: inside}}
part:
  kind: bush
  quantity: 3
  sizes: {eye: {kind: diameter, surface: inside, copies: bore}, long: {kind: length, is: 60}, out: {kind: diameter, is: 30}}
  shape: {outside: out, inside: eye, length: long}
checks:
  - {id: a, by: outside, of: {size: part.out}, with: mic, saw: [30.02, 30.03], piece: 2, in-machine: yes, at-temp: 31.5 °C, with-temp: 19}
  - {id: b, by: formula, that: part.out - part.eye + bore, with: mic}
  - {id: c, by: inside, of: {size: bore}, with: mic, saw: 20.01, on: old}
`

// TestChecks: what stands in a check, and that the readings stay as they are.
func TestChecks(t *testing.T) {
	job := mustRead(t, checkedPart)
	same(t, "readings", len(job.Readings), 0)
	same(t, "checks", len(job.Checks), 3)
	a, b, c := job.Checks[0], job.Checks[1], job.Checks[2]
	plain := func(text string) unit.Quantity {
		q, err := unit.ParseNumber(text)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	same(t, "of", a.Of, []trade.Arg{{Role: "size", ID: "part.out", Pos: at(11, 37)}})
	same(t, "saw", a.Saw[1].X, length("30.03 mm"))
	same(t, "piece and machine", []any{a.Piece, a.InMachine, a.Old}, []any{2, true, false})
	same(t, "temperatures", []unit.Quantity{a.AtTemp, a.WithTemp}, []unit.Quantity{plain("31.5"), plain("19")})
	same(t, "planned", []any{b.That.Text, len(b.Saw), b.Piece, b.AtTemp.Given()}, []any{"part.out - part.eye + bore", 0, 1, false})
	same(t, "on the old part", []any{c.Old, c.Of[0].ID}, []any{true, "bore"})
}
