package paper

import (
	"bytes"
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// elements reads SVG with the standard library's parser and counts elements by
// name; texts are what stands in text elements.
func elements(t *testing.T, data []byte) (names map[string]int, texts []string) {
	t.Helper()
	names = map[string]int{}
	reader := xml.NewDecoder(bytes.NewReader(data))
	inside := ""
	for {
		token, err := reader.Token()
		if err == io.EOF {
			return names, texts
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			inside = token.Name.Local
			names[inside]++
			for _, a := range token.Attr {
				if strings.HasPrefix(a.Name.Local, "on") || strings.Contains(a.Value, "NaN") {
					t.Errorf("<%s> has %s=%q", inside, a.Name.Local, a.Value)
				}
			}
		case xml.EndElement:
			inside = ""
		case xml.CharData:
			if inside == "text" {
				texts = append(texts, string(token))
			}
		}
	}
}

func TestSVGHasTheMarks(t *testing.T) {
	s := sample()
	want := counted(s)
	strokes := 0
	for _, m := range s.Flat() {
		if _, ok := m.(ink.Stroke); ok {
			strokes++
		}
	}
	for _, name := range []string{"svg", "inline"} {
		names, texts := elements(t, written(t, func(w io.Writer) error { return formats[name](w, s) }))
		if names["path"] != strokes+want.areas {
			t.Errorf("%s: %d paths, want %d strokes and %d areas", name, names["path"], strokes, want.areas)
		}
		if names["text"] != want.texts || len(texts) != want.texts {
			t.Errorf("%s: %d texts, want %d", name, names["text"], want.texts)
		}
		if names["g"] != 1+want.dimensions {
			t.Errorf("%s: %d groups, want one and %d dimensions", name, names["g"], want.dimensions)
		}
		if names["title"] != 1 || names["script"] != 0 || names["style"] != 0 {
			t.Errorf("%s: elements %v", name, names)
		}
		for i, words := range texts {
			if plain := strings.ReplaceAll(words, "\u00a0", " "); plain != legible(plain) {
				t.Errorf("%s: text %d is %q", name, i, words)
			}
		}
	}
}

// TestInlineSVGTakesTheColourOfThePage looks for colours of its own.
func TestInlineSVGTakesTheColourOfThePage(t *testing.T) {
	text := string(written(t, func(w io.Writer) error { return InlineSVG(w, sample()) }))
	for _, own := range []string{"#000", "#fff", "rgb(", "<?xml", " id="} {
		if strings.Contains(text, own) {
			t.Errorf("inline there is %q", own)
		}
	}
}

// TestSVGArcs counts the arcs: a whole circle and each of more than half a turn
// are two.
func TestSVGArcs(t *testing.T) {
	text := string(written(t, func(w io.Writer) error { return SVG(w, sample()) }))
	// Two circles, one arc of three quarters, three others (counted by hand in sample).
	if got := strings.Count(text, "A"); got < 2*2+2+3 {
		t.Errorf("%d arcs", got)
	}
}

func TestSVGIsRendered(t *testing.T) {
	rsvg := oracle.Find(t, "rsvg-convert", "librsvg2-bin")
	path := file(t, "sheet.svg", func(w io.Writer) error { return SVG(w, sample()) })
	if png := string(rsvg.Output(t, nil, "--dpi-x", "50", "--dpi-y", "50", path)); !strings.HasPrefix(png, "\x89PNG") {
		t.Error("no picture")
	}
}
