// Package web shows the shop's record and its jobs on a page: for a telephone in
// a greasy hand and the screen on the office table.
//
// The server makes every page; each works without a script, and scripts make it
// quicker, keep what is half typed and send it again. Nothing is asked of any
// other host. A job is changed only through its text, which becomes a new
// revision; what is shown is worked out from the text, and forgotten again.
// One file holds one page with what can be done on it. What the page needs of the
// record, of a job's text and of paper comes in as a Bench.
package web

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"sync"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/make/lathe"
	"codeberg.org/oddleg/oddleg/make/part"
	"codeberg.org/oddleg/oddleg/meaning/meant"
	"codeberg.org/oddleg/oddleg/prove/inspect"
	"codeberg.org/oddleg/oddleg/read/adjust"
	"codeberg.org/oddleg/oddleg/read/advise"
	"codeberg.org/oddleg/oddleg/read/simulate"
	"codeberg.org/oddleg/oddleg/reckon"
	"codeberg.org/oddleg/oddleg/show/booklet"
	"codeberg.org/oddleg/oddleg/show/draw"
	"codeberg.org/oddleg/oddleg/show/ink"
)

// Bench is what the page works with.
type Bench struct {
	Record     Record
	Text       Text
	Paper      Paper
	Chapters   func(f *reckon.Found, stages []reckon.Stage, o draw.Options) ([]booklet.Chapter, error)
	Words      func(job *trade.Job, found *reckon.Found) Words // found is nil where nothing can be worked out
	Answers    Answers
	Booklet    func(f *reckon.Found, stages []reckon.Stage, o draw.Options) ([]*ink.Sheet, error) // the pages of the sheet
	Index      func(source []byte) (record.Index, string)                                         // what a job is found by, and why not by more
	IndexFound func(job *trade.Job, found *reckon.Found) record.Index                             // the same of what is worked out already
	Query      func(asked string) record.Query                                                    // what a person asks for in words
	Examples   []Example                                                                          // for an empty record
	Parts      []Example                                                                          // parts to begin with: their kinds are About
	Now        func() time.Time
	Log        *slog.Logger
}

// Example is a job, or a part of one, that comes with the program.
type Example struct {
	Name, About string
	Source      []byte
}

// Record is the shop's record. What is wrong with what is asked of it is
// trade.Faults.
type Record interface {
	Jobs(ctx context.Context) ([]record.Job, error)
	PutAwayJobs(ctx context.Context) ([]record.Job, error)
	Job(ctx context.Context, called string) (record.Job, error)
	Fresh(ctx context.Context) (bool, error)
	Save(ctx context.Context, save record.Save) (record.Saved, error)
	PutAway(ctx context.Context, job string, away bool, stamp record.Stamp) error
	Source(ctx context.Context, job string, number int) ([]byte, error)
	History(ctx context.Context, job string) ([]record.Revision, error)
	AsOn(ctx context.Context, job string, at time.Time) (record.Revision, error)
	Restore(ctx context.Context, job string, number int, stamp record.Stamp) (record.Saved, error)
	Undo(ctx context.Context, job string, number int, stamp record.Stamp) (record.Saved, error)
	Find(ctx context.Context, q record.Query) ([]record.Hit, error)

	Shelf(ctx context.Context, job string) ([]record.Entry, error)
	OnShelf(ctx context.Context) ([]record.Hit, error)
	Shelve(ctx context.Context, e record.Entry) (record.Entry, error)

	Photographs(ctx context.Context, job string) ([]record.Photograph, error)
	Photograph(ctx context.Context, job, sha256 string) (record.Photograph, error)
	AddPhotograph(ctx context.Context, p record.Photograph) (record.Photograph, error)
	Caption(ctx context.Context, job, sha256, text string) error
	PutPin(ctx context.Context, job, sha256 string, p record.Pin, stamp record.Stamp) (record.Pin, error)
	DropPin(ctx context.Context, job, sha256, pin string) error

	Kit(ctx context.Context) ([]record.Tool, error)
	PutTool(ctx context.Context, t record.Tool) error
	DropTool(ctx context.Context, id string) error
	Machines(ctx context.Context) ([]trade.Machine, error)

	Invite(ctx context.Context, i record.Invitation) error
	Join(ctx context.Context, invitation string, d record.Device, key string, now time.Time) (record.Device, error)
	DeviceByKey(ctx context.Context, key string, now time.Time) (record.Device, error)
	Devices(ctx context.Context) ([]record.Device, error)
	Revoke(ctx context.Context, id string, now time.Time) error

	Pack(ctx context.Context, job string, w io.Writer) error
	TakeParcel(ctx context.Context, r io.ReaderAt, size int64, stamp record.Stamp) (record.Saved, error)
	BackUp(ctx context.Context, w io.Writer) error
}

// Text reads and changes a job's text. What a user typed is written as it was
// typed, and nothing else is touched. An error is trade.Faults, and says what
// is wrong with the text or with what was to be written.
type Text interface {
	Read(source []byte) (*trade.Job, error) // a job under way: readings may be missing, or only planned
	Put(source []byte, i record.Item) ([]byte, error)
	Drop(source []byte, section, id string) ([]byte, error)
	SetHead(source []byte, fields ...record.Field) ([]byte, error)
	AddSaw(source []byte, reading string, saw ...string) ([]byte, error)
	SetAside(source []byte, reading string, index int, why string, aside bool) ([]byte, error)
	Section(source []byte, name string) (string, error)
	SetSection(source []byte, name, text string) ([]byte, error)
	NextID(source []byte, section, stem string) string
	Blank(name, units string, machine trade.Machine) ([]byte, error)
	WithoutReadings(source []byte, name string) ([]byte, error)
	Merge(base, mine, theirs []byte) ([]byte, []record.Clash, error)
}

// Paper writes sheets and solids.
type Paper interface {
	Inline(w io.Writer, s *ink.Sheet) error // an element of a page
	Sheet(w io.Writer, ending string, sheets []*ink.Sheet, title string, day time.Time) error
	Solid(w io.Writer, ending string, m *part.Model) error
	Mesh(m *part.Model) (points [][3]float32, triangles [][3]int, err error)
	Code(text string) (*ink.Sheet, error) // as a QR code
	Label(job record.Job) (*ink.Sheet, error)
}

// Words says what the stages found of a job piece by piece, as everywhere else.
type Words interface {
	SetUp(r *trade.Reading) string
	Saw(r *trade.Reading) []string                       // each value; what goes and stops as one
	Suspects() []adjust.Source                           // what the readings contradict
	Suspect(source adjust.Source) []string               // what is wrong with it, then what may have happened
	Either() []string                                    // what cannot be told apart
	Source(s adjust.Source) string                       // names it
	Advice(a *advise.Advice) (why string, what []string) // of each candidate
	Working(size string) []booklet.Chapter               // of every reading that holds it
	Meaning(s *meant.Size, c meant.Candidate) string     // how worn it is then
	Telling(s *meant.Size) string                        // how the leaders can be told apart
	Drawing(m *meant.Result) []string                    // what the sizes together tell of it
	Chance(p float64) string
}

// Answers says in words what is asked beside the stages.
type Answers interface {
	Simulation(r *adjust.Result, s *simulate.Simulation) []booklet.Chapter
	ChangeGears(lathe *trade.Machinery, found *lathe.ChangeGears, length float64) []booklet.Chapter // length: of the thread, in mm; 0: not known
	Dividing(d *lathe.Dividing) []booklet.Chapter
	Step(c *inspect.Result, s *inspect.Step) (how, shows string, before []string)
	Verdict(c *inspect.Result, v *inspect.Verdict) (says, found string, besides []string)
}

// server answers requests.
type server struct {
	Bench
	guard    Guard
	kept     *kept
	tasks    *tasks
	drawn    pictures
	begun    func() []pattern // the parts to begin with
	pages    *http.ServeMux
	patterns []string // of all that is answered
}

// New returns what answers requests, with every guard round it.
func New(b Bench, g Guard) http.Handler { return g.round(newServer(b, g)) }

func newServer(b Bench, g Guard) *server {
	s := &server{Bench: b, guard: g, kept: newKept(), tasks: newTasks(), drawn: newPictures(b.Paper), pages: http.NewServeMux()}
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
