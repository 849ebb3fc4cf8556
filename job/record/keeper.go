package record

import (
	"context"
	"io"
	"time"

	"codeberg.org/oddleg/oddleg/job/trade"
)

// Keeper is the shop's record, whatever engine keeps it. What is wrong with what
// is asked of it is trade.Faults; any other error is the engine's. Many may ask
// and save at once. What every engine must do is proven by recordtest.Keeps.
type Keeper interface {
	JobKeeper
	ShelfKeeper
	PhotographKeeper
	KitKeeper
	DeviceKeeper
	ParcelKeeper
}

// JobKeeper keeps the texts of jobs, revision by revision.
type JobKeeper interface {
	Jobs(ctx context.Context) ([]Job, error)
	PutAwayJobs(ctx context.Context) ([]Job, error)
	Job(ctx context.Context, called string) (Job, error)
	Fresh(ctx context.Context) (bool, error)
	Save(ctx context.Context, save Save) (Saved, error)
	PutAway(ctx context.Context, job string, away bool, stamp Stamp) error
	Source(ctx context.Context, job string, number int) ([]byte, error)
	History(ctx context.Context, job string) ([]Revision, error)
	AsOn(ctx context.Context, job string, at time.Time) (Revision, error)
	Restore(ctx context.Context, job string, number int, stamp Stamp) (Saved, error)
	Undo(ctx context.Context, job string, number int, stamp Stamp) (Saved, error)
	Find(ctx context.Context, q Query) ([]Hit, error)
	Machines(ctx context.Context) ([]trade.Machine, error)
}

// ShelfKeeper keeps what lies where.
type ShelfKeeper interface {
	Shelf(ctx context.Context, job string) ([]Entry, error)
	OnShelf(ctx context.Context) ([]Hit, error)
	Shelve(ctx context.Context, e Entry) (Entry, error)
}

// PhotographKeeper keeps the pictures of jobs, with their pins.
type PhotographKeeper interface {
	Photographs(ctx context.Context, job string) ([]Photograph, error)
	Photograph(ctx context.Context, job, sha256 string) (Photograph, error)
	AddPhotograph(ctx context.Context, p Photograph) (Photograph, error)
	Caption(ctx context.Context, job, sha256, text string) error
	PutPin(ctx context.Context, job, sha256 string, p Pin, stamp Stamp) (Pin, error)
	DropPin(ctx context.Context, job, sha256, pin string) error
}

// KitKeeper keeps what the shop measures and works with.
type KitKeeper interface {
	Kit(ctx context.Context) ([]Tool, error)
	PutTool(ctx context.Context, t Tool) error
	DropTool(ctx context.Context, id string) error
}

// DeviceKeeper keeps who may come in from elsewhere, and how they are let in.
type DeviceKeeper interface {
	Invite(ctx context.Context, i Invitation) error
	Join(ctx context.Context, invitation string, d Device, key string, now time.Time) (Device, error)
	DeviceByKey(ctx context.Context, key string, now time.Time) (Device, error)
	Devices(ctx context.Context) ([]Device, error)
	Revoke(ctx context.Context, id string, now time.Time) error
}

// ParcelKeeper sends jobs to other shops, takes theirs in, and copies itself.
type ParcelKeeper interface {
	// Pack writes a job with its photographs and its spares.
	Pack(ctx context.Context, job string, w io.Writer) error
	// TakeParcel keeps what another shop packed; index says what its text is found by.
	TakeParcel(ctx context.Context, r io.ReaderAt, size int64, index func(source []byte) Index, stamp Stamp) (Saved, error)
	// WriteBackup writes a copy of the whole record.
	WriteBackup(ctx context.Context, w io.Writer) error
}
