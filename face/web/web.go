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
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

// Config is what the page works with.
type Config struct {
	Record record.Keeper
	Now    func() time.Time
	Log    *slog.Logger
}

// desk is what all pages are made at: the record, what texts have come to, what is
// being worked out, and how a page is shown and a job changed.
type desk struct {
	Config
	guard Guard
	cache *cache
	tasks *tasks
}

// pages are some that belong together: a type with a file of its own, which says
// what it answers.
type pages interface {
	routes(t *table)
}

// all lists the pages.
func (s *desk) all() []pages {
	return []pages{
		&assetPages{s}, &jobPages{s}, &parcelPages{s}, &readingPages{s}, newTakePages(s), &sizePages{s}, &meaningPages{s},
		&fitPages{s}, newPartPages(s), &paperPages{s}, &setUpPages{s}, &checkPages{s}, &upkeepPages{s}, &simulationPages{s},
		&recordPages{s}, &historyPages{s}, &textPages{s}, &branchPages{s}, &machinePages{s}, &kitPages{s}, &sparePages{s},
		&findPages{s}, &settingPages{s}, &photographPages{s}, &solidPages{s}, &joinPages{s},
	}
}

// New returns what answers requests, with every guard round it.
func New(c Config, g Guard) http.Handler { return newDesk(c, g).handler() }

func newDesk(c Config, g Guard) *desk {
	return &desk{Config: c, guard: g, cache: newCache(), tasks: newTasks()}
}

func (s *desk) handler() http.Handler { return (&door{s}).round(newTable(s)) }

// table is all that is answered: a method and a path, "GET /job/{id}", each by an
// action.
type table struct {
	http.ServeMux
	complain func(w http.ResponseWriter, r *http.Request, err error)
	patterns []string
}

func newTable(s *desk) *table {
	t := &table{complain: s.complain}
	for _, p := range s.all() {
		p.routes(t)
	}
	return t
}

// action answers a request or says why it cannot.
type action func(w http.ResponseWriter, r *http.Request) error

// on adds an answer. A form has been read by then.
func (t *table) on(pattern string, act action) {
	t.patterns = append(t.patterns, pattern)
	t.HandleFunc(pattern, func(w http.ResponseWriter, r *http.Request) {
		err := readForm(r)
		if err == nil {
			err = act(w, r)
		}
		if err != nil {
			t.complain(w, r, err)
		}
	})
}
