package host

import (
	"context"
	"errors"
	"io"
	"log"
	"net"
	"net/http"
	"time"
)

// Serve answers on the listener until ctx is done, which is no error, and closes it.
func Serve(ctx context.Context, l net.Listener, h http.Handler) error {
	ctx, cancel := context.WithCancel(ctx) // ends the pages that are being kept told
	defer cancel()
	server := &http.Server{
		Handler:           h,
		BaseContext:       func(net.Listener) context.Context { return ctx },
		ReadHeaderTimeout: 10 * time.Second,
		WriteTimeout:      5 * time.Minute,
		IdleTimeout:       2 * time.Minute,
		MaxHeaderBytes:    64 << 10,
		ErrorLog:          log.New(io.Discard, "", 0), // what a reader's browser breaks off is nobody's concern
	}
	served := make(chan error, 1)
	go func() { served <- server.Serve(l) }()
	select {
	case err := <-served:
		return err
	case <-ctx.Done():
	}
	const grace = 3 * time.Second
	last, done := context.WithTimeout(context.WithoutCancel(ctx), grace)
	defer done()
	err := server.Shutdown(last)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close()
	}
	if end := <-served; !errors.Is(end, http.ErrServerClosed) {
		err = errors.Join(err, end)
	}
	return err
}
