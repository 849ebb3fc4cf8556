package web

import (
	"fmt"
	"io"
	"time"

	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
	"codeberg.org/oddleg/oddleg/show/solid"
)

// writeSheets writes sheets to a file of this ending: all pages to a PDF, the
// first to the others.
func writeSheets(w io.Writer, ending string, sheets []*ink.Sheet, title string, day time.Time) error {
	switch ending {
	case ".pdf":
		return paper.PDF(w, sheets, paper.About{Title: title, Date: day})
	case ".svg":
		return paper.SVG(w, sheets[0])
	case ".dxf":
		return paper.DXF(w, sheets[0])
	}
	return fmt.Errorf("a sheet cannot be written to %s", ending)
}

// writeBody writes a part to a file of this ending.
func writeBody(w io.Writer, ending string, m *part.Model) error {
	switch ending {
	case ".stl":
		return solid.STL(w, m)
	case ".3mf":
		return solid.ThreeMF(w, m)
	case ".step":
		return solid.STEP(w, m)
	}
	return fmt.Errorf("a solid cannot be written to %s", ending)
}
