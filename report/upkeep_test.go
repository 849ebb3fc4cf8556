package report

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"oddleg/jobfile"
	"oddleg/upkeep"
)

// surveyed judges a job with a survey of every kind.
func surveyed(t *testing.T, units string) *upkeep.Result {
	t.Helper()
	source, err := os.ReadFile("../upkeep/testdata/worn-lathe.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobfile.Read("", source)
	if err != nil {
		t.Fatal(err)
	}
	if units == "in" {
		inch, err := jobfile.Read("", []byte("oddleg: 1\njob: x\nunits: in\n"))
		if err != nil {
			t.Fatal(err)
		}
		job.Units = inch.Units
	}
	r, err := upkeep.Judge(job)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestUpkeepPage: every kind of survey has its heading, and no figure is none.
func TestUpkeepPage(t *testing.T) {
	for _, units := range []string{"mm", "in"} {
		var page bytes.Buffer
		r := surveyed(t, units)
		if err := Upkeep(&page, r, Style{}); err != nil {
			t.Fatal(err)
		}
		text := page.String()
		for _, a := range r.Answers {
			if !strings.Contains(text, a.Title+", ") {
				t.Errorf("%s: no heading %q", units, a.Title)
			}
		}
		for _, wrong := range []string{"NaN", "Inf", "? ", "%!"} {
			if strings.Contains(text, wrong) {
				t.Errorf("%s: the page shows %q", units, wrong)
			}
		}
		if head := "found " + strings.Repeat(" ", 3); !strings.Contains(text, head) || !strings.Contains(text, units+", ± 95 %") {
			t.Errorf("%s: the columns have no heading", units)
		}
	}
}

// TestUpkeepJSON: the same as an object, angles in degrees.
func TestUpkeepJSON(t *testing.T) {
	var out bytes.Buffer
	if err := UpkeepJSON(&out, surveyed(t, "mm")); err != nil {
		t.Fatal(err)
	}
	var got upkeepJSON
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Surveys) != 11 || len(got.Trends) != 4 {
		t.Fatalf("%d surveys, %d trends", len(got.Surveys), len(got.Trends))
	}
	dovetail := got.Surveys[10]
	if f := dovetail.Found[0]; f.Key != "angle" || f.Unit != "deg" || f.Value < 59.9 || f.Value > 60.1 {
		t.Errorf("the angle is %+v", f)
	}
	if len(dovetail.Plot.Series) != 1 || len(dovetail.Plot.Series[0].Points) != 3 {
		t.Errorf("the plot is %+v", dovetail.Plot)
	}
}

// TestBandPicture: counted by hand, 36 cells from -1 to 2 are 12 to a unit.
func TestBandPicture(t *testing.T) {
	if got, want := bandPicture(1, 0.25, -1, 2), strings.Repeat("-", 12)+"|"+strings.Repeat("-", 8)+"===o==="+strings.Repeat("-", 8); got != want {
		t.Errorf("\n%s, wanted\n%s", got, want)
	}
}
