package wired

import (
	"context"
	"errors"
	"time"

	"oddleg"
	"oddleg/record"
)

var errYet = errors.New("not yet")

func (s shop) PutAwayJobs(context.Context) ([]record.Job, error) { return nil, nil }
func (s shop) Fresh(ctx context.Context) (bool, error) {
	j, err := s.Jobs(ctx)
	return len(j) == 0, err
}
func (s shop) PutAway(context.Context, string, bool, record.Stamp) error { return errYet }
func (s shop) Caption(context.Context, string, string, string) error     { return errYet }
func (s shop) PutPin(context.Context, string, string, record.Pin, record.Stamp) (record.Pin, error) {
	return record.Pin{}, errYet
}
func (s shop) DropPin(context.Context, string, string, string) error { return errYet }
func (s shop) Invite(context.Context, record.Invitation) error       { return errYet }
func (s shop) Join(context.Context, string, record.Device, string, time.Time) (record.Device, error) {
	return record.Device{}, errYet
}

func (s shop) DeviceByKey(context.Context, string, time.Time) (record.Device, error) {
	return record.Device{}, errYet
}
func (s shop) Devices(context.Context) ([]record.Device, error)         { return nil, nil }
func (s shop) Revoke(context.Context, string, time.Time) error          { return errYet }
func (text) Put([]byte, record.Item) ([]byte, error)                    { return nil, errYet }
func (text) Drop([]byte, string, string) ([]byte, error)                { return nil, errYet }
func (text) SetHead([]byte, ...record.Field) ([]byte, error)            { return nil, errYet }
func (text) AddSaw([]byte, string, ...string) ([]byte, error)           { return nil, errYet }
func (text) SetAside([]byte, string, int, string, bool) ([]byte, error) { return nil, errYet }
func (text) Section([]byte, string) (string, error)                     { return "", errYet }
func (text) SetSection([]byte, string, string) ([]byte, error)          { return nil, errYet }
func (text) NextID([]byte, string, string) string                       { return "r1" }
func (text) Blank(name, units string, _ oddleg.Machine) []byte {
	return []byte("oddleg: 1\njob: " + name + "\nunits: " + units + "\n")
}
func (text) WithoutReadings([]byte, string) ([]byte, error)               { return nil, errYet }
func (text) Merge([]byte, []byte, []byte) ([]byte, []record.Clash, error) { return nil, nil, errYet }
