package proof

import (
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/examples"
)

// pause is how long a person looks before the next tap, in the mean.
const pause = time.Second

// TestManyPeople has fifty people save and read at once, each on a job of their
// own with all that an example has in it, as people do: a tap, a look, a tap. No
// save is lost and nobody is told of an error. How long they wait is told and not
// judged: a busy machine is slower.
func TestManyPeople(t *testing.T) {
	last, people := 5*time.Second, 50
	if long {
		last = time.Minute
	} else if testing.Short() {
		last, people = 2*time.Second, 10
	}
	shop := filepath.Join(t.TempDir(), "shop.db")
	all := clients(t, shop, people, string(examples.Jobs()[0].Source))
	s := serve(t, shop)
	waits := make([][]wait, len(all))
	until := time.Now().Add(last)
	var working sync.WaitGroup
	for i, c := range all {
		working.Go(func() {
			if err := c.work(s, rand.New(rand.NewPCG(5, uint64(i))), until, &waits[i]); err != nil {
				t.Error(err)
			}
		})
	}
	working.Wait()
	s.stop()
	whole(t, shop, all)
	took := s.command.ProcessState
	t.Logf("the program took %v of a processor's time", (took.UserTime() + took.SystemTime()).Round(time.Millisecond))
	for _, done := range []string{"save", "sizes", "text"} {
		t.Logf("%d people, %v: %s", people, last, spread(done, slices.Concat(waits...)))
	}
}

// wait is how long somebody waited for what.
type wait struct {
	what string
	long time.Duration
}

// work saves, looks at the sizes that come of it, and at the text, in turn until
// the time is over.
func (c *client) work(s *server, random *rand.Rand, until time.Time, waits *[]wait) error {
	for time.Now().Before(until) {
		for _, next := range []struct {
			what string
			do   func(*server) error
		}{{"save", c.save}, {"sizes", c.seeSizes}, {"text", c.seeText}} {
			if next.what != "sizes" { // these are where a save leads to, at once
				time.Sleep(time.Duration(random.ExpFloat64() * float64(pause)))
			}
			from := time.Now()
			if err := next.do(s); err != nil {
				return err
			}
			*waits = append(*waits, wait{next.what, time.Since(from)})
		}
	}
	return nil
}

// seeSizes looks at what was found of the job as it was just saved.
func (c *client) seeSizes(s *server) error { return c.see(s, "sizes", "shank") }

// seeText looks at the text, which must be that of the last save.
func (c *client) seeText(s *server) error {
	return c.see(s, "text", fmt.Sprintf("# save %d of %s", c.saves, c.who))
}

// see looks at a page of the job, which must have these words.
func (c *client) see(s *server, page, words string) error {
	answer, err := asking.Get(s.address + "/job/" + c.job + "/" + page)
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	said, err := io.ReadAll(answer.Body)
	if err != nil {
		return err
	}
	if answer.StatusCode != http.StatusOK || !strings.Contains(string(said), words) {
		return fmt.Errorf("%s, %s: %s, without %q", c.who, page, answer.Status, words)
	}
	return nil
}

// spread says how long the waits for something were.
func spread(what string, waits []wait) string {
	var list []time.Duration
	for _, w := range waits {
		if w.what == what {
			list = append(list, w.long)
		}
	}
	if len(list) == 0 {
		return "no " + what
	}
	slices.Sort(list)
	at := func(part float64) time.Duration {
		return list[int(part*float64(len(list)-1))].Round(100 * time.Microsecond)
	}
	return fmt.Sprintf("%d times %s: p50 %v, p99 %v, longest %v", len(list), what, at(.5), at(.99), at(1))
}
