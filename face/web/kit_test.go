package web_test

import (
	"context"
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
)

func TestKit(t *testing.T) {
	c := newCounter(t)
	has(t, c.see("/kit"), "Gauge pieces", "/kit/new/piece")
	for range 2 {
		c.send("/kit/new/instrument", "id", "mic25", "kind", "micrometer", "resolution", "0.01", "mpe", "0.004 mm", "units", "mm", "calibrated", "2031-03-01")
		c.send("/kit/new/piece", "kind", "roller", "size", "5, 6, 8, 10 mm", "tolerance", "0.002", "units", "mm")
		c.send("/kit/new/piece", "kind", "ball", "size", "1/4, 15/32 in", "tolerance", "0.0001 in", "units", "mm")
		c.send("/kit/new/machine", "id", "lathe", "kind", "lathe", "written", "speeds: [38, 62],\n leadscrew: 8 tpi")
	}
	tools, err := c.bench.Record.Kit(context.Background())
	if err != nil || len(tools) != 8 {
		t.Fatalf("%d tools, %v", len(tools), err)
	}
	byID := map[string]record.Tool{}
	for _, tool := range tools {
		byID[tool.ID] = tool
	}
	if got := byID["mic25"]; got.Written != "resolution: 0.01 mm, mpe: 0.004 mm" || got.Calibrated != "2031-03-01" {
		t.Errorf("mic25 is %+v", got)
	}
	if got := byID["roller_8mm"]; got.Size.Text != "8 mm" || got.Size.MM != 8 || got.Tolerance != "0.002 mm" {
		t.Errorf("roller_8mm is %+v", got)
	}
	if got := byID["ball_15_32in"]; got.Size.Text != "15/32 in" || got.Size.MM != 11.90625 { // 15/32 of 25.4 mm
		t.Errorf("ball_15_32in is %+v", got)
	}
	has(t, c.see("/kit"), "leadscrew: 8 tpi", "2031-03-01")
	has(t, c.see("/kit/at/mic25"), `value="0.004 mm"`)
	c.send("/kit/at/mic25", "kind", "micrometer", "resolution", "0.001 mm")
	has(t, c.see("/kit"), "0.001 mm")
	c.send("/kit/at/mic25/drop")
	hasNot(t, c.see("/kit"), "mic25")
	has(t, c.see("/find?q=roller+8+mm"), "roller_8mm", "in the kit")
}

func TestWrongKit(t *testing.T) {
	c := newCounter(t)
	c.send("/kit/new/piece", "id", "r6", "kind", "roller", "size", "6 mm")
	for _, wrong := range []struct {
		name, class, says string
		fields            []string
	}{
		{"a name that is taken", "piece", "called so already", []string{"id", "r6", "kind", "pin", "size", "6 mm"}},
		{"no size", "piece", "size", []string{"id", "x", "kind", "pin", "size", "wide"}},
		{"a size below nothing", "piece", "-6", []string{"id", "x", "kind", "pin", "size", "-6"}},
		{"one of a set", "piece", "none", []string{"kind", "pin", "size", "5, none, 7"}},
		{"no kind", "piece", "kind", []string{"id", "x", "kind", "micrometer", "size", "6"}},
		{"a name of two words", "instrument", "two words", []string{"id", "two words", "kind", "caliper", "resolution", "0.01"}},
		{"no step", "instrument", "resolution", []string{"id", "x", "kind", "caliper", "resolution", "0"}},
		{"no error known", "instrument", "mpe", []string{"id", "x", "kind", "scale"}},
		{"no speed", "machine", "speeds", []string{"id", "x", "kind", "lathe", "written", "speeds: [fast]"}},
		{"another section", "machine", "}", []string{"id", "x", "kind", "lathe", "written", "readout: true}\njob: y"}},
		{"no day", "piece", "no day", []string{"id", "x", "kind", "pin", "size", "6 mm", "calibrated", "last spring"}},
	} {
		t.Run(wrong.name, func(t *testing.T) {
			page := c.refused("/kit/new/"+wrong.class, append(wrong.fields, "say", "as typed")...)
			has(t, page, wrong.says, `value="as typed"`)
		})
	}
	if tools, err := c.bench.Record.Kit(context.Background()); err != nil || len(tools) != 1 {
		t.Errorf("%d tools, %v", len(tools), err)
	}
}

func TestFind(t *testing.T) {
	c := newCounter(t)
	has(t, c.see("/find"), "Ask for a machine")
	has(t, c.see("/find?q=what+on+the+1936+dividing+table+takes+a+7%2F16+BSW+stud%3F"), "Index plunger and its bush", "7/16 BSW")
	has(t, c.see("/find?q=913.37+mm"), "Nothing has that")
	has(t, c.see("/machines"), "dividing table, built 1936, GB", "Index plunger")
}
