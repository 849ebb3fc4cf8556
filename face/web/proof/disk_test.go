package proof

import (
	"fmt"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
)

// TestFullDisk fills the disk under the program: the save says so and gives back
// what was typed; reading goes on, and once there is room so does saving.
func TestFullDisk(t *testing.T) {
	folder := smallDisk(t, "3m")
	shop := filepath.Join(folder, "shop.db")
	c := clients(t, shop, 1, begun)[0]
	s := serve(t, shop)
	ballast := filepath.Join(folder, "ballast")
	fill(t, ballast)
	const typed = "# typed at the bench"
	var status int
	var page string
	for n := 0; n < 200; n++ {
		var err error
		next := c.text(n) + typed + strings.Repeat(fmt.Sprintf("\n# %d", n), 5000)
		status, page, err = post(s.address+"/job/"+c.job+"/text", url.Values{"from": {fmt.Sprint(c.from)}, "text": {next}})
		if err != nil {
			t.Fatal(err)
		}
		if status != http.StatusSeeOther {
			break
		}
		c.from++
		c.answered = append(c.answered, next)
	}
	if status != http.StatusInsufficientStorage || !strings.Contains(page, "the disk is full") || !strings.Contains(page, typed) {
		t.Errorf("a full disk: %d, %.2000s", status, page)
	}
	s.get("/job/" + c.job + "/readings")
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	if err := c.save(s); err != nil {
		t.Errorf("there is room again: %v", err)
	}
	s.stop()
	whole(t, shop, []*client{c})
}

// fill writes to a file until the disk is full but for a little.
func fill(t testing.TB, path string) {
	t.Helper()
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var disk syscall.Statfs_t
	if err := syscall.Statfs(filepath.Dir(path), &disk); err != nil {
		t.Fatal(err)
	}
	const little = 200 << 10
	if _, err := f.Write(make([]byte, max(0, int64(disk.Bavail)*disk.Bsize-little))); err != nil {
		t.Fatal(err)
	}
}

// TestReadOnlyDisk starts the program on a record that cannot be written to: it
// says so, and touches nothing.
func TestReadOnlyDisk(t *testing.T) {
	folder := smallDisk(t, "2m")
	shop := filepath.Join(folder, "shop.db")
	clients(t, shop, 1, begun)
	if err := syscall.Mount("", folder, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("the disk cannot be made read-only: %v", err)
	}
	out, err := exec.Command(program, "serve", "--listen", "127.0.0.1:0", "--shop", shop).CombinedOutput()
	if err == nil || !strings.Contains(string(out), "cannot be written to") {
		t.Errorf("%v: %s", err, out)
	}
}

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
