package store

import (
	"bufio"
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"codeberg.org/oddleg/oddleg/job/record"
)

// saverFile and saverBegin tell a copy of the test program to save until it is
// killed.
const (
	saverFile  = "ODDLEG_SAVER_FILE"
	saverBegin = "ODDLEG_SAVER_BEGIN"
)

func TestMain(m *testing.M) {
	if path := os.Getenv(saverFile); path != "" {
		saveForEver(path, os.Getenv(saverBegin))
	}
	os.Exit(m.Run())
}

// saveForEver saves one revision after the other, prints each once the store has
// answered, and ends when something goes wrong or it is killed.
func saveForEver(path, begin string) {
	fail := func(err error) {
		if err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
	}
	s, err := Make(path)
	fail(err)
	saved := record.Saved{}
	for i := 0; ; i++ {
		text := fmt.Sprintf("%s save %d", begin, i)
		saved, err = s.Save(ctx, record.Save{Stamp: at(i), Job: saved.Job, From: saved.Number, Source: []byte(text), Index: clamp})
		fail(err)
		fmt.Printf("%s/%d/%s\n", saved.Job, saved.Number, text)
	}
}

// TestKilledInTheMiddle kills a program that saves, at any moment: what was
// answered is there, and the store is whole.
func TestKilledInTheMiddle(t *testing.T) {
	times := 20
	if os.Getenv("ODDLEG_LONG") != "" {
		times = 200
	}
	path := filepath.Join(t.TempDir(), "shop.db")
	random := rand.New(rand.NewPCG(1, 2))
	answered := map[string]bool{}
	for round := range times {
		killed := saver(t, path, fmt.Sprintf("round %d", round), time.Duration(random.IntN(40))*time.Millisecond)
		for _, line := range killed {
			answered[line] = true
		}
		s := must[*Store](t)(Open(path))
		if err := errors.Join(s.Check(ctx), s.Close()); err != nil {
			t.Fatalf("round %d: %v", round, err)
		}
	}
	t.Logf("%d saves were answered in %d rounds", len(answered), times)
	if len(answered) < times {
		t.Error("too few saves to say anything")
	}
	allThere(t, path, answered)
}

// saver runs a program that saves, kills it a while after its first answer, and
// returns all its answers.
func saver(t *testing.T, path, begin string, after time.Duration) []string {
	t.Helper()
	program := exec.Command(os.Args[0])
	program.Env = append(os.Environ(), saverFile+"="+path, saverBegin+"="+begin)
	var complaint bytes.Buffer
	program.Stderr = &complaint
	out := must[io.ReadCloser](t)(program.StdoutPipe())
	if err := program.Start(); err != nil {
		t.Fatal(err)
	}
	var answers []string
	lines := bufio.NewReader(out)
	for {
		line, err := lines.ReadString('\n')
		if err != nil {
			break // half a line is no answer
		}
		if len(answers) == 0 {
			time.AfterFunc(after, func() { program.Process.Kill() })
		}
		answers = append(answers, strings.TrimSuffix(line, "\n"))
	}
	var ended *exec.ExitError
	if err := program.Wait(); !errors.As(err, &ended) || ended.Exited() {
		t.Fatalf("the saver was not killed but ended: %v, %s", err, &complaint)
	}
	return answers
}

// allThere looks for every answered save.
func allThere(t *testing.T, path string, answered map[string]bool) {
	t.Helper()
	s := must[*Store](t)(Open(path))
	defer s.Close()
	for line := range answered {
		parts := strings.SplitN(line, "/", 3)
		var number int
		fmt.Sscan(parts[1], &number)
		if source, err := s.Source(ctx, parts[0], number); err != nil || string(source) != parts[2] {
			t.Errorf("%s was answered, and the store has %q (%v)", line, source, err)
		}
	}
}

// TestFullDisk fills a small disk: the save that does not fit says so, all
// before it are there, and once there is room it goes on.
func TestFullDisk(t *testing.T) {
	folder := smallDisk(t, "2m")
	s := must[*Store](t)(Make(filepath.Join(folder, "shop.db")))
	defer s.Close()
	ballast := filepath.Join(folder, "ballast")
	if err := os.WriteFile(ballast, make([]byte, 400<<10), 0o666); err != nil {
		t.Fatal(err)
	}
	saved := untilFull(t, s)
	if err := s.Backup(ctx, filepath.Join(folder, "copy.db")); !errors.Is(err, record.ErrFull) {
		t.Errorf("a backup to a full disk: %v", err)
	}
	if left := must[[]string](t)(filepath.Glob(filepath.Join(folder, "*oddleg*"))); len(left) != 0 {
		t.Errorf("the backup left %v behind", left)
	}
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	save(t, s, saved.Job, saved.Number, "there is room again", 2)
	if err := s.Check(ctx); err != nil {
		t.Error(err)
	}
}

// TestFullStore is the same where no small disk can be made: the data base may
// have no more pages.
func TestFullStore(t *testing.T) {
	path := fresh(t).path
	db := must[*sql.DB](t)(connect(path, "max_page_count(80)"))
	s := &Store{db: db, path: path}
	saved := untilFull(t, s)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	roomy := must[*Store](t)(Open(path))
	defer roomy.Close()
	save(t, roomy, saved.Job, saved.Number, "there is room again", 2)
}

// untilFull saves until there is no more room, and proves that the store still
// answers then. It returns the last save that was answered.
func untilFull(t *testing.T, s *Store) record.Saved {
	t.Helper()
	saved := save(t, s, "", 0, "one", 0)
	var err error
	for err == nil {
		var next record.Saved
		next, err = s.Save(ctx, record.Save{Stamp: at(1), Job: saved.Job, From: saved.Number, Source: bigText(saved.Number), Index: clamp})
		if err == nil {
			saved = next
		}
	}
	if !errors.Is(err, record.ErrFull) || !strings.Contains(err.Error(), "the disk is full") {
		t.Errorf("a full disk: %v", err)
	}
	if got := text(t, s, saved.Job); saved.Number > 1 && got != string(bigText(saved.Number-1)) {
		t.Error("the last save that was answered is not current")
	}
	if !found(t, s, "clapper") || len(must[[]record.Revision](t)(s.History(ctx, saved.Job))) != saved.Number {
		t.Error("the full store does not answer")
	}
	return saved
}

// bigText is a text of 100 KB that does not repeat others.
func bigText(n int) []byte { return bytes.Repeat(fmt.Appendf(nil, "%9d\n", n), 10<<10) }

// smallDisk returns a folder on a disk of this size.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	folder := t.TempDir()
	if runtime.GOOS != "linux" || os.Geteuid() != 0 {
		t.Skip("a small disk is made on Linux, by root")
	}
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("no small disk can be made: %v", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(folder, 0); err != nil {
			t.Error(err)
		}
	})
	return folder
}

// TestReadOnly opens a store on a disk that cannot be written to.
func TestReadOnly(t *testing.T) {
	folder := smallDisk(t, "2m")
	path := filepath.Join(folder, "shop.db")
	s := must[*Store](t)(Make(path))
	save(t, s, "", 0, "one", 0)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("", folder, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("the disk cannot be made read-only: %v", err)
	}
	s, err := Open(path)
	if err == nil {
		_, err = s.Save(ctx, record.Save{Stamp: at(1), Source: []byte("two")})
		defer s.Close()
	}
	if !errors.Is(err, record.ErrReadOnly) {
		t.Errorf("a disk that is read-only: %v", err)
	}
	_, err = Make(filepath.Join(folder, "new.db"))
	if !errors.Is(err, record.ErrReadOnly) {
		t.Errorf("a new store on it: %v", err)
	}
}

// TestMayOnlyRead has a data base that refuses to be written to, as one does
// whose file belongs to somebody else: root may write to that all the same.
func TestMayOnlyRead(t *testing.T) {
	whole := fresh(t)
	saved := save(t, whole, "", 0, "one", 0)
	_, key := join(t, whole, "telephone", false)
	s := &Store{db: must[*sql.DB](t)(connect(whole.path, "query_only(1)")), path: whole.path}
	defer s.Close()
	if _, err := s.Save(ctx, record.Save{Stamp: at(1), Job: saved.Job, From: 1, Source: []byte("two")}); !errors.Is(err, record.ErrReadOnly) {
		t.Errorf("a save: %v", err)
	}
	if got := text(t, s, saved.Job); got != "one" {
		t.Errorf("the text is %q", got)
	}
	must[record.Device](t)(s.DeviceByKey(ctx, key, begun.Add(time.Hour)))
	save(t, whole, saved.Job, 1, "two", 1)
}

// TestBusy has another program write without end.
func TestBusy(t *testing.T) {
	whole := fresh(t)
	saved := save(t, whole, "", 0, "one", 0)
	other := must[*sql.Tx](t)(raw(t, whole.path).Begin()) // it takes the lock at once
	s := &Store{db: raw(t, whole.path), path: whole.path}
	s.db.SetMaxOpenConns(1)
	must[sql.Result](t)(s.db.Exec("PRAGMA busy_timeout = 20")) // ms, of that one connection
	if _, err := s.Save(ctx, record.Save{Stamp: at(1), Job: saved.Job, From: 1, Source: []byte("two")}); !errors.Is(err, record.ErrBusy) {
		t.Errorf("a save: %v", err)
	}
	if got := text(t, s, saved.Job); got != "one" {
		t.Errorf("the text is %q", got)
	}
	if err := other.Rollback(); err != nil {
		t.Fatal(err)
	}
	save(t, s, saved.Job, 1, "two", 1)
}

// TestMadeAtOnce has several programs make one store.
func TestMadeAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a b?c%41#d.db") // every sign that means something in a URL
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			s, err := Make(path)
			if err != nil {
				t.Error(err)
				return
			}
			if err := errors.Join(s.Check(ctx), s.Close()); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if _, err := os.Stat(path); err != nil {
		t.Error(err)
	}
}
