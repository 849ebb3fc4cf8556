package jobfile_test

import (
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
)

const withThreads = `oddleg: 1
job: A stud
sizes:
  over: {kind: diameter}
  lead: {kind: pitch}
  flank: {kind: half-angle}
  long: {kind: length}
threads:
  stem: {major: over, pitch: lead, angle: flank, surface: outside, hand: left, starts: 2, meant: 7/16 BSW}
  plain: {pitch: lead}
`

func TestThreads(t *testing.T) {
	job := mustRead(t, withThreads)
	same(t, "threads", job.Threads, []trade.Thread{
		{
			ID: "stem", Major: "over", Pitch: "lead", Angle: "flank", Surface: trade.Outside, Hand: trade.LeftHand,
			Starts: 2, Meant: "7/16 BSW", Pos: at(9, 3),
		},
		{ID: "plain", Pitch: "lead", Starts: 1, Pos: at(10, 3)},
	})
}

func TestWrongThreads(t *testing.T) {
	for _, c := range []struct{ from, to, want string }{
		{"{pitch: lead}", "{major: over}", `"pitch" is missing`},
		{"{pitch: lead}", "{pitch: leed}", `did you mean "lead"?`},
		{"{pitch: lead}", "{pitch: over}", "of kind diameter where one of kind pitch"},
		{"major: over", "major: long", "kind length where one of kind diameter or radius"},
		{"hand: left", "hand: lift", "did you mean \"left\"?"},
		{"starts: 2", "starts: 0", "whole number from 1 to 24"},
		{"angle: flank", "angel: flank", `did you mean "angle"?`},
		{"plain:", "mm:", "name of a unit"},
		{"{pitch: lead}", "{pitch: [lead]}", "where the id of a size should be"},
	} {
		_, err := jobfile.Read("", []byte(strings.Replace(withThreads, c.from, c.to, 1)))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, wanted %q", c.to, err, c.want)
		}
	}
}
