package store

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

// join lets a device in, and returns it with the hash of its key.
func join(t *testing.T, s *Store, name string, guest bool) (d record.Device, hash string) {
	t.Helper()
	invitation, hash := digest([]byte("invitation of "+name)), digest([]byte("key of "+name))
	if err := s.Invite(ctx, record.Invitation{Hash: invitation, Guest: guest, Until: begun.Add(time.Hour)}); err != nil {
		t.Fatal(err)
	}
	return must[record.Device](t)(s.Join(ctx, invitation, record.Device{Name: name}, hash, begun)), hash
}

func TestDevices(t *testing.T) {
	s := fresh(t)
	phone, key := join(t, s, "telephone", false)
	guest, guestKey := join(t, s, "visitor", true)
	if phone.Guest || !guest.Guest || phone.ID == guest.ID {
		t.Errorf("joined: %+v, %+v", phone, guest)
	}
	later := begun.Add(3*time.Minute + 20*time.Second)
	if d := must[record.Device](t)(s.DeviceByKey(ctx, key, later)); d.ID != phone.ID || !d.Seen.Equal(begun.Add(3*time.Minute)) {
		t.Errorf("by its key: %+v", d)
	}
	all := must[[]record.Device](t)(s.Devices(ctx))
	if len(all) != 2 || all[0].Name != "telephone" || !all[0].Seen.Equal(begun.Add(3*time.Minute)) || !all[1].Seen.Equal(begun) {
		t.Errorf("devices: %+v", all)
	}
	for _, hours := range []time.Duration{1, 2} { // the first time stays
		if err := s.Revoke(ctx, guest.ID, begun.Add(hours*time.Hour)); err != nil {
			t.Fatal(err)
		}
	}
	if all := must[[]record.Device](t)(s.Devices(ctx)); !all[1].Revoked.Equal(begun.Add(time.Hour)) || !all[0].Revoked.IsZero() {
		t.Errorf("after one was revoked: %+v", all)
	}
	_, err := s.DeviceByKey(ctx, guestKey, later)
	refuses(t, err, "may not come in any more")
	_, err = s.DeviceByKey(ctx, digest([]byte("guessed")), later)
	refuses(t, err, "has not joined")
	refuses(t, s.Revoke(ctx, "x", begun), "no device has the id")
}

// TestSeenIsWrittenOnceAMinute: a device that asks often does not write often.
func TestSeenIsWrittenOnceAMinute(t *testing.T) {
	s := fresh(t)
	_, key := join(t, s, "telephone", false)
	other := raw(t, s.path)
	version := func() (n int) {
		if err := other.QueryRow("PRAGMA data_version").Scan(&n); err != nil {
			t.Fatal(err)
		}
		return n
	}
	other.SetMaxOpenConns(1)
	before := version()
	for second := range 59 {
		must[record.Device](t)(s.DeviceByKey(ctx, key, begun.Add(time.Duration(second)*time.Second)))
	}
	if version() != before {
		t.Error("it was written within the minute")
	}
	must[record.Device](t)(s.DeviceByKey(ctx, key, begun.Add(time.Minute)))
	if version() == before {
		t.Error("it was not written a minute later")
	}
}

func TestJoinRefuses(t *testing.T) {
	s := fresh(t)
	_, used := join(t, s, "telephone", false)
	invited, late := digest([]byte("invited")), digest([]byte("late"))
	for hash, hours := range map[string]time.Duration{invited: 1, late: -1} {
		if err := s.Invite(ctx, record.Invitation{Hash: hash, Until: begun.Add(hours * time.Hour)}); err != nil {
			t.Fatal(err)
		}
	}
	key := digest([]byte("key"))
	for _, c := range []struct{ invitation, name, key, words string }{
		{digest([]byte("invitation of telephone")), "x", key, "used already"},
		{late, "x", key, "has run out"},
		{digest([]byte("guessed")), "x", key, "no such invitation"},
		{invited, " ", key, "needs a name"},
		{invited, "two\nlines", key, "needs a name"},
		{invited, strings.Repeat("x", mostName+1), key, "needs a name"},
		{invited, "\xff", key, "not UTF-8"},
		{invited, "x", "the key itself", "known by its SHA-256"},
		{invited, "x", used, "has joined already"},
	} {
		_, err := s.Join(ctx, c.invitation, record.Device{Name: c.name}, c.key, begun)
		refuses(t, err, c.words)
	}
	refuses(t, s.Invite(ctx, record.Invitation{Hash: "ABC", Until: begun}), "known by its SHA-256")
	if all := must[[]record.Device](t)(s.Devices(ctx)); len(all) != 1 {
		t.Errorf("somebody came in: %+v", all)
	}
	must[record.Device](t)(s.Join(ctx, invited, record.Device{Name: "x"}, key, begun)) // no refusal used it up
}

// TestJoinedOnce has many devices try one invitation at once.
func TestJoinedOnce(t *testing.T) {
	s := fresh(t)
	invited := digest([]byte("invited"))
	if err := s.Invite(ctx, record.Invitation{Hash: invited, Until: begun.Add(time.Hour)}); err != nil {
		t.Fatal(err)
	}
	var all sync.WaitGroup
	var in atomic.Int32
	for i := range 20 {
		all.Go(func() {
			if _, err := s.Join(ctx, invited, record.Device{Name: "x"}, digest([]byte{byte(i)}), begun); err == nil {
				in.Add(1)
			}
		})
	}
	all.Wait()
	if in.Load() != 1 {
		t.Errorf("%d devices joined by one invitation", in.Load())
	}
}

// TestNoDeviceLeavesTheShop looks for a device in a backup, and in what is made of
// a copy of the file itself.
func TestNoDeviceLeavesTheShop(t *testing.T) {
	s := stocked(t)
	_, key := join(t, s, "telephone", false)
	folder := t.TempDir()
	backup, again := filepath.Join(folder, "backup.db"), filepath.Join(folder, "again.db")
	if err := s.Backup(ctx, backup); err != nil {
		t.Fatal(err)
	}
	if err := Recover(ctx, s.path, again); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{backup, again} {
		content := must[[]byte](t)(os.ReadFile(path))
		for _, secret := range []string{key, digest([]byte("invitation of telephone"))} {
			if bytes.Contains(content, []byte(secret)) {
				t.Errorf("%s has the hash of a key in it", path)
			}
		}
		r := must[*Store](t)(Open(path))
		if all := must[[]record.Device](t)(r.Devices(ctx)); len(all) != 0 {
			t.Errorf("devices: %+v", all)
		}
		if err := r.Close(); err != nil {
			t.Error(err)
		}
	}
	if d := must[record.Device](t)(s.DeviceByKey(ctx, key, begun)); d.Name != "telephone" {
		t.Errorf("in the shop itself: %+v", d)
	}
}
