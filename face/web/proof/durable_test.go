package proof

import (
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
)

// long asks for the long runs.
var long = os.Getenv("ODDLEG_LONG") != ""

// begun is the text of a job in which nothing is read yet.
const begun = "oddleg: 1\njob: Index pin\nunits: mm\nmachine: {what: press, built: 1931}\n"

// client saves one job over the wire, again and again, and remembers what was
// answered.
type client struct {
	who, job string
	base     string // the job's text, but for its last line
	from     int    // the revision that it saved last
	saves    int
	answered []string
}

// text is the job's text at a save, which is like no other.
func (c *client) text(save int) string {
	return fmt.Sprintf("%s# save %d of %s\n", c.base, save, c.who)
}

// asking is as a browser asks, but stays where it is sent.
var asking = &http.Client{
	Timeout:       patience,
	CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	Transport:     &http.Transport{MaxIdleConnsPerHost: 100},
}

// post sends a form and returns the status and the page.
func post(address string, fields url.Values) (int, string, error) {
	answer, err := asking.PostForm(address, fields)
	if err != nil {
		return 0, "", err
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	return answer.StatusCode, string(body), err
}

// save saves once more. Whether it was kept is not known where there was no
// answer.
func (c *client) save(s *server) error {
	c.saves++
	next := c.text(c.saves)
	status, page, err := post(s.address+"/job/"+c.job+"/text", url.Values{"from": {fmt.Sprint(c.from)}, "text": {next}})
	if err != nil {
		return err
	}
	if status != http.StatusSeeOther {
		return fmt.Errorf("save %d of %s: %d, %.500s", c.saves, c.who, status, page)
	}
	c.from++
	c.answered = append(c.answered, next)
	return nil
}

// clients begin a job each, with this text, in a record that is not served.
func clients(t testing.TB, shop string, n int, base string) []*client {
	t.Helper()
	s := opened(t, shop)
	defer closed(t, s)
	var all []*client
	for i := range n {
		c := &client{who: fmt.Sprintf("person %d", i), base: base, from: 1}
		saved, err := s.Save(t.Context(), record.Save{Stamp: record.Stamp{When: time.Now()}, Source: []byte(c.text(0)), Index: record.Index{Name: c.who}})
		if err != nil {
			t.Fatal(err)
		}
		c.job = saved.Job
		all = append(all, c)
	}
	return all
}

func opened(t testing.TB, shop string) *store.Store {
	t.Helper()
	s, err := store.Make(shop)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func closed(t testing.TB, s *store.Store) {
	t.Helper()
	if err := s.Close(); err != nil {
		t.Error(err)
	}
}

// whole looks for every answered save of every client, and at the record itself.
func whole(t testing.TB, shop string, all []*client) {
	t.Helper()
	s := opened(t, shop)
	defer closed(t, s)
	ctx := context.Background()
	if err := s.Check(ctx); err != nil {
		t.Fatal(err)
	}
	for _, c := range all {
		history, err := s.History(ctx, c.job)
		if err != nil {
			t.Fatal(err)
		}
		there := map[string]bool{}
		for _, v := range history {
			source, err := s.Source(ctx, c.job, v.Number)
			if err != nil {
				t.Fatal(err)
			}
			there[string(source)] = true
		}
		for _, saved := range c.answered {
			if !there[saved] {
				t.Errorf("%s: an answered save is gone: %q", c.who, saved)
			}
		}
		job, err := s.Job(ctx, c.job)
		if err != nil {
			t.Fatal(err)
		}
		if len(job.Branches) > 0 {
			t.Errorf("%s: branches %v of a job that one person saved", c.who, job.Branches)
		}
		c.from = job.Revision // what was saved without an answer counts too
	}
}

// saving has everybody save until they are not let in any more. The channel tells of
// each answered save; it is closed when all have given up.
func saving(s *server, all []*client, refused func(error)) <-chan *client {
	answered := make(chan *client, 1000)
	var people sync.WaitGroup
	for _, c := range all {
		people.Go(func() {
			for {
				if err := c.save(s); err != nil {
					refused(err)
					return
				}
				answered <- c
			}
		})
	}
	go func() {
		people.Wait()
		close(answered)
	}()
	return answered
}

// next waits for an answered save, and returns whose it is.
func next(t testing.TB, answered <-chan *client) *client {
	t.Helper()
	select {
	case c, more := <-answered:
		if !more {
			t.Fatal("nobody saves any more")
		}
		return c
	case <-time.After(patience):
		t.Fatal("nothing is saved")
	}
	return nil
}

// drain waits until all have given up.
func drain(answered <-chan *client) {
	for range answered { // only the end is waited for
	}
}

// TestKilledInTheMiddle kills the program while four people save, after any number
// of answers, in the middle of what the others save: every save that was answered is
// there, and the record is whole.
func TestKilledInTheMiddle(t *testing.T) {
	times := 20
	if long {
		times = 200
	} else if testing.Short() {
		times = 5
	}
	shop := filepath.Join(t.TempDir(), "shop.db")
	all := clients(t, shop, 4, begun)
	random := rand.New(rand.NewPCG(3, 4))
	for range times {
		s := serve(t, shop)
		answered := saving(s, all, func(error) {})
		for range 1 + random.IntN(40) {
			next(t, answered)
		}
		s.kill()
		drain(answered)
		whole(t, shop, all)
	}
	sum := 0
	for _, c := range all {
		sum += len(c.answered)
	}
	t.Logf("killed %d times, %d saves answered, all there", times, sum)
	if sum < times {
		t.Error("too few saves to say anything")
	}
}

// TestStoppedInTheMiddle asks the program to end while people save: no save is
// left without an answer, other than by not being let in, and none is lost.
func TestStoppedInTheMiddle(t *testing.T) {
	shop := filepath.Join(t.TempDir(), "shop.db")
	all := clients(t, shop, 8, begun)
	s := serve(t, shop)
	answered := saving(s, all, func(err error) {
		if strings.Contains(err.Error(), "save ") { // it was let in, and refused
			t.Error(err)
		}
	})
	for saved := map[*client]bool{}; len(saved) < len(all); {
		saved[next(t, answered)] = true
	}
	s.stop()
	drain(answered)
	whole(t, shop, all)
	for _, c := range all {
		if len(c.answered) == 0 {
			t.Errorf("%s: nothing was saved", c.who)
		}
		// A save that was done was answered, unless the answer was cut off by the
		// end: at most the one that was under way.
		if unanswered := c.from - 1 - len(c.answered); unanswered > 0 {
			t.Errorf("%s: %d saves were kept and not answered", c.who, unanswered)
		}
	}
}

// TestSlowClient begins a request and does not come to the point: it is not
// waited for, and nobody else waits either.
func TestSlowClient(t *testing.T) {
	if testing.Short() {
		t.Skip("it waits")
	}
	t.Parallel()
	s := fresh(t)
	begun := time.Now()
	line, err := net.Dial("tcp", strings.TrimPrefix(s.address, "http://"))
	if err != nil {
		t.Fatal(err)
	}
	defer line.Close()
	if _, err := io.WriteString(line, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Slow: "); err != nil {
		t.Fatal(err)
	}
	s.get("/you")
	_ = line.SetReadDeadline(time.Now().Add(20 * time.Second))
	_, _ = io.ReadAll(line)
	if waited := time.Since(begun); waited < 2*time.Second || waited > 15*time.Second {
		t.Errorf("it was cut off after %v", waited)
	}
}
