// Package recordtest is the contract of the shop's record: what every engine that
// keeps one must do, asked of it as the page and the command ask. An engine's
// tests hand Keeps a function that opens a new, empty record.
package recordtest

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// day is that of all stamps (constructed).
var day = time.Date(2024, 3, 5, 10, 30, 0, 0, time.UTC)

// Texts of one job, as it grows. Of what is in them the record knows nothing.
const (
	firstText  = "oddleg: 1\njob: Gib\n"
	secondText = "oddleg: 1\njob: Gib\nunits: in\n"
)

// Keeps asks of a record what every engine must do.
func Keeps(t *testing.T, open func(t *testing.T) record.Keeper) {
	t.Helper()
	for name, test := range map[string]func(*testing.T, record.Keeper){
		"revisions": revisions, "put away": putAway, "shelf": shelf, "kit": kit, "devices": devices, "parcels": parcels, "refusals": refusals,
	} {
		t.Run(name, func(t *testing.T) { test(t, open(t)) })
	}
}

// must returns a value that there must be.
func must[T any](t *testing.T) func(T, error) T {
	return func(value T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

// saved is a job with one text.
func saved(t *testing.T, k record.Keeper) record.Saved {
	t.Helper()
	index := record.Index{Name: "Gib", Machine: trade.Machine{What: "planer", Built: 1921}, Words: []string{"dovetail"}}
	return must[record.Saved](t)(k.Save(t.Context(), record.Save{Stamp: record.Stamp{When: day}, Source: []byte(firstText), Index: index}))
}

// revisions: every text that was saved is there as it was, and what was is a new
// revision when it is to count again.
func revisions(t *testing.T, k record.Keeper) {
	if fresh := must[bool](t)(k.Fresh(t.Context())); !fresh {
		t.Error("a new record is not fresh")
	}
	first := saved(t, k)
	next := record.Save{Stamp: record.Stamp{When: day.Add(time.Hour)}, Job: first.Job, From: first.Number, Source: []byte(secondText), Index: record.Index{Name: "Gib"}}
	second := must[record.Saved](t)(k.Save(t.Context(), next))
	if again := must[record.Saved](t)(k.Save(t.Context(), next)); !again.Unchanged {
		t.Error("the same text again is a new revision")
	}
	for number, want := range map[int]string{first.Number: firstText, second.Number: secondText} {
		if got := must[[]byte](t)(k.Source(t.Context(), first.Job, number)); string(got) != want {
			t.Errorf("revision %d is %q", number, got)
		}
	}
	restored := must[record.Saved](t)(k.Restore(t.Context(), first.Job, first.Number, record.Stamp{When: day.Add(2 * time.Hour)}))
	if got := must[[]byte](t)(k.Source(t.Context(), first.Job, restored.Number)); string(got) != firstText || restored.Number <= second.Number {
		t.Errorf("restored as revision %d it is %q", restored.Number, got)
	}
	if list := must[[]record.Revision](t)(k.History(t.Context(), first.Job)); len(list) != 3 {
		t.Errorf("%d revisions, 3 were made", len(list))
	}
	if r := must[record.Revision](t)(k.AsOn(t.Context(), first.Job, day.Add(90*time.Minute))); r.Number != second.Number {
		t.Errorf("as on then it was revision %d", r.Number)
	}
}

// putAway: a job that is put away is out of sight, and comes back.
func putAway(t *testing.T, k record.Keeper) {
	job := saved(t, k).Job
	for _, away := range []bool{true, false} {
		if err := k.PutAway(t.Context(), job, away, record.Stamp{When: day}); err != nil {
			t.Fatal(err)
		}
		shown, hidden := must[[]record.Job](t)(k.Jobs(t.Context())), must[[]record.Job](t)(k.PutAwayJobs(t.Context()))
		if (len(shown) == 0) != away || (len(hidden) == 1) != away {
			t.Errorf("put away %v: %d are shown, %d are not", away, len(shown), len(hidden))
		}
	}
	if hits := must[[]record.Hit](t)(k.Find(t.Context(), record.Query{Words: []string{"dovetail"}})); len(hits) != 1 {
		t.Errorf("%d are found by a word of it", len(hits))
	}
}

// shelf: what was made and neither fitted nor scrapped lies where it was put.
func shelf(t *testing.T, k record.Keeper) {
	job := saved(t, k).Job
	entry := record.Entry{Stamp: record.Stamp{When: day}, Job: job, Made: 5, Fitted: 1, Scrapped: 1, Place: "drawer 4"}
	entry.ID = must[record.Entry](t)(k.Shelve(t.Context(), entry)).ID
	must[record.Entry](t)(k.Shelve(t.Context(), entry)) // the same again is kept once
	if list := must[[]record.Entry](t)(k.Shelf(t.Context(), job)); len(list) != 1 || list[0].Place != "drawer 4" {
		t.Errorf("the shelf has %+v", list)
	}
	if found := must[record.Job](t)(k.Job(t.Context(), job)); found.OnShelf != 3 {
		t.Errorf("%d are on the shelf: 5 made, 1 fitted, 1 scrapped", found.OnShelf)
	}
	if hits := must[[]record.Hit](t)(k.OnShelf(t.Context())); len(hits) != 1 {
		t.Errorf("%d jobs have spares", len(hits))
	}
}

// kit: a tool is put, changed and dropped by its id.
func kit(t *testing.T, k record.Keeper) {
	for _, say := range []string{"", "the blue one"} {
		tool := record.Tool{ID: "mic25", Class: record.Instrument, Kind: "micrometer", Written: "resolution: 0.01 mm", Say: say}
		if err := k.PutTool(t.Context(), tool); err != nil {
			t.Fatal(err)
		}
		if list := must[[]record.Tool](t)(k.Kit(t.Context())); len(list) != 1 || list[0] != tool {
			t.Errorf("the kit has %+v", list)
		}
	}
	if err := k.DropTool(t.Context(), "mic25"); err != nil {
		t.Fatal(err)
	}
	if list := must[[]record.Tool](t)(k.Kit(t.Context())); len(list) != 0 {
		t.Errorf("dropped, the kit has %+v", list)
	}
}

// devices: an invitation lets one device in, in time, until it is revoked.
func devices(t *testing.T, k record.Keeper) {
	hash := func(letter string) string { return strings.Repeat(letter, 64) }
	if err := k.Invite(t.Context(), record.Invitation{Hash: hash("a"), Until: day.Add(time.Minute)}); err != nil {
		t.Fatal(err)
	}
	joined := must[record.Device](t)(k.Join(t.Context(), hash("a"), record.Device{Name: "telephone"}, hash("b"), day))
	_, err := k.Join(t.Context(), hash("a"), record.Device{Name: "another"}, hash("c"), day)
	refused(t, "an invitation used twice", err)
	if d := must[record.Device](t)(k.DeviceByKey(t.Context(), hash("b"), day)); d.ID != joined.ID || d.Name != "telephone" {
		t.Errorf("the key is that of %+v", d)
	}
	if err := k.Revoke(t.Context(), joined.ID, day); err != nil {
		t.Fatal(err)
	}
	if d, err := k.DeviceByKey(t.Context(), hash("b"), day); err == nil && d.Revoked.IsZero() {
		t.Error("a device that was revoked comes in")
	}
}

// parcels: what is packed is taken in once, under the same id.
func parcels(t *testing.T, k record.Keeper) {
	job := saved(t, k).Job
	var parcel, backup bytes.Buffer
	if err := k.Pack(t.Context(), job, &parcel); err != nil {
		t.Fatal(err)
	}
	index := func([]byte) record.Index { return record.Index{Name: "Gib"} }
	took := must[record.Saved](t)(k.TakeParcel(t.Context(), bytes.NewReader(parcel.Bytes()), int64(parcel.Len()), index, record.Stamp{When: day}))
	if took.Job != job || len(must[[]record.Job](t)(k.Jobs(t.Context()))) != 1 {
		t.Errorf("a job that is here is taken in as %s", took.Job)
	}
	if err := k.WriteBackup(t.Context(), &backup); err != nil || backup.Len() == 0 {
		t.Errorf("a copy of %d bytes (%v)", backup.Len(), err)
	}
}

// refusals: what is asked wrongly is the user's to put right, and a context that
// has ended ends the asking.
func refusals(t *testing.T, k record.Keeper) {
	_, err := k.Job(t.Context(), "none such")
	refused(t, "a job that is not there", err)
	_, err = k.Shelve(t.Context(), record.Entry{Stamp: record.Stamp{When: day}, Job: saved(t, k).Job, Made: 1, Fitted: 2})
	refused(t, "more fitted than made", err)
	ended, stop := context.WithCancel(t.Context())
	stop()
	if _, err := k.Jobs(ended); !errors.Is(err, context.Canceled) {
		t.Errorf("asked after the end: %v", err)
	}
}

func refused(t *testing.T, what string, err error) {
	t.Helper()
	var faults trade.Faults
	if !errors.As(err, &faults) {
		t.Errorf("%s: %v", what, err)
	}
}
