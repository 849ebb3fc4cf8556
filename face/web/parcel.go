package web

import (
	"bytes"
	"errors"
	"io"
	"mime"
	"mime/multipart"
	"net/http"
	"os"
	"strings"
	"time"
	"unicode"

	"codeberg.org/oddleg/oddleg/file/index"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// parcelPages answer for what is carried from shop to shop.
type parcelPages struct{ *desk }

func (s *parcelPages) routes(t *table) {
	t.on("GET /take-in", writers(s.takeInPage))
	t.on("POST /take-in", s.takeIn)
	t.on("GET /job/{job}/parcel.zip", s.pack)
	t.on("GET /job/{job}/job.yaml", s.sendText)
	t.on("GET /shop.db", writers(s.sendShop))
}

// takeInPage asks for a job from elsewhere.
func (s *parcelPages) takeInPage(w http.ResponseWriter, r *http.Request) error {
	return s.show(w, r, http.StatusOK, takeInPage(s.look(r, "Bring a job in"), newIdempotencyKey(newJob), nil))
}

// takeIn keeps a job from a file: one that another shop packed, or its text.
func (s *parcelPages) takeIn(w http.ResponseWriter, r *http.Request) error {
	job, err := s.takenIn(r)
	var faults trade.Faults
	if errors.As(err, &faults) {
		return s.show(w, r, http.StatusUnprocessableEntity, takeInPage(s.look(r, "Bring a job in"), idempotencyKeyOf(r), said(faults)))
	}
	if err != nil {
		return err
	}
	return goTo(w, r, "/job/"+job)
}

// idempotencyKeyOf is the id that a form came back with, or a new one.
func idempotencyKeyOf(r *http.Request) string {
	if id := r.FormValue("once"); isIdempotencyKey(id, newJob) {
		return id
	}
	return newIdempotencyKey(newJob)
}

// takenIn reads the file of a form, and returns the job that it is kept as.
func (s *parcelPages) takenIn(r *http.Request) (string, error) {
	file, head, err := r.FormFile("file")
	if errors.Is(err, http.ErrMissingFile) || errors.Is(err, http.ErrNotMultipart) {
		return "", wrong("choose a file first: a parcel (.zip) or the text of a job (.yaml)")
	}
	if err != nil {
		return "", err
	}
	defer file.Close()
	start := make([]byte, 16)
	n, err := file.ReadAt(start, 0)
	if err != nil && !errors.Is(err, io.EOF) {
		return "", err
	}
	start = start[:n]
	switch {
	case bytes.HasPrefix(start, []byte("PK\x03\x04")), bytes.HasPrefix(start, []byte("PK\x05\x06")):
		return s.takenParcel(r, file, head)
	case bytes.HasPrefix(start, []byte("SQLite format 3")):
		return "", wrong("%s is a copy of a whole shop, not of one job. To go back to it, stop oddleg and run: oddleg import %[1]s", head.Filename)
	}
	return s.takenText(r, file, head)
}

func (s *parcelPages) takenParcel(r *http.Request, file multipart.File, head *multipart.FileHeader) (string, error) {
	saved, err := s.Record.TakeParcel(r.Context(), file, head.Size, index.Any, s.stamp(r, "brought in from "+head.Filename))
	return saved.Job, err
}

// takenText keeps the text of a job, which must be one that can be read: the
// file is there still, if it is not.
func (s *parcelPages) takenText(r *http.Request, file io.Reader, head *multipart.FileHeader) (string, error) {
	source, err := io.ReadAll(io.LimitReader(file, mostForm))
	if err != nil {
		return "", err
	}
	if _, err := readJob(source); err != nil {
		return "", err
	}
	saved, err := s.keepNew(r, idempotencyKeyOf(r), "brought in from "+head.Filename, source)
	return saved.Job, err
}

// pack sends a job with its photographs and its spares.
func (s *parcelPages) pack(w http.ResponseWriter, r *http.Request) error {
	job, err := s.Record.Job(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	return sendFile(w, r, fileName(job.Name)+".zip", "application/zip", func(w io.Writer) error { return s.Record.Pack(r.Context(), job.ID, w) })
}

// sendText sends the text of a job as it was saved last.
func (s *parcelPages) sendText(w http.ResponseWriter, r *http.Request) error {
	job, err := s.Record.Job(r.Context(), r.PathValue("job"))
	if err != nil {
		return err
	}
	source, err := s.Record.Source(r.Context(), job.ID, job.Revision)
	if err != nil {
		return err
	}
	attach(w, fileName(job.Name)+".yaml", "application/yaml")
	_, err = w.Write(source)
	return ignoreGone(r.Context(), err)
}

// sendShop sends a copy of the whole record. Guests may look at all of it, and
// not carry it away.
func (s *parcelPages) sendShop(w http.ResponseWriter, r *http.Request) error {
	name := "shop-" + s.Now().Format("2006-01-02") + ".db"
	return sendFile(w, r, name, "application/vnd.sqlite3", func(w io.Writer) error { return s.Record.WriteBackup(r.Context(), w) })
}

// sendFile sends what is written, to be kept by the browser as a file. All of it
// is there before any is sent: half of it would look like the whole.
func sendFile(w http.ResponseWriter, r *http.Request, name, kind string, write func(io.Writer) error) (err error) {
	file, err := os.CreateTemp("", "oddleg-*")
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, file.Close(), os.Remove(file.Name())) }()
	if err := write(file); err != nil {
		return err
	}
	attach(w, name, kind)
	http.ServeContent(w, r, "", time.Time{}, file)
	return nil
}

// attach says what is sent, and under which name to keep it.
func attach(w http.ResponseWriter, name, kind string) {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": name}))
}

// fileName is a name of a job that any disk takes.
func fileName(name string) string {
	name = strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsDigit(c) {
			return c
		}
		return '-'
	}, name)
	const longest = 60
	short := []rune(strings.Trim(name, "-"))
	if len(short) == 0 {
		return "job"
	}
	return string(short[:min(len(short), longest)])
}
