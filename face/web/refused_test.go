package web_test

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/job/record"
)

// stuck is a record on a disk that cannot be written to.
type stuck struct {
	record.Keeper
	why error
}

func (s stuck) fail() error { return fmt.Errorf("the record shop.db: %w", s.why) }

func (s stuck) Save(context.Context, record.Save) (record.Saved, error) {
	return record.Saved{}, s.fail()
}

func (s stuck) Restore(context.Context, string, int, record.Stamp) (record.Saved, error) {
	return record.Saved{}, s.fail()
}

func (s stuck) Undo(context.Context, string, int, record.Stamp) (record.Saved, error) {
	return record.Saved{}, s.fail()
}

func (s stuck) PutAway(context.Context, string, bool, record.Stamp) error { return s.fail() }

func (s stuck) Shelve(context.Context, record.Entry) (record.Entry, error) {
	return record.Entry{}, s.fail()
}

func (s stuck) Caption(context.Context, string, string, string) error { return s.fail() }

func (s stuck) PutPin(context.Context, string, string, record.Pin, record.Stamp) (record.Pin, error) {
	return record.Pin{}, s.fail()
}

func (s stuck) PutTool(context.Context, record.Tool) error { return s.fail() }

func (s stuck) DropTool(context.Context, string) error { return s.fail() }

func (s stuck) Invite(context.Context, record.Invitation) error { return s.fail() }

func (s stuck) Join(context.Context, string, record.Device, string, time.Time) (record.Device, error) {
	return record.Device{}, s.fail()
}

func (s stuck) Revoke(context.Context, string, time.Time) error { return s.fail() }

// TestNothingTypedIsLost sends every form to a record that cannot be written to:
// the answer says so, and has what was typed in a form that can be sent again.
func TestNothingTypedIsLost(t *testing.T) {
	d := newDoor(t, web.Guard{Shared: true})
	key := keyIn(t, d.said(d.get("/you")))
	for _, why := range []error{record.ErrFull, record.ErrReadOnly, record.ErrBusy} {
		b := d.bench
		b.Record = stuck{d.bench.Record, why}
		d.page = web.New(b, web.Guard{Shared: true})
		told := 0
		for _, pattern := range posts(d) {
			path := filled(d, pattern, "x")
			answer := d.post(path, url.Values{"from": {"1"}, "once": {key}, "key": {key}, "text": {"oddleg: 1\njob: as typed\n"}, "caption": {"as typed"}, "name": {"as typed"}})
			if answer.StatusCode != http.StatusInsufficientStorage {
				continue
			}
			told++
			text := d.said(answer)
			if !strings.Contains(text, why.Error()) || strings.Count(text, "as typed") < 3 || !strings.Contains(text, `action="`+path+`"`) {
				t.Errorf("%s: %.3000s", pattern, text)
			}
		}
		if told < 3 {
			t.Errorf("%v: only %d forms were told of it", why, told)
		}
		d.wants(d.get("/"), http.StatusOK, "Jobs")
	}
}
