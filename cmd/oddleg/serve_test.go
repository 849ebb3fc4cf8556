package main

import (
	"image"
	"image/color"
	"image/png"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/testdata/oracle"
)

// TestServeRefuses starts the page with flags that do not go together.
func TestServeRefuses(t *testing.T) {
	for _, c := range []struct {
		flags serveCommand
		words string
	}{
		{serveCommand{Listen: "0.0.0.0:0"}, "needs --share"},
		{serveCommand{Listen: ":0"}, "needs --share"},
		{serveCommand{Listen: "[::]:0"}, "needs --share"},
		{serveCommand{Listen: "shop.local:0"}, "needs --share"},
		{serveCommand{Listen: "7465"}, "an address and a port"},
		{serveCommand{Listen: "127.0.0.1:0", Cert: "cert.pem"}, "go together"},
		{serveCommand{Listen: "127.0.0.1:0", Cert: "none.pem", Key: "none.pem"}, "cannot be used"},
	} {
		var said strings.Builder
		c.flags.Record.Shop = t.TempDir() + "/shop.db"
		if code := status(c.flags.Run(streams{out: &said, complain: &said}), &said); code != wrongInput || !strings.Contains(said.String(), c.words) {
			t.Errorf("%+v: status %d, %s", c.flags, code, &said)
		}
	}
}

// TestListen says where the page is found, for what was asked.
func TestListen(t *testing.T) {
	for _, c := range []struct {
		where         string
		share         bool
		names         []string
		sealed        bool
		here, network string // P stands for the port
	}{
		{"127.0.0.1:0", false, nil, false, "http://127.0.0.1:P", "any"},
		{"[::1]:0", false, nil, false, "http://[::1]:P", "any"},
		{"127.0.0.1:0", true, []string{"shop.local"}, false, "http://127.0.0.1:P", "http://shop.local:P"},
		{"127.0.0.1:0", true, []string{"shop.local", "b"}, true, "https://127.0.0.1:P", "https://shop.local:P"},
		{":0", true, nil, false, "http://127.0.0.1:P", "any"},
	} {
		listeners, err := listen(c.where, c.share)
		if err != nil {
			if strings.Contains(c.where, "::") {
				continue // no IPv6 here
			}
			t.Fatal(err)
		}
		_, port, _ := net.SplitHostPort(listeners[0].Addr().String())
		got := places(listeners, c.names, c.sealed)
		if want := strings.Replace(c.here, "P", port, 1); got.here != want {
			t.Errorf("%+v: here %s", c, got.here)
		}
		if want := strings.Replace(c.network, "P", port, 1); c.network != "any" && got.network != want {
			t.Errorf("%+v: on the network %s", c, got.network)
		}
		if err := closed(listeners); err != nil {
			t.Error(err)
		}
	}
}

// TestListenBeside: where the page is to be at an address of the network only,
// this computer has its own way in.
func TestListenBeside(t *testing.T) {
	own := ownAddress()
	if own == "" {
		t.Skip("this computer is on no network")
	}
	listeners, err := listen(net.JoinHostPort(own, "0"), true)
	if err != nil {
		t.Fatal(err)
	}
	defer closed(listeners)
	got := places(listeners, nil, false)
	if len(listeners) != 2 || !strings.HasPrefix(got.here, "http://127.0.0.1:") || got.network != "http://"+listeners[1].Addr().String() {
		t.Errorf("%d listeners, %+v", len(listeners), got)
	}
}

// TestPortTaken says what to do where another program listens already.
func TestPortTaken(t *testing.T) {
	first, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer first.Close()
	if _, err := listen(first.Addr().String(), false); err == nil || !strings.Contains(err.Error(), "running already") {
		t.Errorf("%v", err)
	}
}

// TestCodeInLetters has an independent reader (zbar 0.23) read the code of a
// terminal.
func TestCodeInLetters(t *testing.T) {
	zbar := oracle.Find(t, "zbarimg", "zbar-tools")
	const address = "https://[2001:db8::7]:7465/join?key=ABCDEFGHIJKLMNOPQRSTUVWXYZ"
	lines, err := report.CodeBlocks(address)
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "code.png")
	if err := writePicture(file, painted(lines)); err != nil {
		t.Fatal(err)
	}
	if read := zbar.Output(t, nil, "--quiet", "--raw", file); strings.TrimSpace(string(read)) != address {
		t.Errorf("zbar reads %q", read)
	}
}

// painted is what a terminal with letters twice as high as wide shows, black on
// white.
func painted(lines []string) image.Image {
	const side = 4
	m := image.NewGray(image.Rect(0, 0, side*len([]rune(lines[0])), 2*side*len(lines)))
	for y := range m.Rect.Dy() {
		for x := range m.Rect.Dx() {
			letter := []rune(lines[y/(2*side)])[x/side]
			upper := y%(2*side) < side
			if letter == ' ' || letter == '▄' && upper || letter == '▀' && !upper {
				m.Set(x, y, color.White)
			}
		}
	}
	return m
}

func writePicture(file string, m image.Image) error {
	f, err := os.Create(file)
	if err != nil {
		return err
	}
	defer f.Close()
	return png.Encode(f, m)
}
