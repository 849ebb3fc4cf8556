package store

import (
	"archive/zip"
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

// A parcel is a zip file with these in it, and the photographs in a folder.
const (
	parcelJob     = "job.yaml"
	parcelRecord  = "record.json"
	parcelFolder  = "photographs/"
	parcelVersion = 1
)

// Parcel is one job to be carried to another shop: its current text, its
// photographs and its entries of the shelf.
type Parcel struct {
	Source []byte
	Name   string // of the job
	about  parcelRecords
	data   map[string][]byte // of the photographs, by their digest
}

// parcelRecords is what a parcel says of the job beside its text.
type parcelRecords struct {
	Oddleg      int                `json:"oddleg"` // version of the parcel
	Job         string             `json:"job"`
	Name        string             `json:"name"`
	Revision    int                `json:"revision"`
	Line        []string           `json:"line"` // digests of all texts of the main line, the first first
	Photographs []parcelPhotograph `json:"photographs"`
	Shelf       []parcelEntry      `json:"shelf"`
}

type parcelPhotograph struct {
	File    string      `json:"file"`
	Caption string      `json:"caption"`
	When    time.Time   `json:"when"`
	Who     string      `json:"who"`
	Pins    []parcelPin `json:"pins,omitempty"` // a parcel of an older program has none
}

type parcelPin struct {
	ID   string  `json:"id"`
	X    float64 `json:"x"`
	Y    float64 `json:"y"`
	Size string  `json:"size"`
	Say  string  `json:"say"`
}

type parcelEntry struct {
	ID       string        `json:"id"`
	When     time.Time     `json:"when"`
	Who      string        `json:"who"`
	Made     int           `json:"made"`
	Fitted   int           `json:"fitted"`
	Scrapped int           `json:"scrapped"`
	Place    string        `json:"place"`
	Drawing  string        `json:"drawing"`
	Material string        `json:"material"`
	How      string        `json:"how"`
	Better   string        `json:"better"`
	Sizes    []record.Size `json:"sizes"`
}

// pictureEndings are those of the files of a parcel.
var pictureEndings = map[string]string{"image/jpeg": ".jpg", "image/png": ".png"}

// Pack writes the current revision of a job with its photographs as a zip file.
func (s *Store) Pack(ctx context.Context, id string, w io.Writer) error {
	job, err := s.Job(ctx, id)
	if err != nil {
		return err
	}
	source, err := s.Source(ctx, job.ID, job.Revision)
	if err != nil {
		return err
	}
	about := parcelRecords{Oddleg: parcelVersion, Job: job.ID, Name: job.Name, Revision: job.Revision}
	about.Line, err = list(ctx, s.db, func(r row) (sum string, err error) { return sum, r.Scan(&sum) },
		"SELECT sha256 FROM revisions WHERE job = ? AND branch = 0 ORDER BY number", job.ID)
	if err != nil {
		return s.told(err)
	}
	if err := s.packShelf(ctx, &about); err != nil {
		return err
	}
	z := zip.NewWriter(w)
	if err := pack(z, parcelJob, job.Saved, source); err != nil {
		return err
	}
	if err := s.packPhotographs(ctx, z, &about); err != nil {
		return err
	}
	text, err := json.MarshalIndent(about, "", " ")
	if err != nil {
		panic("store: a parcel's record cannot be written")
	}
	if err := pack(z, parcelRecord, job.Saved, text); err != nil {
		return err
	}
	return z.Close()
}

func pack(z *zip.Writer, name string, at time.Time, data []byte) error {
	w, err := z.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Deflate, Modified: at})
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}

func (s *Store) packShelf(ctx context.Context, about *parcelRecords) error {
	all, err := s.Shelf(ctx, about.Job)
	for _, e := range all {
		about.Shelf = append(about.Shelf, parcelEntry{
			e.ID, e.When, e.Who, e.Made, e.Fitted, e.Scrapped, e.Place, e.Drawing, e.Material, e.How, e.Better, e.Sizes,
		})
	}
	return err
}

// packPhotographs writes one picture after the other: together they may be large.
func (s *Store) packPhotographs(ctx context.Context, z *zip.Writer, about *parcelRecords) error {
	all, err := s.Photographs(ctx, about.Job)
	if err != nil {
		return err
	}
	if len(all) > mostPhotographs {
		return refused("the job has %d photographs; a parcel takes %d", len(all), mostPhotographs)
	}
	total := 0
	for _, listed := range all {
		p, err := s.Photograph(ctx, about.Job, listed.SHA256)
		if err != nil {
			return err
		}
		if total += len(p.Data); total > mostPictures {
			return refused("the photographs of the job have more than %d MB; a parcel takes no more", mostPictures>>20)
		}
		file := p.SHA256 + pictureEndings[p.MIME]
		if err := pack(z, parcelFolder+file, p.When, p.Data); err != nil {
			return err
		}
		about.Photographs = append(about.Photographs, parcelPhotograph{file, p.Note, p.When, p.Who, parcelPins(p.Pins)})
	}
	return nil
}

func parcelPins(pins []record.Pin) []parcelPin {
	var list []parcelPin
	for _, pin := range pins {
		list = append(list, parcelPin(pin))
	}
	return list
}

// TakeParcel unpacks what another shop packed and keeps it.
func (s *Store) TakeParcel(
	ctx context.Context, r io.ReaderAt, size int64, index func(source []byte) record.Index, stamp record.Stamp,
) (record.Saved, error) {
	parcel, err := Unpack(r, size)
	if err != nil {
		return record.Saved{}, err
	}
	return s.Take(ctx, parcel, index(parcel.Source), stamp)
}

// Take keeps what is in a parcel. A job that is here already goes on from the
// latest of its texts that both shops have; where it was changed here since, the
// parcel's becomes a branch. Photographs, their pins and entries of the shelf
// that are here stay as they are and are not kept twice.
func (s *Store) Take(ctx context.Context, p *Parcel, index record.Index, stamp record.Stamp) (saved record.Saved, err error) {
	save := record.Save{Stamp: stamp, Job: p.about.Job, Source: p.Source, Index: index}
	if err := checkSave(save); err != nil {
		return record.Saved{}, err
	}
	err = s.write(ctx, func(tx *sql.Tx) error {
		if saved, err = takeText(ctx, tx, save, p.about.Line); err != nil {
			return err
		}
		return p.takeRest(ctx, tx, saved.Number)
	})
	return saved, err
}

// takeText saves the text of a parcel from where both shops were one.
func takeText(ctx context.Context, tx *sql.Tx, save record.Save, line []string) (record.Saved, error) {
	for i := len(line) - 1; i >= 0; i-- {
		known, err := list(ctx, tx, readRevision, revisionColumns+"WHERE job = ? AND sha256 = ? ORDER BY number DESC LIMIT 1", save.Job, line[i])
		if err != nil {
			return record.Saved{}, err
		}
		if len(known) == 1 {
			save.From = known[0].Number
			break
		}
	}
	return saveIn(ctx, tx, save)
}

// takeRest keeps photographs and entries. The shelf must not end up with less
// than nothing on it.
func (p *Parcel) takeRest(ctx context.Context, tx *sql.Tx, number int) error {
	for _, listed := range p.about.Photographs {
		data := p.data[listed.File]
		photo := record.Photograph{
			Stamp: record.Stamp{When: listed.When, Who: listed.Who, Note: listed.Caption}, Job: p.about.Job, SHA256: digest(data), MIME: mimeOf(listed.File), Data: data,
		}
		if err := putPhotograph(ctx, tx, photo); err != nil {
			return err
		}
		for _, pin := range listed.Pins {
			if err := putPin(ctx, tx, photo, record.Pin(pin)); err != nil {
				return err
			}
		}
	}
	if err := findablePictures(ctx, tx, p.about.Job); err != nil {
		return err
	}
	for _, e := range p.about.Shelf {
		entry := record.Entry{
			Stamp: record.Stamp{When: e.When, Who: e.Who}, ID: e.ID, Job: p.about.Job, Revision: number, Made: e.Made, Fitted: e.Fitted, Scrapped: e.Scrapped,
			Place: e.Place, Drawing: e.Drawing, Material: e.Material, How: e.How, Better: e.Better, Sizes: e.Sizes,
		}
		if err := putEntry(ctx, tx, entry); err != nil {
			return err
		}
	}
	job, err := needJob(ctx, tx, p.about.Job)
	if err == nil && job.OnShelf < 0 {
		err = refused("%s: with what the parcel says, %d parts would be on the shelf", job.Name, job.OnShelf)
	}
	if err != nil {
		return fmt.Errorf("the parcel: %w", err)
	}
	return nil
}
