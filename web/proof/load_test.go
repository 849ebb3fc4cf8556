package proof

import (
	"fmt"
	"io"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// pause is how long a person looks before the next tap, in the mean.
const pause = time.Second

// TestManyPeople has fifty people save and read at once, each on a job of their
// own, as people do: a tap, a look, a tap. No save is lost and nobody is told of
// an error. How long they wait is told and not judged: a busy machine is slower.
func TestManyPeople(t *testing.T) {
	last, people := 5*time.Second, 50
	if long {
		last = time.Minute
	} else if testing.Short() {
		last, people = 2*time.Second, 10
	}
	shop := filepath.Join(t.TempDir(), "shop.db")
	all := clients(t, shop, people)
	s := serve(t, shop)
	waits := make([][]wait, len(all))
	until := time.Now().Add(last)
	var working sync.WaitGroup
	for i, c := range all {
		working.Go(func() {
			if err := c.work(s, until, &waits[i]); err != nil {
				t.Error(err)
			}
		})
	}
	working.Wait()
	s.stop()
	whole(t, shop, all)
	for _, done := range []string{"save", "read"} {
		t.Logf("%d people, %v: %s", people, last, spread(done, slices.Concat(waits...)))
	}
}

// wait is how long somebody waited for what.
type wait struct {
	what string
	long time.Duration
}

// work reads and saves in turn until the time is over.
func (c *client) work(s *server, until time.Time, waits *[]wait) error {
	random := rand.New(rand.NewPCG(5, uint64(len(c.job))+uint64(c.job[0])))
	for time.Now().Before(until) {
		time.Sleep(time.Duration(random.ExpFloat64() * float64(pause)))
		begun := time.Now()
		if err := c.save(s); err != nil {
			return err
		}
		*waits = append(*waits, wait{"save", time.Since(begun)})
		time.Sleep(time.Duration(random.ExpFloat64() * float64(pause)))
		begun = time.Now()
		if err := c.read(s); err != nil {
			return err
		}
		*waits = append(*waits, wait{"read", time.Since(begun)})
	}
	return nil
}

// read reads the job's page, which must be that of its last save.
func (c *client) read(s *server) error {
	answer, err := asking.Get(s.address + "/job/" + c.job + "/text")
	if err != nil {
		return err
	}
	defer answer.Body.Close()
	var page strings.Builder
	if _, err := io.Copy(&page, answer.Body); err != nil {
		return err
	}
	if want := fmt.Sprintf("# save %d", c.saves); answer.StatusCode != 200 || !strings.Contains(page.String(), want) {
		return fmt.Errorf("%s: %s, without %q", c.who, answer.Status, want)
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
		return "nobody could " + what
	}
	slices.Sort(list)
	at := func(part float64) time.Duration {
		return list[int(part*float64(len(list)-1))].Round(100 * time.Microsecond)
	}
	return fmt.Sprintf("%d times %s, p50 %v, p99 %v, longest %v", len(list), what, at(.5), at(.99), at(1))
}
