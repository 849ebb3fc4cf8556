package report

import (
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/num/geom"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/say"
	"rsc.io/qr"
)

// The label in mm: as wide as a bag's, the square as high as leaves its margin.
const (
	labelWidth  = 62.0
	labelHeight = 29.0
	labelMargin = 2.0
	labelText   = 2.2 // height of capitals
	labelStep   = 4.6 // from line to line
)

// quiet is the clear space round a QR code, in modules (ISO/IEC 18004: four).
const quiet = 4

// Label lays out a label for the bag of a part: a QR code, and the same in words.
// The code holds plain text, which any reader shows with no network: part,
// machine, revision and the id that `oddleg` finds the job by.
func Label(job say.RecordedJob) (*ink.Sheet, error) {
	name := job.Part
	if name == "" {
		name = job.Name
	}
	lines := []string{name}
	if job.Machine != "" {
		lines = append(lines, job.Machine)
	}
	lines = append(lines, fmt.Sprintf("revision %d", job.Revision), "oddleg "+job.ID)
	code, err := qr.Encode(strings.Join(lines, "\n"), qr.M)
	if err != nil {
		return nil, fmt.Errorf("the label of job %s has too much text for a QR code", job.ID)
	}
	sheet := &ink.Sheet{Title: "Label: " + name, Width: labelWidth, Height: labelHeight, Scale: 1}
	side := labelHeight - 2*labelMargin
	sheet.Add(modules(code, geom.Point{X: labelMargin, Y: labelMargin}, side)...)
	words(sheet, lines, labelMargin+side+labelMargin)
	return sheet, nil
}

// codeSide is the side of a QR code by itself, in mm.
const codeSide = 60.0

// Code lays out a text as a QR code by itself.
func Code(text string) (*ink.Sheet, error) {
	code, err := qr.Encode(text, qr.M)
	if err != nil {
		return nil, fmt.Errorf("%q is too long for a QR code", text)
	}
	sheet := &ink.Sheet{Title: "QR code", Width: codeSide, Height: codeSide, Scale: 1}
	sheet.Add(modules(code, geom.Point{}, codeSide)...)
	return sheet, nil
}

// CodeBlocks writes a text as a QR code in letters, two rows of modules to a line:
// what is inked is dark. It is read on a light ground.
func CodeBlocks(text string) ([]string, error) {
	code, err := qr.Encode(text, qr.L)
	if err != nil {
		return nil, fmt.Errorf("%q is too long for a QR code", text)
	}
	var lines []string
	for y := -quiet; y < code.Size+quiet; y += 2 {
		var line strings.Builder
		for x := -quiet; x < code.Size+quiet; x++ {
			line.WriteString(halves[code.Black(x, y)][code.Black(x, y+1)])
		}
		lines = append(lines, line.String())
	}
	return lines, nil
}

// halves are the blocks by whether their upper and lower half are dark.
var halves = map[bool]map[bool]string{false: {false: " ", true: "▄"}, true: {false: "▀", true: "█"}}

// modules returns the dark modules of a code in a square of this side with its
// lower left corner here. Those side by side in a row are one area, so that no
// light shows between them.
func modules(code *qr.Code, at geom.Point, side float64) []ink.Mark {
	size := side / float64(code.Size+2*quiet)
	var marks []ink.Mark
	for row := range code.Size {
		for from := 0; from < code.Size; from++ {
			to := from
			for to < code.Size && code.Black(to, row) {
				to++
			}
			if to == from {
				continue
			}
			low := at.Add(geom.Point{X: float64(quiet+from) * size, Y: side - float64(quiet+row+1)*size})
			marks = append(marks, ink.Area{Path: geom.Rectangle(low, low.Add(geom.Point{X: float64(to-from) * size, Y: size})), Tone: 1, Layer: ink.Outlines})
			from = to
		}
	}
	return marks
}

// words sets lines beside the code, the first and the id bold, each shortened to
// its place.
func words(sheet *ink.Sheet, lines []string, left float64) {
	y := (sheet.Height+labelStep*float64(len(lines)-1))/2 - labelText/2
	for i, line := range lines {
		strong := i == 0 || i == len(lines)-1
		sheet.Add(ink.Text{
			At: geom.Point{X: left, Y: y}, Words: shortened(line, sheet.Width-left-labelMargin, strong), Height: labelText, Bold: strong, Layer: ink.Notes,
		})
		y -= labelStep
	}
}

// shortened cuts a text so that it is no wider than this.
func shortened(text string, width float64, bold bool) string {
	runes := []rune(text)
	for n := len(runes); n > 0; n-- {
		cut := string(runes)
		if n < len(runes) {
			cut = strings.TrimSpace(string(runes[:n])) + "…"
		}
		if ink.Width(cut, labelText, bold) <= width {
			return cut
		}
	}
	return ""
}
