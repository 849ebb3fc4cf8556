// Package web shows the shop's record and its jobs on a page: for a telephone in
// a greasy hand and the screen on the office table.
//
// The server makes every page; each works without a script, and scripts make it
// quicker, keep what is half typed and send it again. Nothing is asked of any
// other host. A job is changed only through its text, which becomes a new
// revision; what is shown is worked out from the text, and forgotten again.
// One file holds one page with what can be done on it.
package web

import (
	"log/slog"
	"net/http"
	"sync"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

// Config is what the page works with.
type Config struct {
	Record record.Keeper
	Now    func() time.Time
	Log    *slog.Logger
}

// server answers requests.
type server struct {
	Config
	guard    Guard
	cache    *cache
	tasks    *tasks
	drawn    pictures
	begun    func() []pattern // the parts to begin with
	pages    *http.ServeMux
	patterns []string // of all that is answered
}

// New returns what answers requests, with every guard round it.
func New(c Config, g Guard) http.Handler { return g.round(newServer(c, g)) }

func newServer(c Config, g Guard) *server {
	s := &server{Config: c, guard: g, cache: newCache(), tasks: newTasks(), drawn: newPictures(), pages: http.NewServeMux()}
	s.begun = sync.OnceValue(s.drawPatterns)
	s.assets()
	s.shop()
	s.parcel()
	s.job()
	s.readings()
	s.take()
	s.sizes()
	s.meanings()
	s.fit()
	s.part()
	s.papers()
	s.setUps()
	s.checks()
	s.upkeep()
	s.long()
	s.recordPages()
	s.history()
	s.textPages()
	s.both()
	s.machines()
	s.kit()
	s.spares()
	s.find()
	s.you()
	s.photographs()
	s.solids()
	s.join()
	return s
}

// ServeHTTP answers one request.
func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) { s.pages.ServeHTTP(w, r) }

// action answers a request or says why it cannot.
type action func(w http.ResponseWriter, r *http.Request) error

// on answers a method and a path, "GET /job/{id}", by an action. A form has been
// read by then.
func (s *server) on(pattern string, act action) {
	s.patterns = append(s.patterns, pattern)
	s.pages.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		err := readForm(r)
		if err == nil {
			err = act(w, r)
		}
		if err != nil {
			s.complain(w, r, err)
		}
	})
}
