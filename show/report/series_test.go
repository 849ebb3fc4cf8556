package report

import (
	"bytes"
	"encoding/json"
	"io"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/meaning/series"
)

const degree = math.Pi / 180

// stud is a worn 7/16 Whitworth stud of a British machine (constructed).
func stud() series.ThreadSeen {
	return series.ThreadSeen{
		Major: series.Measured{Value: 10.98, U: 0.02}, Pitch: series.ByLeaf(25.4 / 14), Wear: 0.03, Make: 0.03,
		Machine: trade.Machine{Built: 1938, Country: "GB"},
	}
}

// asJSON writes something as JSON and reads it back without knowing its form.
func asJSON(t *testing.T, write func(w io.Writer) error) map[string]any {
	t.Helper()
	var out bytes.Buffer
	if err := write(&out); err != nil {
		t.Fatal(err)
	}
	var object map[string]any
	if err := json.Unmarshal(out.Bytes(), &object); err != nil {
		t.Fatal(err)
	}
	return object
}

// TestThreadJSONKeepsItsShape: other programs read these keys.
func TestThreadJSONKeepsItsShape(t *testing.T) {
	object := asJSON(t, func(w io.Writer) error { return ThreadJSON(w, series.FindThread(stud()), true) })
	first := object["candidates"].([]any)[0].(map[string]any)
	for key, want := range map[string]any{"designation": "7/16 BSW", "family": "BSW", "major_mm": 11.1125, "angle_deg": 55.0} {
		if got := first[key]; got != want {
			if a, ok := got.(float64); !ok || math.Abs(a-want.(float64)) > 1e-9 {
				t.Errorf("%s is %v, wanted %v", key, got, want)
			}
		}
	}
	for _, key := range []string{"pitch_mm", "p", "wear_mm", "source"} {
		if first[key] == nil {
			t.Errorf("a candidate lacks %s", key)
		}
	}
	if settle, ok := object["settle"].(string); !ok || !strings.Contains(settle, "7/16-14 UNC") || object["hand"] != "left" {
		t.Errorf("settle %v, hand %v", object["settle"], object["hand"])
	}
}

func TestGearAndTaperJSONKeepTheirShape(t *testing.T) {
	gear, err := series.FindGear(series.GearSeen{Teeth: 40, Tip: series.Measured{Value: 83.95, U: 0.02}, Wear: 0.03, Make: 0.03})
	if err != nil {
		t.Fatal(err)
	}
	taper := series.FindTaper(series.TaperSeen{HalfAngle: series.Measured{Value: 1.435 * degree, U: 0.02 * degree}})
	for name, c := range map[string]struct {
		object map[string]any
		keys   []string
	}{
		"gear": {
			asJSON(t, func(w io.Writer) error { return GearJSON(w, gear) }),
			[]string{"designation", "family", "module_mm", "dp", "pressure_angle_deg", "shift", "p", "wear_mm"},
		},
		"taper": {
			asJSON(t, func(w io.Writer) error { return TaperJSON(w, taper) }),
			[]string{"designation", "family", "number", "half_angle_deg", "p", "source"},
		},
	} {
		candidate := c.object["candidates"].([]any)[0].(map[string]any)
		for _, key := range c.keys {
			if candidate[key] == nil {
				t.Errorf("%s: a candidate lacks %s", name, key)
			}
		}
		if c.object["settle"] == "" {
			t.Errorf("%s: nothing is said of settling it", name)
		}
	}
}

// TestMemoryIsCarriedThrough: what no second place was seen for says so wherever
// it is shown.
func TestMemoryIsCarriedThrough(t *testing.T) {
	seen := stud()
	seen.Major.Value, seen.Pitch, seen.Angle = 7.05, series.ByLeaf(25.4/26), series.Measured{Value: 55 * degree, U: degree}
	a := series.FindThread(seen)
	if a.Candidates[0].Designation != "9/32 BSF" {
		t.Fatalf("%s, wanted a row from memory", a.Candidates[0].Designation)
	}
	var out bytes.Buffer
	if err := Thread(&out, seen, a, false, Style{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"9/32 BSF *", "from memory: no second place was seen", "9/32 BSF: BS 84:1956, from memory"} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not shown", want)
		}
	}
	object := asJSON(t, func(w io.Writer) error { return ThreadJSON(w, a, false) })
	if source := object["candidates"].([]any)[0].(map[string]any)["source"].(string); !strings.Contains(source, "from memory") {
		t.Errorf("the JSON says only %q", source)
	}
}

// TestThreadPage has what a machinist looks for on it.
func TestThreadPage(t *testing.T) {
	var out bytes.Buffer
	if err := Thread(&out, stud(), series.FindThread(stud()), true, Style{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		"Screw, left hand", "14.00 tpi", "7/16 BSW", "93 %", "profile leaf", "If it is 7/16 BSW, left hand", "effective", "9.951",
		"medium", "free", "100 % is", "best wire 1.023 mm", "across flats", "old large", "Sources",
	} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("the page lacks %q:\n%s", want, out.String())
		}
	}
}
