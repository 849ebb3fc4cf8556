package report_test

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/tables/facts"
)

// wornParts is a job whose meanings are of every sort: worn, decided, wrong, in
// doubt, none, an angle. Constructed.
const wornParts = `oddleg: 1
job: Worn <parts> & pieces
machine: {built: 1930, country: GB}
units: mm
kit: {mic: {kind: micrometer, resolution: 0.01 mm, mpe: 0.01 mm}, arms: {kind: protractor, resolution: 0d 5m}}
sizes:
  shank: {kind: diameter, surface: outside, wear: light}
  bore:  {kind: diameter, surface: inside, wear: heavy}
  crest: {kind: diameter, surface: outside, wear: light}
  lug:   {kind: length}
  wrong: {kind: length, meant: 30 mm}
  kept:  {kind: length, meant: 3 3/4 in}
  vee:   {kind: angle}
  side:  {kind: half-angle}
  lost:  {kind: length}
readings:
  - {id: a, by: outside, of: {size: shank}, with: mic, saw: [19.01, 19.01]}
  - {id: b, by: inside, of: {size: bore}, with: mic, saw: [25.72, 25.72]}
  - {id: c, by: outside, of: {size: crest}, with: mic, saw: [11.05, 11.05]}
  - {id: d, by: outside, of: {size: lug}, with: mic, saw: [33.53, 33.53]}
  - {id: e, by: outside, of: {size: wrong}, with: mic, saw: [30.52, 30.52]}
  - {id: f, by: outside, of: {size: kept}, with: mic, saw: [95.27, 95.27]}
  - {id: g, by: protractor, of: {angle: vee}, with: arms, saw: [60d 5m]}
  - {id: h, by: protractor, of: {angle: side}, with: arms, saw: [1d 25m]}
`

func meanings(t *testing.T, source string) (*adjust.Result, *meant.Result) {
	t.Helper()
	job, err := jobfile.Read("job.yaml", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	r, err := adjust.Adjust(job)
	if err != nil {
		t.Fatal(err)
	}
	return r, meant.Round(r, meant.Tables{Drills: facts.Drills(), Balls: facts.Balls(), Keys: facts.Keys(), Threads: facts.Threads()})
}

func TestMeantInWords(t *testing.T) {
	r, m := meanings(t, wornParts)
	var out bytes.Buffer
	if err := report.Meant(&out, r, m, report.Style{}); err != nil {
		t.Fatal(err)
	}
	text := out.String()
	for _, want := range []string{
		"3/4 in, 0.03 mm worn", "1 in, 0.32 mm worn", "7/16 in, 0.03 mm worn",
		"no round size", "30 mm, found 0.52 mm larger", "3 3/4 in, found 0.02 mm larger", "decided",
		"60 deg, found 0.08° larger", "perhaps a taper",
		"wrong: meant to be 30 mm, but it was found 0.520 mm larger, 17.1 standard deviations off",
		"inch fractions", "===",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is missing in\n%s", want, text)
		}
	}
	if strings.Contains(text, "lost") || strings.Contains(text, "NaN") {
		t.Errorf("a size that was not found, or no number, in\n%s", text)
	}
}

func TestGrownIsNoWear(t *testing.T) {
	r, m := meanings(t, strings.Replace(wornParts, "lug:   {kind: length}", "lug:   {kind: diameter, surface: outside, wear: light, meant: 33 mm}", 1))
	var out bytes.Buffer
	if err := report.Meant(&out, r, m, report.Style{}); err != nil {
		t.Fatal(err)
	}
	if want := "33 mm, but found 0.53 mm larger, which is no wear"; !strings.Contains(out.String(), want) {
		t.Errorf("%q is missing in\n%s", want, out.String())
	}
}

// TestPictureOfASize draws a picture and reads it again: the leader's figure
// stands where its value is.
func TestPictureOfASize(t *testing.T) {
	r, m := meanings(t, wornParts)
	var out bytes.Buffer
	if err := report.Meant(&out, r, m, report.Style{}); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if !strings.HasPrefix(line, "  shank") {
			continue
		}
		picture := line[strings.Index(line, " %")+2:]
		fields := strings.Fields(picture) // low, mm, cells, high, mm
		low, high := number(t, fields[0]), number(t, fields[3])
		at := low + (float64(strings.Index(fields[2], "9"))+0.5)/float64(len(fields[2]))*(high-low)
		if cell := (high - low) / float64(len(fields[2])); math.Abs(at-19.05) > cell {
			t.Errorf("3/4 in is drawn at %.3f mm in %q", at, picture)
		}
		return
	}
	t.Error("no picture of shank")
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	var x float64
	if err := json.Unmarshal([]byte(text), &x); err != nil {
		t.Fatal(text, err)
	}
	return x
}

func TestMeantAsJSON(t *testing.T) {
	r, m := meanings(t, wornParts)
	var out bytes.Buffer
	if err := report.JSON(&out, r, report.WithMeant(r, m)); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Sizes map[string]struct {
			Meant []struct {
				Text    string
				Value   float64
				P       float64
				WearMM  float64 `json:"wear_mm"`
				Decided bool
			}
			NoRoundSize *float64 `json:"no_round_size"`
			OtherRound  float64  `json:"other_round_size"`
		}
		Warnings []struct{ Text string }
		Meaning  struct {
			Systems []struct{ Share float64 }
		}
	}
	if err := json.Unmarshal(out.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	shank := got.Sizes["shank"]
	if c := shank.Meant[0]; c.Text != "3/4 in" || math.Abs(c.Value-19.05) > 1e-9 || c.P < 0.7 || c.WearMM < 0.02 || c.Decided {
		t.Errorf("shank %+v", shank)
	}
	if vee := got.Sizes["vee"].Meant[0]; math.Abs(vee.Value-60) > 1e-9 {
		t.Errorf("an angle is not in degrees: %+v", vee)
	}
	if kept := got.Sizes["kept"]; len(kept.Meant) != 1 || !kept.Meant[0].Decided || kept.Meant[0].Text != "3 3/4 in" || *kept.NoRoundSize != 0 {
		t.Errorf("kept %+v", kept)
	}
	if lost := got.Sizes["lost"]; lost.Meant != nil || lost.NoRoundSize != nil {
		t.Errorf("lost %+v", lost)
	}
	for id, size := range got.Sizes {
		sum := 0.0
		for _, c := range size.Meant {
			if sum += c.P; c.P < 0.0005 {
				t.Errorf("%s: %s is listed with %.4f", id, c.Text, c.P)
			}
		}
		if len(size.Meant) > 20 || size.NoRoundSize != nil && math.Abs(sum+*size.NoRoundSize+size.OtherRound-1) > 1e-9 {
			t.Errorf("%s: %+v", id, size)
		}
	}
	if n := len(got.Meaning.Systems); n != 4 {
		t.Errorf("%d systems", n)
	}
	found := false
	for _, w := range got.Warnings {
		found = found || strings.HasPrefix(w.Text, "wrong: meant to be 30 mm")
	}
	if !found {
		t.Errorf("warnings %+v", got.Warnings)
	}
}

// TestChartsAreSVG reads the charts as XML and looks for what must be in them.
func TestChartsAreSVG(t *testing.T) {
	r, m := meanings(t, wornParts)
	charts := map[string][]byte{
		"Worn <parts> & pieces: what was meant": report.MeaningChart(r, m),
		"promises":                              report.PromisesChart("promises", []report.Promise{{Promised: 0.75, Kept: 0.77, Bound: 0.3}}),
	}
	for title, svg := range charts {
		var elements, texts []string
		decoder := xml.NewDecoder(bytes.NewReader(svg))
		for {
			token, err := decoder.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v\n%s", title, err, svg)
			}
			switch token := token.(type) {
			case xml.StartElement:
				elements = append(elements, token.Name.Local)
			case xml.CharData:
				texts = append(texts, string(token))
			}
		}
		if elements[0] != "svg" || !strings.Contains(strings.Join(texts, "\n"), title) {
			t.Errorf("%s: elements %v, texts %q", title, elements[:2], texts)
		}
		if bytes.Contains(svg, []byte("NaN")) || bytes.Contains(svg, []byte("Inf")) {
			t.Errorf("%s has no number in\n%s", title, svg)
		}
	}
	for i := range m.Sizes {
		if id := m.Sizes[i].ID; !bytes.Contains(charts["Worn <parts> & pieces: what was meant"], []byte(">"+id+": ")) {
			t.Errorf("%s is not in the chart", id)
		}
	}
}
