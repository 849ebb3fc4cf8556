package store

import (
	"archive/zip"
	"encoding/json"
	"io"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
)

// The bounds of a parcel, of what it is unpacked to.
const (
	mostPhotographs = 200
	mostPictures    = 128 << 20
	mostRecord      = 8 << 20
)

// Unpack reads a parcel and proves all that is in it. Nothing but what belongs
// in one is taken, under the names that belong there, and no more of it than the
// bounds: sizes that the file states are not believed.
func Unpack(r io.ReaderAt, size int64) (*Parcel, error) {
	z, err := zip.NewReader(r, size)
	if err != nil {
		return nil, refused("this is no zip file, or it is cut short")
	}
	if len(z.File) > mostPhotographs+2 {
		return nil, refused("the parcel has %d files in it; the most is %d photographs beside %s and %s", len(z.File), mostPhotographs, parcelJob, parcelRecord)
	}
	files := map[string][]byte{}
	left := mostPictures
	for _, file := range z.File {
		data, err := unpack(file, left)
		if err != nil {
			return nil, err
		}
		if _, twice := files[file.Name]; twice {
			return nil, refused("the parcel has two files called %q", file.Name)
		}
		files[file.Name] = data
		if strings.HasPrefix(file.Name, parcelFolder) {
			left -= len(data)
		}
	}
	return readParcel(files)
}

// unpack returns what a file of the zip holds; pictures may have what is left.
func unpack(file *zip.File, left int) ([]byte, error) {
	most := min(MaxPhotograph, left)
	switch {
	case file.Name == parcelJob:
		most = MaxSource
	case file.Name == parcelRecord:
		most = mostRecord
	case !isPicture(file.Name):
		return nil, refused("the parcel has %q in it, which does not belong there", file.Name)
	}
	opened, err := file.Open()
	if err != nil {
		return nil, refused("%s in the parcel cannot be unpacked", file.Name)
	}
	defer opened.Close()
	data, err := io.ReadAll(io.LimitReader(opened, int64(most)+1))
	switch {
	case err != nil:
		return nil, refused("%s in the parcel is broken or cut short", file.Name)
	case len(data) > most:
		return nil, refused("%s in the parcel unpacks to more than the %d bytes it may have", file.Name, most)
	}
	return data, nil
}

// isPicture reports whether a name is that of a photograph: its digest and an
// ending, in the folder of photographs.
func isPicture(name string) bool {
	base, inFolder := strings.CutPrefix(name, parcelFolder)
	return inFolder && mimeOf(base) != ""
}

// mimeOf returns the kind that the name of a photograph says, empty where it is
// no such name.
func mimeOf(base string) string {
	for mime, ending := range pictureEndings {
		if sum, ok := strings.CutSuffix(base, ending); ok && isDigest(sum) {
			return mime
		}
	}
	return ""
}

// readParcel puts a parcel together from its files.
func readParcel(files map[string][]byte) (*Parcel, error) {
	p := &Parcel{data: map[string][]byte{}}
	about, hasAbout := files[parcelRecord]
	source, hasJob := files[parcelJob]
	if !hasAbout || !hasJob {
		return nil, refused("this is no parcel of a job: %s and %s belong in it", parcelJob, parcelRecord)
	}
	if err := json.Unmarshal(about, &p.about); err != nil {
		return nil, refused("%s in the parcel cannot be read: %v", parcelRecord, err)
	}
	p.Source, p.Name = source, p.about.Name
	if err := p.checkRecord(); err != nil {
		return nil, err
	}
	return p, p.checkPictures(files)
}

func (p *Parcel) checkRecord() error {
	r := &p.about
	if r.Oddleg != parcelVersion {
		return refused("the parcel is of version %d; this program reads %d", r.Oddleg, parcelVersion)
	}
	if !isID(r.Job, jobIDLength) {
		return refused("the parcel's job has the id %q, which is none", r.Job)
	}
	for _, e := range r.Shelf {
		if !isID(e.ID, longIDLength) {
			return refused("an entry of the shelf in the parcel has the id %q, which is none", e.ID)
		}
		for _, n := range []int{e.Made, e.Fitted, e.Scrapped} {
			if n < 0 || n > mostParts {
				return refused("an entry of the shelf in the parcel counts %d parts", n)
			}
		}
	}
	return nil
}

// checkPictures proves that each photograph is listed once, is what its name
// says, and is a picture.
func (p *Parcel) checkPictures(files map[string][]byte) error {
	for _, listed := range p.about.Photographs {
		data, there := files[parcelFolder+listed.File]
		if _, twice := p.data[listed.File]; !there || twice {
			return refused("the parcel lists the photograph %q, which is not in it once", listed.File)
		}
		mime, err := PictureKind(data)
		switch {
		case err != nil:
			return refused("%s in the parcel: %v", listed.File, err)
		case mime != mimeOf(listed.File) || digest(data)+pictureEndings[mime] != listed.File:
			return refused("%s in the parcel is not the picture that its name says", listed.File)
		}
		if err := listed.checkPins(); err != nil {
			return err
		}
		p.data[listed.File] = data
	}
	if extra := len(files) - 2 - len(p.data); extra > 0 {
		return refused("the parcel has %d photographs in it that it does not list", extra)
	}
	return nil
}

// checkPins proves that the pins of a photograph are some that could be put here.
func (p *parcelPhotograph) checkPins() error {
	if len(p.Pins) > mostPins {
		return refused("%s in the parcel has %d pins; the most is %d", p.File, len(p.Pins), mostPins)
	}
	for _, pin := range p.Pins {
		if !isID(pin.ID, longIDLength) {
			return refused("a pin on %s in the parcel has the id %q, which is none", p.File, pin.ID)
		}
		if err := checkPin(record.Pin(pin)); err != nil {
			return refused("%s in the parcel: %v", p.File, err)
		}
	}
	return nil
}
