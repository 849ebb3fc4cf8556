package web

import (
	"fmt"
	"net/http"
	"runtime/debug"
)

// recovered keeps a mistake of the program to the page it was made on: that is
// told and written down, all others go on.
func (s *door) recovered(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		sent := &sending{ResponseWriter: w}
		defer func() {
			mistake := recover()
			if mistake == nil {
				return
			}
			if mistake == http.ErrAbortHandler || sent.begun { // what is sent already cannot be taken back: it is cut off
				s.Log.Error("a page was cut off", "path", r.URL.Path, "why", mistake)
				panic(http.ErrAbortHandler)
			}
			s.complain(w, r, fmt.Errorf("%v\n%s", mistake, debug.Stack()))
		}()
		next.ServeHTTP(sent, r)
	})
}

// sending is a response that knows whether any of it is sent.
type sending struct {
	http.ResponseWriter
	begun bool
}

// WriteHeader sends the head.
func (s *sending) WriteHeader(status int) {
	s.begun = true
	s.ResponseWriter.WriteHeader(status)
}

// Write sends a part of the body.
func (s *sending) Write(data []byte) (int, error) {
	s.begun = true
	return s.ResponseWriter.Write(data)
}

// Unwrap lets http.ResponseController see the response under this one.
func (s *sending) Unwrap() http.ResponseWriter { return s.ResponseWriter }
