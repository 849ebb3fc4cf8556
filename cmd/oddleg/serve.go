package main

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"codeberg.org/oddleg/oddleg/face/web"
	"codeberg.org/oddleg/oddleg/file/store"
)

// serveCommand shows the shop's record on a page.
type serveCommand struct {
	Listen string      `default:"127.0.0.1:7465" placeholder:"HOST:PORT" help:"Where to listen; port 0 takes any that is free."`
	Share  bool        `help:"Let other devices on the shop's network in, each by an invitation."`
	Name   []string    `placeholder:"NAME" help:"A name by which this computer is known on the network, as shop.local; may be given several times."`
	Cert   string      `placeholder:"FILE" help:"Certificate (PEM), so that nobody on the network can read along; with --key."`
	Key    string      `placeholder:"FILE" help:"Its private key (PEM)."`
	Open   bool        `help:"Open the page in this computer's browser."`
	Record recordFlags `embed:""`
}

// How long clients may take. A request with a photograph comes in within the
// minute even where the network is slow, and who does not come to the point is
// not waited for.
const (
	headTime  = 5 * time.Second
	readTime  = time.Minute
	writeTime = time.Minute
	idleTime  = 2 * time.Minute
	mostHead  = 32 << 10
	leave     = 20 * time.Second // for those who are being answered when the program is to end
)

// Run serves until it is told to stop.
func (c *serveCommand) Run(s streams) error {
	seal, err := c.seal()
	if err != nil {
		return refuse(s, false, err)
	}
	if err := c.check(); err != nil {
		return refuse(s, false, err)
	}
	shop, err := c.Record.make()
	if err != nil {
		return refuse(s, false, err)
	}
	return errors.Join(c.serve(s, shop, seal), shop.Close())
}

// check refuses to be open to the network unasked.
func (c *serveCommand) check() error {
	host, _, err := net.SplitHostPort(c.Listen)
	if err != nil {
		return wrong("--listen: %q: an address and a port are wanted, as 127.0.0.1:7465", c.Listen)
	}
	if !c.Share && !isLoopback(host) {
		return wrong("--listen: %q is open to the network: that needs --share", c.Listen)
	}
	return nil
}

// seal reads the certificate, nil for none.
func (c *serveCommand) seal() (*tls.Config, error) {
	if c.Cert == "" && c.Key == "" {
		return nil, nil
	}
	if c.Cert == "" || c.Key == "" {
		return nil, wrong("--cert and --key go together: the certificate and its private key")
	}
	pair, err := tls.LoadX509KeyPair(c.Cert, c.Key)
	if err != nil {
		return nil, wrong("the certificate %s with the key %s cannot be used: %v", c.Cert, c.Key, err)
	}
	return &tls.Config{Certificates: []tls.Certificate{pair}, NextProtos: []string{"h2", "http/1.1"}}, nil
}

func (c *serveCommand) serve(s streams, shop *store.Store, seal *tls.Config) error {
	ctx, stop := signal.NotifyContext(s.context(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	log := slog.NewTextHandler(s.complain, nil)
	config := web.Config{Record: shop, Now: time.Now, Log: slog.New(log)}
	if err := web.Begin(ctx, config); err != nil {
		return err
	}
	listeners, err := listen(c.Listen, c.Share)
	if err != nil {
		return err
	}
	at := places(listeners, c.Name, seal != nil)
	guard := web.Guard{Shared: c.Share, Sealed: seal != nil, Address: at.network}
	for _, name := range c.Name {
		guard.Hosts = append(guard.Hosts, strings.ToLower(name))
	}
	if err := c.tell(ctx, s, config, at); err != nil {
		return errors.Join(err, closed(listeners))
	}
	server := &http.Server{
		Handler: web.New(config, guard), TLSConfig: seal, ErrorLog: slog.NewLogLogger(log, slog.LevelDebug),
		ReadHeaderTimeout: headTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime, MaxHeaderBytes: mostHead,
	}
	return untilStopped(ctx, stop, server, listeners)
}

// tell says where the page is, and opens it if that is wanted.
func (c *serveCommand) tell(ctx context.Context, s streams, config web.Config, at place) error {
	fmt.Fprintln(s.out, at.here)
	if c.Share {
		if err := tellOthers(ctx, s, config, at.network); err != nil {
			return err
		}
	}
	if c.Open {
		return openPage(at.here)
	}
	return nil
}

// untilStopped answers requests until the program is told to stop; then those
// that are being answered come to their end. Told again, it stops at once.
func untilStopped(ctx context.Context, stop func(), server *http.Server, listeners []net.Listener) error {
	ended := make(chan error, len(listeners))
	for _, l := range listeners {
		go func() {
			if server.TLSConfig != nil {
				ended <- server.ServeTLS(l, "", "")
			} else {
				ended <- server.Serve(l)
			}
		}()
	}
	select {
	case err := <-ended:
		return errors.Join(err, server.Close())
	case <-ctx.Done():
	}
	stop()
	last, cancel := context.WithTimeout(context.Background(), leave)
	defer cancel()
	return server.Shutdown(last)
}
