package store

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
)

func TestBackupAndRecover(t *testing.T) {
	s := stocked(t)
	copied := filepath.Join(t.TempDir(), "copy.db")
	if err := s.Backup(ctx, copied); err != nil {
		t.Fatal(err)
	}
	refuses(t, s.Backup(ctx, copied), "is there already and is left alone")
	before := must[[]byte](t)(os.ReadFile(copied))
	again := filepath.Join(t.TempDir(), "again.db")
	if err := Recover(ctx, copied, again); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(before, must[[]byte](t)(os.ReadFile(copied))) {
		t.Error("the backup was touched")
	}
	refuses(t, Recover(ctx, copied, again), "is left alone")
	r := must[*Store](t)(Open(again))
	defer r.Close()
	sameShop(t, r)
	samePage(t, r)
	save(t, r, "", 0, "goes on", 9)
	wrong := filepath.Join(t.TempDir(), "wrong.db")
	if err := os.WriteFile(wrong, []byte("no store"), 0o666); err != nil {
		t.Fatal(err)
	}
	refuses(t, Recover(ctx, wrong, filepath.Join(t.TempDir(), "x.db")), "is no record of this program")
}

// sameShop proves that a store is that of stocked.
func sameShop(t *testing.T, s *Store) {
	t.Helper()
	jobs := must[[]record.Job](t)(s.Jobs(ctx))
	if len(jobs) != 3 || len(must[[]record.Tool](t)(s.Kit(ctx))) != 1 {
		t.Errorf("jobs %+v", jobs)
	}
	hits := must[[]record.Hit](t)(s.Find(ctx, record.Query{Words: []string{"drawer", "notebook"}, Threads: []string{"7/16 BSW"}}))
	if len(hits) != 1 || len(hits[0].Missing) != 0 || hits[0].Job.OnShelf != 2 {
		t.Fatalf("found %+v", hits)
	}
	if got := text(t, s, hits[0].Job.ID); got != "stud" {
		t.Errorf("the text is %q", got)
	}
	photos := must[[]record.Photograph](t)(s.Photographs(ctx, hits[0].Job.ID))
	if len(photos) != 1 || !bytes.Equal(must[record.Photograph](t)(s.Photograph(ctx, photos[0].Job, photos[0].SHA256)).Data, picture(t, 1)) {
		t.Errorf("photographs %+v", photos)
	}
	if err := s.Check(ctx); err != nil {
		t.Error(err)
	}
}

// TestReleasedStoresOpen opens the store that each released version left behind.
func TestReleasedStoresOpen(t *testing.T) {
	if *makeRelease {
		if err := stocked(t).Backup(ctx, fmt.Sprintf("testdata/v%d.db", newest())); err != nil {
			t.Fatal(err)
		}
	}
	released := must[[]string](t)(filepath.Glob("testdata/v*.db"))
	if len(released) != newest() {
		t.Fatalf("%d stores of released versions for %d versions", len(released), newest())
	}
	for _, file := range released {
		path := filepath.Join(t.TempDir(), "shop.db")
		if err := os.WriteFile(path, must[[]byte](t)(os.ReadFile(file)), 0o666); err != nil {
			t.Fatal(err)
		}
		s := must[*Store](t)(Open(path))
		sameShop(t, s)
		if !strings.HasSuffix(file, "v1.db") {
			samePage(t, s)
		}
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}
}

// samePage proves that a store has what stocked keeps for the page since version
// 2.
func samePage(t *testing.T, s *Store) {
	t.Helper()
	away := must[[]record.Job](t)(s.PutAwayJobs(ctx))
	if len(away) != 1 || !away[0].Example || away[0].Name != "Example plunger" {
		t.Errorf("put away: %+v", away)
	}
	job := must[record.Job](t)(s.Job(ctx, clamp.Name))
	photos := must[[]record.Photograph](t)(s.Photographs(ctx, job.ID))
	if job.Pictures != 1 || len(photos[0].Pins) != 1 || photos[0].Pins[0].Size != "shank" || photos[0].Pins[0].Y != 0.75 {
		t.Errorf("pinned: %+v", photos)
	}
}

// packed returns the parcel of the job with the stud.
func packed(t *testing.T, s *Store) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := s.Pack(ctx, "Clamp of the tool head", &b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func unpacked(t *testing.T, data []byte) *Parcel {
	t.Helper()
	return must[*Parcel](t)(Unpack(bytes.NewReader(data), int64(len(data))))
}

func TestParcelBetweenShops(t *testing.T) {
	here, there := stocked(t), fresh(t)
	parcel := unpacked(t, packed(t, here))
	if parcel.Name != clamp.Name || string(parcel.Source) != "stud" {
		t.Errorf("parcel: %q, %q", parcel.Name, parcel.Source)
	}
	for i := range 2 { // the second time there is nothing new in it
		saved := must[record.Saved](t)(there.Take(ctx, parcel, clamp, at(5)))
		if saved.Number != 1 || saved.Unchanged != (i == 1) {
			t.Errorf("taken: %+v", saved)
		}
	}
	job := must[record.Job](t)(there.Job(ctx, clamp.Name))
	if job.ID != must[record.Job](t)(here.Job(ctx, clamp.Name)).ID || job.OnShelf != 2 {
		t.Errorf("the job there: %+v", job)
	}
	if photos := must[[]record.Photograph](t)(there.Photographs(ctx, job.ID)); len(photos) != 1 || !strings.HasPrefix(photos[0].Note, "broken tail") || len(photos[0].Pins) != 1 {
		t.Errorf("photographs there: %+v", photos)
	}

	// It goes on there, and comes back: it goes on here.
	save(t, there, job.ID, 1, "there", 6)
	back := must[record.Saved](t)(here.Take(ctx, unpacked(t, packed(t, there)), clamp, at(7)))
	if back.Branch != 0 || text(t, here, job.ID) != "there" {
		t.Errorf("back: %+v", back)
	}
	// Both go on: what comes is kept beside.
	save(t, there, job.ID, 2, "there again", 8)
	save(t, here, job.ID, 2, "here again", 8)
	beside := must[record.Saved](t)(here.Take(ctx, unpacked(t, packed(t, there)), clamp, at(9)))
	if beside.Branch != 4 || len(beside.Later) != 1 || text(t, here, job.ID) != "here again" {
		t.Errorf("beside: %+v", beside)
	}
}

// zipped packs files into a zip, in the order of their names.
func zipped(t *testing.T, files map[string][]byte, twice ...string) []byte {
	t.Helper()
	var names []string
	for name := range files {
		names = append(names, name)
	}
	slices.Sort(names)
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for _, name := range append(names, twice...) {
		w, err := z.Create(name)
		if err == nil {
			_, err = w.Write(files[name])
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// contents returns the files of a parcel.
func contents(t *testing.T, data []byte) map[string][]byte {
	t.Helper()
	z := must[*zip.Reader](t)(zip.NewReader(bytes.NewReader(data), int64(len(data))))
	files := map[string][]byte{}
	for _, f := range z.File {
		opened := must[io.ReadCloser](t)(f.Open())
		files[f.Name] = must[[]byte](t)(io.ReadAll(opened))
	}
	return files
}

func TestUnpackRefuses(t *testing.T) {
	good := packed(t, stocked(t))
	photo := parcelFolder + digest(picture(t, 1)) + ".png"
	other := parcelFolder + digest(picture(t, 2)) + ".png"
	zeros := make([]byte, MaxPhotograph+1)
	inRecord := func(from, to string) func(map[string][]byte) {
		return func(f map[string][]byte) {
			changed := strings.Replace(string(f[parcelRecord]), from, to, 1)
			if changed == string(f[parcelRecord]) {
				t.Fatalf("the record has no %q", from)
			}
			f[parcelRecord] = []byte(changed)
		}
	}
	for _, c := range []struct {
		name   string
		change func(map[string][]byte)
		words  string
	}{
		{"a bomb for a job", func(f map[string][]byte) { f[parcelJob] = make([]byte, 4<<20) }, "unpacks to more than the 1048576 bytes"},
		{"a bomb for a record", func(f map[string][]byte) { f[parcelRecord] = zeros[:mostRecord+1] }, "unpacks to more"},
		{"a bomb for a picture", func(f map[string][]byte) { f[photo] = zeros }, "unpacks to more"},
		{"out of the folder", func(f map[string][]byte) { f["../../etc/cron.d/x"] = nil }, "does not belong there"},
		{"out of the photographs", func(f map[string][]byte) { f[parcelFolder+"../x.png"] = nil }, "does not belong there"},
		{"from the root", func(f map[string][]byte) { f["/job.yaml"] = nil }, "does not belong there"},
		{"with a backslash", func(f map[string][]byte) { f[`..\job.yaml`] = nil }, "does not belong there"},
		{"a program", func(f map[string][]byte) { f["run.exe"] = nil }, "does not belong there"},
		{"no picture", func(f map[string][]byte) { f[photo] = []byte("<svg onload=alert(1)>") }, "no picture of a kind"},
		{"another picture", func(f map[string][]byte) { f[photo] = picture(t, 2) }, "not the picture that its name says"},
		{"a picture not listed", func(f map[string][]byte) { f[other] = picture(t, 2) }, "that it does not list"},
		{"a picture not there", func(f map[string][]byte) { delete(f, photo) }, "not in it once"},
		{"no job", func(f map[string][]byte) { delete(f, parcelJob) }, "no parcel of a job"},
		{"no record", func(f map[string][]byte) { delete(f, parcelRecord) }, "no parcel of a job"},
		{"a broken record", func(f map[string][]byte) { f[parcelRecord] = []byte("{") }, "cannot be read"},
		{"a later version", inRecord(`"oddleg": 1`, `"oddleg": 2`), "of version 2"},
		{"another id", inRecord(`"job": "`, `"job": "../`), "which is none"},
		{"fewer than none", inRecord(`"made": 2`, `"made": -2`), "counts -2 parts"},
		{"a pin beside the picture", inRecord(`"y": 0.75`, `"y": 7.5`), "0 to 1 of its width and height"},
		{"a pin with another id", inRecord(`"pins": [
    {
     "id": "`, `"pins": [
    {
     "id": "x`), "a pin on"},
	} {
		t.Run(c.name, func(t *testing.T) {
			files := contents(t, good)
			c.change(files)
			data := zipped(t, files)
			_, err := Unpack(bytes.NewReader(data), int64(len(data)))
			refuses(t, err, c.words)
		})
	}
	twice := zipped(t, contents(t, good), parcelJob)
	_, err := Unpack(bytes.NewReader(twice), int64(len(twice)))
	refuses(t, err, "two files called")
	_, err = Unpack(bytes.NewReader(good[:len(good)/2]), int64(len(good)/2))
	refuses(t, err, "no zip file")
}

// TestParcelOwingParts: a parcel whose shelf has less than nothing on it leaves
// no trace.
func TestParcelOwingParts(t *testing.T) {
	files := contents(t, packed(t, stocked(t)))
	files[parcelRecord] = bytes.Replace(files[parcelRecord], []byte(`"fitted": 0`), []byte(`"fitted": 3`), 1)
	s := fresh(t)
	_, err := s.Take(ctx, unpacked(t, zipped(t, files)), clamp, at(1))
	refuses(t, err, "-1 parts would be on the shelf")
	if jobs := must[[]record.Job](t)(s.Jobs(ctx)); len(jobs) != 0 {
		t.Errorf("it left %+v", jobs)
	}
}

func FuzzUnpack(f *testing.F) {
	about, err := json.Marshal(parcelRecords{Oddleg: 1, Job: "ABCDEF"})
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for name, data := range map[string][]byte{parcelJob: []byte("oddleg: 1"), parcelRecord: about} {
		w, wrong := z.Create(name)
		_, full := w.Write(data)
		err = errors.Join(err, wrong, full)
	}
	if err := errors.Join(err, z.Close()); err != nil {
		f.Fatal(err)
	}
	f.Add(b.Bytes())
	f.Add([]byte("PK\x05\x06"))
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Unpack(bytes.NewReader(data), int64(len(data)))
		if err == nil && (len(p.Source) > MaxSource || !isID(p.about.Job, jobIDLength)) {
			t.Errorf("took %q for a parcel", data)
		}
	})
}
