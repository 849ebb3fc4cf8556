package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os/exec"
	"runtime"
	"strconv"

	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/show/report"
)

// listen listens where it is told to. Shared, a loopback address stands for all
// addresses of this computer; where any other is given, this computer itself
// has its loopback way in beside it.
func listen(where string, share bool) ([]net.Listener, error) {
	host, port, err := net.SplitHostPort(where)
	if err != nil {
		return nil, err
	}
	if share && isLoopback(host) {
		host = ""
	}
	first, err := listenAt(host, port)
	if err != nil {
		return nil, err
	}
	if at := first.Addr().(*net.TCPAddr); !at.IP.IsUnspecified() && !at.IP.IsLoopback() {
		second, err := listenAt("127.0.0.1", strconv.Itoa(at.Port))
		if err != nil {
			return nil, errors.Join(err, first.Close())
		}
		return []net.Listener{second, first}, nil
	}
	return []net.Listener{first}, nil
}

func listenAt(host, port string) (net.Listener, error) {
	l, err := net.Listen("tcp", net.JoinHostPort(host, port))
	if err != nil {
		return nil, fmt.Errorf("it cannot listen at %s: %w; look whether oddleg is running already, or give another port with --listen (127.0.0.1:0 takes any that is free)",
			net.JoinHostPort(host, port), err)
	}
	return l, nil
}

func closed(listeners []net.Listener) (err error) {
	for _, l := range listeners {
		err = errors.Join(err, l.Close())
	}
	return err
}

func isLoopback(host string) bool {
	ip := net.ParseIP(host)
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// place is where the page is found: on this computer, and by others. The latter
// is empty where this computer is on no network.
type place struct{ here, network string }

func places(listeners []net.Listener, names []string, sealed bool) place {
	scheme := "http://"
	if sealed {
		scheme = "https://"
	}
	at := listeners[0].Addr().(*net.TCPAddr)
	p := place{here: scheme + at.String()}
	port := strconv.Itoa(at.Port)
	if at.IP.IsUnspecified() {
		p.here = scheme + net.JoinHostPort("127.0.0.1", port)
	}
	switch other := listeners[len(listeners)-1].Addr().(*net.TCPAddr); {
	case len(names) > 0:
		p.network = scheme + net.JoinHostPort(names[0], port)
	case len(listeners) > 1:
		p.network = scheme + other.String()
	default:
		if ip := ownAddress(); ip != "" {
			p.network = scheme + net.JoinHostPort(ip, port)
		}
	}
	return p
}

// ownAddress is this computer's address on the network: the one it would send
// from. Nothing is sent to find that out.
func ownAddress() string {
	const elsewhere = "192.0.2.1:9" // for documentation (RFC 5737): nobody has it
	if c, err := net.Dial("udp", elsewhere); err == nil {
		defer c.Close()
		if ip := c.LocalAddr().(*net.UDPAddr).IP; !ip.IsLoopback() {
			return ip.String()
		}
	}
	all, err := net.InterfaceAddrs()
	if err != nil {
		return ""
	}
	for _, a := range all {
		if network, ok := a.(*net.IPNet); ok && network.IP.To4() != nil && network.IP.IsPrivate() {
			return network.IP.String()
		}
	}
	return ""
}

// tellOthers shows where a first device joins, as a code for its camera too.
func tellOthers(ctx context.Context, s streams, config web.Config, network string) error {
	if network == "" {
		fmt.Fprintln(s.complain, "This computer is on no network that is known: give the name or address that others find it by with --name.")
		return nil
	}
	path, err := web.Invite(ctx, config)
	if err != nil {
		return err
	}
	fmt.Fprintf(s.out, "One device may join within ten minutes at\n%s\nor by this code. More are let in on the page, under You.\n\n", network+path)
	code, err := report.CodeBlocks(network + path)
	if err != nil {
		return err
	}
	for _, line := range code {
		if s.terminal {
			line = "\x1b[30;107m" + line + "\x1b[0m" // black on white, whatever the terminal's own colours
		}
		fmt.Fprintln(s.out, line)
	}
	return nil
}

// openers are the programs that open a page, by operating system.
var openers = map[string][]string{"linux": {"xdg-open"}, "darwin": {"open"}, "windows": {"rundll32", "url.dll,FileProtocolHandler"}}

// openPage opens the page in the browser, and does not wait for it.
func openPage(address string) error {
	with, known := openers[runtime.GOOS]
	if !known {
		with = openers["linux"]
	}
	program := exec.Command(with[0], append(with[1:len(with):len(with)], address)...)
	if err := program.Start(); err != nil {
		return fmt.Errorf("the browser cannot be opened: %w; open %s yourself", err, address)
	}
	go func() { _ = program.Wait() }()
	return nil
}
