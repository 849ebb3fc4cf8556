package report

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/strength"
	"codeberg.org/oddleg/oddleg/num/unit"
)

// joined has joints of every sort. Constructed.
const joined = `oddleg: 1
job: Feed drive
units: mm
kit: {mic: {kind: micrometer, resolution: 0.01 mm}}
sizes: {shank: {kind: diameter, surface: outside}}
readings:
  - {id: a, by: outside, of: {size: shank}, with: mic, saw: [9.01, 9.02]}
part:
  kind: turned
  material: EN8 normalised
  sizes: {screw: {thread: M10, class: 6g}, shank: {kind: diameter, copies: shank}}
  shape: {steps: [{thread: screw, length: 20 mm}]}
joints:
  - {id: stop, say: the feed stop, stud: part.screw, into: {thread: M10, length: 5 mm, material: PB2, outside: 17 mm},
     tighten: {torque: 8 N m}, service: 2 kN, fuse: nut}
  - {id: drive, sheared: [{id: key, kind: key, width: 6 mm, height: 6 mm, length: 20 mm, material: 080M40, against: S275JR, at: 10 mm}], holds: lifting, fuse: key}
  - {id: hub, press: {diameter: 30 mm, outside: 60 mm, length: 25 mm, interference: 0.01..0.03 mm, inner: 080M40, outer: EN-GJL-200}}
`

func answersOf(t *testing.T) ([]strength.Answer, *trade.Job) {
	t.Helper()
	job, err := jobfile.Read("job.yaml", []byte(joined))
	if err != nil {
		t.Fatal(err)
	}
	answers, err := strength.Check(job, nil)
	if err != nil {
		t.Fatal(err)
	}
	return answers, job
}

func TestStrengthInWords(t *testing.T) {
	answers, _ := answersOf(t)
	var page bytes.Buffer
	if err := Strength(&page, answers, Style{}); err != nil {
		t.Fatal(err)
	}
	text := page.String()
	for _, want := range []string{
		"What gives way first: stop, the feed stop", "nut thread strips, as meant", "key shears", "press fit slips", "preload", "spanner",
		"warmer", "Taken for granted", "Sources",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("nothing of %q in:\n%s", want, text)
		}
	}
	if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") {
		t.Errorf("a figure that is none:\n%s", text)
	}
	if !strings.HasSuffix(text, "Not for lifting, pressure or brakes without a competent person; local rules come first.\n") {
		t.Errorf("the caution is not last:\n%s", text)
	}
	_, cautions, _ := strings.Cut(text, "\nCaution\n")
	if strings.Count(cautions, "This joint is for lifting") != 1 || strings.Count(cautions, "local rules come first") != 1 {
		t.Errorf("cautions: %s", cautions)
	}
}

func TestStrengthWithoutJointsSaysNothing(t *testing.T) {
	var page bytes.Buffer
	if err := Strength(&page, nil, Style{}); err != nil || page.Len() > 0 {
		t.Errorf("%q, %v", page.String(), err)
	}
}

// TestStrengthAsJSON: every joint's ways in their order, with the agreed keys, and
// nothing that JSON cannot hold.
func TestStrengthAsJSON(t *testing.T) {
	answers, job := answersOf(t)
	data, err := json.Marshal(map[string]any{"gives_way": waysToJSON(answers, unit.View{}), "joints": jointsToJSON(answers, unit.View{})})
	if err != nil {
		t.Fatal(err)
	}
	var back struct {
		GivesWay []struct {
			Joint, Piece, Mode string
			LoadN              float64 `json:"load_n"`
			Margin             float64
			Fuse               bool
		} `json:"gives_way"`
		Joints map[string]struct {
			Safety   *float64
			Cautions []string
		}
	}
	if err := json.Unmarshal(data, &back); err != nil {
		t.Fatal(err)
	}
	first := back.GivesWay[0]
	if first.Joint != "stop" || first.Piece != "nut thread" || first.Mode != "strips" || first.Margin != 1 || !first.Fuse || first.LoadN != answers[0].Ways[0].Load {
		t.Errorf("first is %+v", first)
	}
	margins := map[string]float64{}
	for _, w := range back.GivesWay {
		if w.Margin < margins[w.Joint] || w.Margin < 1 {
			t.Errorf("%s of %s is out of order", w.Piece, w.Joint)
		}
		margins[w.Joint] = w.Margin
	}
	if len(back.Joints) != len(job.Joints) || back.Joints["stop"].Safety == nil || back.Joints["hub"].Safety != nil || len(back.Joints["hub"].Cautions) == 0 {
		t.Errorf("joints: %+v", back.Joints)
	}
}
