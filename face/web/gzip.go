package web

import (
	"compress/gzip"
	"io"
	"net/http"
	"strings"
	"sync"
)

// compressors are used again: each has large tables.
var compressors = sync.Pool{New: func() any {
	w, err := gzip.NewWriterLevel(io.Discard, gzip.DefaultCompression)
	if err != nil {
		panic("web: the usual compression is not known")
	}
	return w
}}

// compressed compresses what is text, for whoever can read it.
func compressed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if !strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			next.ServeHTTP(w, r)
			return
		}
		w.Header().Add("Vary", "Accept-Encoding")
		s := &compressedWriter{ResponseWriter: w}
		defer s.close()
		next.ServeHTTP(s, r)
	})
}

// compressedWriter is a response that may be compressed: it knows when its head is
// written.
type compressedWriter struct {
	http.ResponseWriter
	to     *gzip.Writer // nil: as it is
	headed bool
}

// WriteHeader decides.
func (s *compressedWriter) WriteHeader(status int) {
	if s.headed {
		return
	}
	s.headed = true
	h := s.Header()
	kind := h.Get("Content-Type")
	text := strings.HasPrefix(kind, "text/") || strings.Contains(kind, "svg") || strings.Contains(kind, "json") || strings.Contains(kind, "javascript")
	if text && h.Get("Content-Encoding") == "" && status != http.StatusNoContent && status != http.StatusNotModified {
		h.Set("Content-Encoding", "gzip")
		h.Del("Content-Length")
		s.to = compressors.Get().(*gzip.Writer)
		s.to.Reset(s.ResponseWriter)
	}
	s.ResponseWriter.WriteHeader(status)
}

// Write writes, compressed where that was decided.
func (s *compressedWriter) Write(data []byte) (int, error) {
	if !s.headed {
		if s.Header().Get("Content-Type") == "" {
			s.Header().Set("Content-Type", http.DetectContentType(data))
		}
		s.WriteHeader(http.StatusOK)
	}
	if s.to == nil {
		return s.ResponseWriter.Write(data)
	}
	return s.to.Write(data)
}

// Unwrap lets http.ResponseController see the response under this one.
func (s *compressedWriter) Unwrap() http.ResponseWriter { return s.ResponseWriter }

// close ends what is compressed. The client may be gone: then it does not
// matter.
func (s *compressedWriter) close() {
	if s.to == nil {
		return
	}
	_ = s.to.Close()
	compressors.Put(s.to)
}
