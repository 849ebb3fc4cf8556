package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"
	"unicode/utf8"
)

// inMemory is how much of an upload is held in memory; the rest waits on disk
// until it is answered.
const inMemory = 8 << 20

// readForm reads what a form sent, if one did. What is larger than it may be, or
// no text, goes no further.
func readForm(r *http.Request) error {
	if r.Method != http.MethodPost {
		return nil
	}
	err := r.ParseForm()
	if err == nil && isUpload(r) {
		err = r.ParseMultipartForm(inMemory)
	}
	var large *http.MaxBytesError
	switch {
	case errors.As(err, &large):
		return err
	case err != nil:
		return wrong("what was sent cannot be read: it is no form, or was cut short")
	}
	for name, values := range r.PostForm {
		if !utf8.ValidString(name + strings.Join(values, "")) {
			return wrong("what was typed for %q is no text (not UTF-8), and was not saved", strings.ToValidUTF8(name, "�"))
		}
	}
	return nil
}

// isUpload reports whether a request has files in it.
func isUpload(r *http.Request) bool {
	return strings.HasPrefix(strings.ToLower(r.Header.Get("Content-Type")), "multipart/")
}

// typed is one field that a form sent.
type typed struct{ Name, Value string }

// quietFields are those that nobody typed.
var quietFields = map[string]bool{"from": true, "once": true, "back": true, "key": true, "device": true}

// Quiet reports whether nobody typed it.
func (t typed) Quiet() bool { return quietFields[t.Name] }

// Long reports whether it needs more than a line.
func (t typed) Long() bool { return len(t.Value) > 60 || strings.Contains(t.Value, "\n") }

// typedIn are the fields of a form that could not be done, so that nothing typed
// is lost. A file is no text: it is where it was chosen from.
func typedIn(r *http.Request) []typed {
	var list []typed
	for name, values := range r.PostForm {
		for _, value := range values {
			list = append(list, typed{strings.ToValidUTF8(name, "�"), strings.ToValidUTF8(value, "�")})
		}
	}
	slices.SortStableFunc(list, func(a, b typed) int { return strings.Compare(a.Name, b.Name) })
	return list
}
