package web

import (
	"context"
	"errors"
	"net/http"
	"net/http/httptest"
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
)

// TestWriters has a guest ask for a page that is there to write on.
func TestWriters(t *testing.T) {
	reached := false
	act := writers(func(http.ResponseWriter, *http.Request) error { reached = true; return nil })
	r := httptest.NewRequest("GET", "/new", nil)
	for guest, want := range map[bool]error{true: errNotThere, false: nil} {
		reached = false
		asked := r.WithContext(context.WithValue(r.Context(), deviceKey{}, record.Device{Guest: guest}))
		if err := act(httptest.NewRecorder(), asked); !errors.Is(err, want) || reached == guest {
			t.Errorf("guest %t: %v, reached %t", guest, err, reached)
		}
	}
}
