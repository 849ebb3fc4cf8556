package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
	"codeberg.org/oddleg/oddleg/show/report"
)

// sheetWriters are the formats of a sheet by the ending of a file.
var sheetWriters = map[string]func(io.Writer, *ink.Sheet) error{
	".svg": paper.SVG,
	".dxf": paper.DXF,
	".pdf": func(w io.Writer, s *ink.Sheet) error {
		return paper.PDF(w, []*ink.Sheet{s}, paper.About{Title: s.Title})
	},
}

// writeSketch writes the sketch of a method, from the numbers of its example.
func writeSketch(s streams, m *gauge.Method, path string) error {
	write, known := sheetWriters[strings.ToLower(filepath.Ext(path))]
	if !known {
		fmt.Fprintf(s.complain, "oddleg: %s: a sketch can be written to .svg, .pdf or .dxf\n", path)
		return errReported
	}
	sheet, ok, err := sketchOf(m)
	if err != nil {
		return err
	}
	if !ok {
		fmt.Fprintf(s.complain, "oddleg: %s has no sketch: it can be any set-up\n", m.ID)
		return errReported
	}
	return writeFile(path, func(w io.Writer) error { return write(w, sheet) })
}

// sketchOf lays out the sketch of a method, false where it has none.
func sketchOf(m *gauge.Method) (*ink.Sheet, bool, error) {
	sketch, ok := m.Draw(m.Example)
	if !ok {
		return nil, false, nil
	}
	sheet, err := draw.Sketch(sketch, m.ID, report.SketchWords(m, m.Example))
	if err != nil {
		return nil, false, fmt.Errorf("%s: %w", m.ID, err)
	}
	return sheet, true, nil
}

// writeFile writes a whole file or none.
func writeFile(path string, write func(io.Writer) error) error {
	var b bytes.Buffer
	if err := write(&b); err != nil {
		return err
	}
	return os.WriteFile(path, b.Bytes(), 0o666)
}

// sketchFolder is where the handbook has its sketches.
const sketchFolder = "sketches"

// writeHandbook writes the handbook of the catalogue and its sketches.
func writeHandbook(folder string) error {
	if err := os.MkdirAll(filepath.Join(folder, sketchFolder), 0o777); err != nil {
		return err
	}
	pictures := map[*gauge.Method]string{}
	for _, m := range gauge.Methods() {
		sheet, ok, err := sketchOf(m)
		if err != nil {
			return err
		}
		if !ok {
			continue
		}
		pictures[m] = sketchFolder + "/" + m.ID + ".svg"
		if err := writeFile(filepath.Join(folder, pictures[m]), func(w io.Writer) error { return paper.SVG(w, sheet) }); err != nil {
			return err
		}
	}
	return writeFile(filepath.Join(folder, "gauging.md"), func(w io.Writer) error {
		return report.Handbook(w, gauge.Methods(), func(m *gauge.Method) string { return pictures[m] })
	})
}
