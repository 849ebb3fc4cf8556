package web

import (
	"bytes"
	"strings"

	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
)

// inline is a sheet as an element of the page.
func inline(s *ink.Sheet) (string, error) {
	var b bytes.Buffer
	err := paper.InlineSVG(&b, s)
	return b.String(), err
}

// weights are the classes of words by how loudly they speak.
var weights = map[booklet.Weight]string{
	booklet.Quiet: "quiet", booklet.Small: "small", booklet.Strong: "strong", booklet.Figure: "figure", booklet.Large: "large",
}

func paragraphClass(p booklet.Paragraph) string {
	class := weights[p.Weight]
	if p.Indent > 0 || p.Mark != "" {
		class += " in"
	}
	if p.Space == booklet.Close {
		class += " close"
	}
	return strings.TrimSpace(class)
}

func cellClass(c booklet.Column) string {
	class := weights[c.Weight]
	if c.Align == ink.RightAligned {
		class += " right"
	}
	return strings.TrimSpace(class)
}

// hasHeads reports whether any column that is shown has a head.
func hasHeads(t booklet.Table) bool {
	for _, c := range t.Columns {
		if c.Head != "" && !c.Write {
			return true
		}
	}
	return false
}

// tableLabel says what a table that can be moved sideways shows.
func tableLabel(t booklet.Table) string {
	var heads []string
	for _, c := range t.Columns {
		if c.Head != "" && !c.Write {
			heads = append(heads, c.Head)
		}
	}
	if len(heads) == 0 {
		return "table"
	}
	return "table: " + strings.Join(heads, ", ")
}
