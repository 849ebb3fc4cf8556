package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os/signal"
	"syscall"
	"time"

	"oddleg/cmd/wired"
	"oddleg/store"
	"oddleg/web"
)

// serveCommand shows the shop's record on a page.
type serveCommand struct {
	Listen string      `default:"127.0.0.1:7465" placeholder:"HOST:PORT" help:"Where to listen; port 0 takes any that is free."`
	Record recordFlags `embed:""`
}

// leave is how long those who are being answered may take when the program is
// to end.
const leave = 20 * time.Second

// Run serves until it is told to stop.
func (c *serveCommand) Run(s streams) error {
	shop, err := c.Record.make()
	if err != nil {
		return refuse(s, false, err)
	}
	return errors.Join(c.serve(s, shop), shop.Close())
}

func (c *serveCommand) serve(s streams, shop *store.Store) error {
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	bench := wired.Bench(shop, slog.New(slog.NewTextHandler(s.complain, nil)))
	if err := web.Begin(ctx, bench); err != nil {
		return err
	}
	listener, err := net.Listen("tcp", c.Listen)
	if err != nil {
		return err
	}
	fmt.Fprintf(s.out, "http://%s\n", listener.Addr())
	server := &http.Server{
		Handler: web.New(bench, web.Guard{}), ReadHeaderTimeout: 10 * time.Second, ReadTimeout: time.Minute, WriteTimeout: time.Minute, IdleTimeout: 2 * time.Minute,
	}
	ended := make(chan error, 1)
	go func() { ended <- server.Serve(listener) }()
	select {
	case err := <-ended:
		return err
	case <-ctx.Done():
	}
	stop() // a second signal ends the program at once
	last, cancel := context.WithTimeout(context.Background(), leave)
	defer cancel()
	return server.Shutdown(last)
}
