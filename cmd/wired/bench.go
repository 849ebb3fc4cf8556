// Package wired brings the rooms together that do not know each other: the
// record, the text of jobs and paper, for the page to work with.
package wired

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"time"

	"codeberg.org/oddleg/oddleg/examples"
	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
	"codeberg.org/oddleg/oddleg/show/paper"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/solid"
)

// Bench is the page's bench over a record.
func Bench(s *store.Store, log *slog.Logger) web.Bench {
	return web.Bench{
		Record: shop{s}, Text: text{}, Paper: sheets{}, Chapters: chapters, Words: words, Answers: answers{}, Booklet: OnPaper,
		Index: index, IndexFound: indexFound, Query: Query, Examples: demo(), Parts: parts(), Now: time.Now, Log: log,
	}
}

func chapters(f *reckon.Found, stages []reckon.Stage, o draw.Options) ([]booklet.Chapter, error) {
	return report.Chapters(report.Contents{Found: f, Stages: stages, Drawing: o})
}

func words(job *trade.Job, found *reckon.Found) web.Words { return report.WordsOn(job, found) }

// index is Index for a text that may be wrong: then the job is found by nothing
// but what could be read.
func index(source []byte) (record.Index, string) {
	entry, doubt, err := Index("", source)
	if err != nil {
		return entry, err.Error()
	}
	return entry, doubt
}

// demo are the example jobs.
func demo() []web.Example {
	var list []web.Example
	for _, job := range examples.Jobs() {
		list = append(list, web.Example{Name: job.Name, About: job.About, Source: job.Source})
	}
	return list
}

// parts are the patterns to begin a part with.
func parts() []web.Example {
	var list []web.Example
	for _, p := range examples.Parts() {
		list = append(list, web.Example{Name: p.Name, About: p.Kind, Source: p.Source})
	}
	return list
}

// shop is the record with what the page asks beyond it.
type shop struct{ *store.Store }

// TakeParcel keeps what another shop packed.
func (s shop) TakeParcel(ctx context.Context, r io.ReaderAt, size int64, stamp record.Stamp) (record.Saved, error) {
	parcel, err := store.Unpack(r, size)
	if err != nil {
		return record.Saved{}, err
	}
	entry, _ := index(parcel.Source)
	return s.Take(ctx, parcel, entry, stamp)
}

// BackUp writes a copy of the whole record.
func (s shop) BackUp(ctx context.Context, w io.Writer) error {
	folder, err := os.MkdirTemp("", "oddleg")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "shop.db")
	if err := s.Backup(ctx, path); err != nil {
		return err
	}
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	_, err = io.Copy(w, file)
	return err
}

// sheets writes sheets and solids.
type sheets struct{}

// Inline writes a sheet as an element of a page.
func (sheets) Inline(w io.Writer, s *ink.Sheet) error { return paper.InlineSVG(w, s) }

// Sheet writes sheets to a file of this ending: all pages to a PDF, the first
// to the others.
func (sheets) Sheet(w io.Writer, ending string, list []*ink.Sheet, title string, day time.Time) error {
	switch ending {
	case ".pdf":
		return paper.PDF(w, list, paper.About{Title: title, Date: day})
	case ".svg":
		return paper.SVG(w, list[0])
	case ".dxf":
		return paper.DXF(w, list[0])
	}
	return fmt.Errorf("a sheet cannot be written to %s", ending)
}

// Solid writes a part to a file of this ending.
func (sheets) Solid(w io.Writer, ending string, m *part.Model) error {
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

// Mesh returns the surface of a part, near enough for the eye.
func (sheets) Mesh(m *part.Model) ([][3]float32, [][3]int, error) {
	mesh, err := solid.MeshOf(m, solid.Chord)
	if err != nil {
		return nil, nil, err
	}
	return mesh.Points, mesh.Triangles, nil
}

// Code lays out a text as a QR code.
func (sheets) Code(text string) (*ink.Sheet, error) { return report.Code(text) }

// Label lays out the label for the bag of a part.
func (sheets) Label(job record.Job) (*ink.Sheet, error) { return report.Label(Recorded(job)) }
