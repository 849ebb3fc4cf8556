package proof

import (
	"bufio"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// program is the built program, by its path.
var program string

func TestMain(m *testing.M) { os.Exit(proved(m)) }

func proved(m *testing.M) int {
	folder, err := os.MkdirTemp("", "oddleg-proof")
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	defer os.RemoveAll(folder)
	program = filepath.Join(folder, "oddleg")
	args := []string{"build", "-o", program}
	if raced {
		args = append(args, "-race")
	}
	if out, err := exec.Command("go", append(args, "codeberg.org/oddleg/oddleg/cmd/oddleg")...).CombinedOutput(); err != nil {
		fmt.Fprintf(os.Stderr, "the program cannot be built: %v\n%s", err, out)
		return 1
	}
	return m.Run()
}

// server is the program, serving.
type server struct {
	t       testing.TB
	address string // http://host:port
	shop    string // the record's file
	command *exec.Cmd
}

// serve starts the program on a record, a new one where the file is not there.
func serve(t testing.TB, shop string, args ...string) *server {
	t.Helper()
	s := &server{t: t, shop: shop}
	s.command = exec.Command(program, append([]string{"serve", "--listen", "127.0.0.1:0", "--shop", shop}, args...)...)
	s.command.Stderr = os.Stderr
	out, err := s.command.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := s.command.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(s.kill)
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal("the program says no address:", err)
	}
	at := strings.Index(line, "http://")
	if at < 0 {
		t.Fatalf("%q has no address", line)
	}
	s.address = strings.Fields(line[at:])[0]
	return s
}

// fresh serves a new record.
func fresh(t testing.TB, args ...string) *server {
	t.Helper()
	return serve(t, filepath.Join(t.TempDir(), "shop.db"), args...)
}

// kill ends the program as a power cut does.
func (s *server) kill() {
	if s.command.ProcessState == nil {
		_ = s.command.Process.Kill()
		_ = s.command.Wait() // it says that it was killed
	}
}

// stop asks the program to end, and waits until it has.
func (s *server) stop() {
	s.t.Helper()
	if err := s.command.Process.Signal(syscall.SIGTERM); err != nil {
		s.t.Fatal(err)
	}
	ended := make(chan error, 1)
	go func() { ended <- s.command.Wait() }()
	select {
	case err := <-ended:
		if err != nil {
			s.t.Error("it ended with", err)
		}
	case <-time.After(time.Minute):
		s.t.Fatal("it does not end")
	}
}

// get returns a page.
func (s *server) get(path string) string {
	s.t.Helper()
	answer, err := http.Get(s.address + path)
	if err != nil {
		s.t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		s.t.Fatalf("%s: %s %v", path, answer.Status, err)
	}
	return string(body)
}

// jobs returns the ids of the jobs on the first page, in its order.
func (s *server) jobs() []string {
	s.t.Helper()
	var ids []string
	for _, piece := range strings.Split(s.get("/"), `href="/job/`)[1:] {
		id, _, _ := strings.Cut(piece, `"`)
		if !strings.Contains(id, "/") {
			ids = append(ids, id)
		}
	}
	return ids
}
