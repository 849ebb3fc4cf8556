package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"flag"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

var ctx = context.Background()

// makeRelease writes the store that this version of the program leaves behind.
var makeRelease = flag.Bool("release", false, "write testdata/vN.db of the newest version, once it is released")

// begun is when the invented shop began its record.
var begun = time.Date(2031, 3, 1, 8, 0, 0, 0, time.UTC)

func at(hours int) record.Stamp {
	return record.Stamp{When: begun.Add(time.Duration(hours) * time.Hour), Who: "turner", Note: fmt.Sprintf("hour %d", hours)}
}

var shaper = trade.Machine{What: "shaper", Built: 1936, Country: "GB"}

// clamp is what a job with a threaded stud is found by.
var clamp = record.Index{
	Name: "Clamp of the tool head", Machine: shaper, Part: "Clamping stud", Words: []string{"holds the clapper box"},
	Sizes:   []record.Size{{Name: "shank", Text: "11.03 mm", MM: 11.03}, {Name: "length", Text: "62 mm", MM: 62}},
	Threads: []record.Thread{{Name: "tail", Designation: "7/16 BSW"}},
}

func fresh(t *testing.T) *Store {
	t.Helper()
	s, err := Make(filepath.Join(t.TempDir(), "shop.db"))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := errors.Join(s.Check(ctx), s.Close()); err != nil {
			t.Error(err)
		}
	})
	return s
}

// must returns a value that has to be there.
func must[T any](t *testing.T) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// save saves a text, made from a revision.
func save(t *testing.T, s *Store, job string, from int, text string, hours int) record.Saved {
	t.Helper()
	return must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(hours), Job: job, From: from, Source: []byte(text), Index: clamp}))
}

// text returns that of the current revision.
func text(t *testing.T, s *Store, job string) string {
	t.Helper()
	j := must[record.Job](t)(s.Job(ctx, job))
	return string(must[[]byte](t)(s.Source(ctx, job, j.Revision)))
}

// refuses wants an error in the user's data with these words in it.
func refuses(t *testing.T, err error, words string) {
	t.Helper()
	var faults trade.Faults
	if !errors.As(err, &faults) || !strings.Contains(err.Error(), words) {
		t.Errorf("got %v, want a fault with %q in it", err, words)
	}
}

func TestRevisionsUndoAndAsOn(t *testing.T) {
	s := fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	save(t, s, job, 1, "two", 2)
	save(t, s, job, 2, "three", 4)
	for _, c := range []struct {
		current int
		want    string
	}{{3, "two"}, {4, "one"}} {
		must[record.Saved](t)(s.Undo(ctx, job, c.current, at(4+c.current)))
		if got := text(t, s, job); got != c.want {
			t.Errorf("after undoing revision %d the text is %q, want %q", c.current, got, c.want)
		}
	}
	_, err := s.Undo(ctx, job, 5, at(10))
	refuses(t, err, "nothing to go back to")
	_, err = s.Undo(ctx, job, 3, at(10))
	refuses(t, err, "not the current one")
	must[record.Saved](t)(s.Restore(ctx, job, 3, at(11)))
	if got := text(t, s, job); got != "three" {
		t.Errorf("restored %q, want three", got)
	}
	if all := must[[]record.Revision](t)(s.History(ctx, job)); len(all) != 6 || all[5].Restores != 3 || all[5].From != 5 || all[1].Note != "hour 2" || all[1].Who != "turner" {
		t.Errorf("history: %+v", all)
	}
	for hours, want := range map[int]int{0: 1, 1: 1, 2: 2, 3: 2, 100: 6} {
		if v := must[record.Revision](t)(s.AsOn(ctx, job, begun.Add(time.Duration(hours)*time.Hour))); v.Number != want {
			t.Errorf("as on hour %d: revision %d, want %d", hours, v.Number, want)
		}
	}
	_, err = s.AsOn(ctx, job, begun.Add(-time.Hour))
	refuses(t, err, "not in the record yet")
}

func TestRevisionsStay(t *testing.T) {
	s := fresh(t)
	save(t, s, "", 0, "one", 0)
	for _, change := range []string{"DELETE FROM revisions", "UPDATE revisions SET note = 'other'"} {
		if _, err := s.db.Exec(change); err == nil || !strings.Contains(err.Error(), "a revision is") {
			t.Errorf("%s: %v", change, err)
		}
	}
}

func TestLaterSaveIsKeptBeside(t *testing.T) {
	s := fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	save(t, s, job, 1, "mine", 1)
	yours := save(t, s, job, 1, "yours", 2)
	if yours.Branch != 3 || len(yours.Later) != 1 || yours.Later[0].Number != 2 {
		t.Errorf("a save behind another's: %+v", yours)
	}
	if got := text(t, s, job); got != "mine" {
		t.Errorf("the current text is %q, want mine", got)
	}
	if on := save(t, s, job, 3, "yours again", 3); on.Branch != 3 || len(on.Later) != 0 {
		t.Errorf("a save on a branch: %+v", on)
	}
	if j := must[record.Job](t)(s.Job(ctx, job)); len(j.Branches) != 1 || j.Branches[0] != 3 {
		t.Errorf("open branches %v, want 3", j.Branches)
	}
	_, err := s.Save(ctx, record.Save{Stamp: at(4), Job: job, From: 1, Merges: 3, Source: []byte("both"), Index: clamp})
	refuses(t, err, "taken into the current revision, 2")
	_, err = s.Save(ctx, record.Save{Stamp: at(4), Job: job, From: 2, Merges: 2, Source: []byte("both"), Index: clamp})
	refuses(t, err, "no open branch 2")
	both := must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(4), Job: job, From: 2, Merges: 3, Source: []byte("both"), Index: clamp}))
	if j := must[record.Job](t)(s.Job(ctx, job)); both.Branch != 0 || j.Revision != 5 || len(j.Branches) != 0 {
		t.Errorf("after the merge: %+v, %+v", both, j)
	}
	_, err = s.Save(ctx, record.Save{Stamp: at(4), Job: job, From: 9, Source: []byte("x")})
	refuses(t, err, "no revision 9")
}

func TestRepeatedSaveIsKeptOnce(t *testing.T) {
	s := fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	first := save(t, s, job, 1, "two", 1)
	for _, from := range []int{1, 2} {
		if again := save(t, s, job, from, "two", 2); !again.Unchanged || again.Number != first.Number {
			t.Errorf("sent again from %d: %+v", from, again)
		}
	}
}

func TestSaveRefuses(t *testing.T) {
	s := fresh(t)
	for _, c := range []struct {
		save  record.Save
		words string
	}{
		{record.Save{Stamp: at(0), Source: []byte("\xff")}, "not UTF-8"},
		{record.Save{Stamp: at(0), Source: make([]byte, MaxSource+1)}, "1048577 bytes"},
		{record.Save{Stamp: at(0), Job: "ABCDEF", From: 1}, "made from no revision"},
	} {
		_, err := s.Save(ctx, c.save)
		refuses(t, err, c.words)
	}
}

func TestJobIsFoundByWhatItIsCalled(t *testing.T) {
	s := fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	for _, called := range []string{job, strings.ToLower(job), "clamp of the TOOL head", "tool head"} {
		if j := must[record.Job](t)(s.Job(ctx, called)); j.ID != job || j.Machine != shaper || !j.Saved.Equal(begun) {
			t.Errorf("%q: %+v", called, j)
		}
	}
	_, err := s.Job(ctx, "Clamp of the tool haed")
	refuses(t, err, "did you mean Clamp of the tool head?")
	save(t, s, "", 0, "other", 0)
	_, err = s.Job(ctx, "tool head")
	refuses(t, err, "2 jobs are called")
	if same := must[[]record.Job](t)(s.JobsCalled(ctx, clamp.Name, shaper)); len(same) != 2 {
		t.Errorf("%d jobs of the name, want 2", len(same))
	}
	if machines := must[[]trade.Machine](t)(s.Machines(ctx)); len(machines) != 1 || machines[0] != shaper {
		t.Errorf("machines: %v", machines)
	}
}

func TestFilesAreRemembered(t *testing.T) {
	s := fresh(t)
	saved := must[record.Saved](t)(s.Save(ctx, record.Save{Stamp: at(0), Source: []byte("one"), File: "/a.yaml", Index: clamp}))
	save(t, s, saved.Job, 1, "two", 1)
	for _, want := range []int{1, 2} {
		if job, number, found, err := s.FileKept(ctx, "/a.yaml"); err != nil || !found || job != saved.Job || number != want {
			t.Errorf("the file holds %s, %d, %v, %v; want revision %d", job, number, found, err, want)
		}
		if err := s.NoteFile(ctx, "/a.yaml", saved.Job, 2); err != nil {
			t.Fatal(err)
		}
	}
	if _, _, found, err := s.FileKept(ctx, "/b.yaml"); found || err != nil {
		t.Errorf("a file never kept: %v, %v", found, err)
	}
}

func TestShelf(t *testing.T) {
	s := fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	must[record.Entry](t)(s.Shelve(ctx, record.Entry{Stamp: at(1), Job: job, Made: 3, Fitted: 1, Place: "drawer 4", Material: "EN8", Better: "bore first", Sizes: []record.Size{{Name: "shank", Text: "11.02 mm", MM: 11.02}}}))
	must[record.Entry](t)(s.Shelve(ctx, record.Entry{Stamp: at(2), Job: job, Fitted: 1}))
	_, err := s.Shelve(ctx, record.Entry{Stamp: at(3), Job: job, Fitted: 1, Scrapped: 1})
	refuses(t, err, "1 on the shelf and 0 made now are not enough")
	_, err = s.Shelve(ctx, record.Entry{Stamp: at(3), Job: job, Made: -1})
	refuses(t, err, "a number from 0")
	hits := must[[]record.Hit](t)(s.OnShelf(ctx))
	if len(hits) != 1 || hits[0].Job.OnShelf != 1 || hits[0].Places[0] != "drawer 4" {
		t.Errorf("on the shelf: %+v", hits)
	}
	if all := must[[]record.Entry](t)(s.Shelf(ctx, job)); len(all) != 2 || all[0].Revision != 1 || all[0].Sizes[0].MM != 11.02 {
		t.Errorf("entries: %+v", all)
	}
}

// TestShelfTwice sends one entry twice, as a page does that got no answer: the
// shelf must not be asked for the parts again.
func TestShelfTwice(t *testing.T) {
	s := fresh(t)
	job, other := save(t, s, "", 0, "one", 0).Job, save(t, s, "", 0, "two", 0).Job
	must[record.Entry](t)(s.Shelve(ctx, record.Entry{Stamp: at(1), Job: job, Made: 1}))
	for range 2 {
		e := must[record.Entry](t)(s.Shelve(ctx, record.Entry{Stamp: at(2), ID: "23456789ABCDEFGH", Job: job, Fitted: 1}))
		if e.Fitted != 1 || !e.When.Equal(at(2).When) {
			t.Errorf("entry: %+v", e)
		}
	}
	_, err := s.Shelve(ctx, record.Entry{Stamp: at(3), ID: "23456789ABCDEFGH", Job: other, Made: 1})
	refuses(t, err, "belongs to job "+job)
	_, err = s.Shelve(ctx, record.Entry{Stamp: at(3), ID: "../x", Job: job, Made: 1})
	refuses(t, err, "is no id")
}

// picture returns a small PNG in one shade.
func picture(t *testing.T, shade uint8) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, 8, 8))
	for i := range img.Pix {
		img.Pix[i] = shade
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestPhotographs(t *testing.T) {
	s := fresh(t)
	job := save(t, s, "", 0, "one", 0).Job
	data := picture(t, 7)
	var sum string
	for range 2 { // the same picture is kept once
		sum = must[record.Photograph](t)(s.AddPhotograph(ctx, record.Photograph{Stamp: at(1), Job: job, Data: data})).SHA256
	}
	if all := must[[]record.Photograph](t)(s.Photographs(ctx, job)); len(all) != 1 || all[0].MIME != "image/png" || all[0].Data != nil {
		t.Errorf("photographs: %+v", all)
	}
	if p := must[record.Photograph](t)(s.Photograph(ctx, job, sum)); !bytes.Equal(p.Data, data) {
		t.Error("the picture came back another")
	}
	huge := bytes.Clone(data)
	copy(huge[16:24], "\x00\x01\x00\x00\x00\x01\x00\x00") // the width and height of IHDR: its sum is wrong then, and it is huge
	for words, wrong := range map[string][]byte{
		"no picture of a kind": []byte("<svg/>"),
		"broken":               data[:len(data)-20],
		"the most is 20 MB":    make([]byte, MaxPhotograph+1),
		"no picture":           huge,
	} {
		_, err := s.AddPhotograph(ctx, record.Photograph{Stamp: at(1), Job: job, Data: wrong})
		refuses(t, err, words)
	}
}

func TestSavingAtOnceLosesNothing(t *testing.T) {
	s := fresh(t)
	other := must[*Store](t)(Open(s.path)) // as another program would
	defer other.Close()
	job := save(t, s, "", 0, "one", 0).Job
	const writers, each = 6, 8
	var all sync.WaitGroup
	for w := range writers {
		all.Go(func() {
			for i := range each {
				in := []*Store{s, other}[w%2]
				_, err := in.Save(ctx, record.Save{Stamp: at(1), Job: job, From: 1, Source: fmt.Appendf(nil, "writer %d save %d", w, i), Index: clamp})
				if _, wrong := in.Find(ctx, record.Query{Words: []string{"clamp"}}); err != nil || wrong != nil {
					t.Errorf("writer %d: %v, %v", w, err, wrong)
				}
			}
		})
	}
	all.Wait()
	history := must[[]record.Revision](t)(s.History(ctx, job))
	if len(history) != 1+writers*each {
		t.Errorf("%d revisions, want %d", len(history), 1+writers*each)
	}
	mainLine := 0
	for _, v := range history {
		if v.Branch == 0 {
			mainLine++
		}
	}
	if mainLine != 2 {
		t.Errorf("%d revisions on the main line, want the first and the one that came next", mainLine)
	}
}

// raw opens a data base without what a store does.
func raw(t *testing.T, path string) *sql.DB {
	t.Helper()
	db := must[*sql.DB](t)(connect(path))
	t.Cleanup(func() { db.Close() })
	return db
}

func TestOpenRefuses(t *testing.T) {
	newer := fmt.Sprintf("PRAGMA application_id = %d; PRAGMA user_version = %d; CREATE TABLE future (x)", applicationID, newest()+1)
	for _, c := range []struct{ name, content, statements, words string }{
		{"text", "oddleg: 1\njob: not a store\n", "", "is no record of this program"},
		{"short", "SQLite format 3\x00", "", "is no record of this program"},
		{"other", "", "PRAGMA user_version = 3; CREATE TABLE x (y)", "is a data base, but no record"},
		{"unmarked", "", "CREATE TABLE x (y)", "is a data base, but no record"},
		{"newer", "", newer, fmt.Sprintf("is of version %d and this program knows versions up to %d", newest()+1, newest())},
		{"newer in its log", "", "PRAGMA journal_mode = WAL; " + newer, "use a newer oddleg"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "shop.db")
			if err := os.WriteFile(path, []byte(c.content), 0o666); err != nil {
				t.Fatal(err)
			}
			if c.statements != "" {
				must[sql.Result](t)(raw(t, path).Exec(c.statements))
			}
			before := must[[]byte](t)(os.ReadFile(path))
			_, err := Make(path)
			refuses(t, err, c.words)
			if after := must[[]byte](t)(os.ReadFile(path)); !bytes.Equal(before, after) {
				t.Error("the file was touched")
			}
		})
	}
	_, err := Open(filepath.Join(t.TempDir(), "none.db"))
	refuses(t, err, "there is no record at")
}
