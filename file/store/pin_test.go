package store

import (
	"math"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
)

// pinned is a store with one photograph.
func pinned(t *testing.T) (s *Store, photo record.Photograph) {
	t.Helper()
	s = fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	return s, must[record.Photograph](t)(s.AddPhotograph(ctx, record.Photograph{Stamp: at(1), Job: job, Data: picture(t, 7)}))
}

// pins returns those of the photograph, in a list and alone.
func pins(t *testing.T, s *Store, photo record.Photograph) []record.Pin {
	t.Helper()
	listed := must[[]record.Photograph](t)(s.Photographs(ctx, photo.Job))[0].Pins
	if alone := must[record.Photograph](t)(s.Photograph(ctx, photo.Job, photo.SHA256)).Pins; !slices.Equal(alone, listed) {
		t.Errorf("pins %+v in the list and %+v on the photograph", listed, alone)
	}
	return listed
}

func found(t *testing.T, s *Store, word string) bool {
	t.Helper()
	hits := must[[]record.Hit](t)(s.Find(ctx, record.Query{Words: []string{word}}))
	return len(hits) > 0 && len(hits[0].Missing) == 0
}

func TestPins(t *testing.T) {
	s, photo := pinned(t)
	put := func(p record.Pin) record.Pin {
		t.Helper()
		return must[record.Pin](t)(s.PutPin(ctx, photo.Job, photo.SHA256, p, at(2)))
	}
	first := put(record.Pin{X: 0, Y: 1, Size: "shank_d", Say: "galled"})
	if again := put(record.Pin{X: 0, Y: 1, Size: "shank_d", Say: "galled"}); again != first {
		t.Errorf("sent twice: %+v and %+v", first, again)
	}
	second := put(record.Pin{X: 0.5, Y: 0.5, Say: "burr"})
	if !found(t, s, "shank") || !found(t, s, "burr") {
		t.Error("the words of the pins are not found")
	}
	first.X, first.Say = 0.3, "scored"
	put(first)
	if all := pins(t, s, photo); !slices.Equal(all, []record.Pin{first, second}) {
		t.Errorf("after one was moved: %+v", all)
	}
	if found(t, s, "galled") || !found(t, s, "scored") {
		t.Error("the search does not know what the pin says now")
	}
	for range 2 { // the second time it does no harm
		if err := s.DropPin(ctx, photo.Job, photo.SHA256, first.ID); err != nil {
			t.Fatal(err)
		}
	}
	if all := pins(t, s, photo); !slices.Equal(all, []record.Pin{second}) || found(t, s, "scored") {
		t.Errorf("after one was dropped: %+v", all)
	}
}

func TestPinsRefused(t *testing.T) {
	s, photo := pinned(t)
	for _, c := range []struct {
		job, sha256 string
		pin         record.Pin
		words       string
	}{
		{photo.Job, photo.SHA256, record.Pin{X: 1.01, Say: "x"}, "0 to 1 of its width"},
		{photo.Job, photo.SHA256, record.Pin{Y: math.NaN(), Say: "x"}, "0 to 1 of its width"},
		{photo.Job, photo.SHA256, record.Pin{}, "a size or a few words"},
		{photo.Job, photo.SHA256, record.Pin{Say: "\xff"}, "not UTF-8"},
		{photo.Job, photo.SHA256, record.Pin{Say: strings.Repeat("x", mostText+1)}, "too long"},
		{photo.Job, photo.SHA256, record.Pin{ID: "other", Say: "x"}, "has no pin"},
		{photo.Job, "0", record.Pin{Say: "x"}, "no such photograph"},
		{"ABCDEF", photo.SHA256, record.Pin{Say: "x"}, "no such photograph"},
	} {
		_, err := s.PutPin(ctx, c.job, c.sha256, c.pin, at(1))
		refuses(t, err, c.words)
	}
	refuses(t, s.DropPin(ctx, photo.Job, "0", "x"), "no such photograph")
	for i := range mostPins + 1 {
		_, err := s.PutPin(ctx, photo.Job, photo.SHA256, record.Pin{X: float64(i) / mostPins, Say: "x"}, at(1))
		if i == mostPins {
			refuses(t, err, "that is the most")
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

func TestCaption(t *testing.T) {
	s, photo := pinned(t)
	if err := s.Caption(ctx, photo.Job, photo.SHA256, "the notebook page"); err != nil {
		t.Fatal(err)
	}
	if p := must[record.Photograph](t)(s.Photograph(ctx, photo.Job, photo.SHA256)); p.Note != "the notebook page" || !p.When.Equal(at(1).When) {
		t.Errorf("captioned: %+v", p.Stamp)
	}
	if !found(t, s, "notebook") || found(t, s, "hour") {
		t.Error("the search does not know what the caption is now")
	}
	refuses(t, s.Caption(ctx, photo.Job, "0", "x"), "no such photograph")
	refuses(t, s.Caption(ctx, photo.Job, photo.SHA256, "\xff"), "not UTF-8")
}

// TestParcelWithoutPins takes in what a program before pins packed.
func TestParcelWithoutPins(t *testing.T) {
	here, there := fresh(t), fresh(t)
	job := save(t, here, "", 0, "stud", 0).Job
	must[record.Photograph](t)(here.AddPhotograph(ctx, record.Photograph{Stamp: at(1), Job: job, Data: picture(t, 7)}))
	old := packed(t, here)
	if strings.Contains(string(contents(t, old)[parcelRecord]), "pins") {
		t.Error("the parcel of a job without pins has pins in it")
	}
	must[record.Saved](t)(there.Take(ctx, unpacked(t, old), clamp, at(1)))
	if photos := must[[]record.Photograph](t)(there.Photographs(ctx, job)); len(photos) != 1 || len(photos[0].Pins) != 0 {
		t.Errorf("taken: %+v", photos)
	}
}
