package web

import (
	"bytes"

	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/html"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
)

// inline is a sheet as an element of the page.
func inline(s *ink.Sheet) (string, error) {
	var b bytes.Buffer
	err := paper.InlineSVG(&b, s)
	return b.String(), err
}

// spoken is a document about a job, as somebody reads it.
type spoken struct {
	*doc.Document
	of   *jobView
	view unit.View
}

// spoken returns a document about the job, nil where there is none.
func (v *jobView) spoken(d *doc.Document) *spoken {
	if d == nil {
		return nil
	}
	return &spoken{d, v, v.worked.view()}
}

// empty reports whether there is nothing to read.
func (s *spoken) empty() bool { return s == nil || len(s.Blocks) == 0 }

// options say how it is shown, and where what it speaks of is to be found.
func (s *spoken) options() html.Options {
	return html.Options{View: s.view, Refer: s.refer, Do: s.do, Inline: paper.InlineSVG}
}

// refer leads to a thing of the job that has a page.
func (s *spoken) refer(r doc.Ref) string {
	if r.Kind == doc.Size && s.of.worked.Job.Size(r.ID) != nil {
		return s.of.at("sizes/" + r.ID)
	}
	return ""
}

// do leads to where something can be done.
func (s *spoken) do(a *doc.Action) string {
	if a.Verb == "next" {
		return s.of.at("next")
	}
	return ""
}
