package web

import (
	"context"

	"oddleg/record"
)

// deviceKey marks the device of a request in its context.
type deviceKey struct{}

// deviceOf returns the device that a request came from, false for this computer
// itself.
func deviceOf(ctx context.Context) (record.Device, bool) {
	d, ok := ctx.Value(deviceKey{}).(record.Device)
	return d, ok
}
