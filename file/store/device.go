package store

import (
	"context"
	"database/sql"
	"errors"
	"strings"
	"time"
	"unicode"

	"codeberg.org/oddleg/oddleg/job/record"
)

// Invite lets one device join by an invitation. Sent again it is the same one.
func (s *Store) Invite(ctx context.Context, i record.Invitation) error {
	if err := checkHash(i.Hash); err != nil {
		return err
	}
	if i.Until.IsZero() {
		panic("store: an invitation has no end")
	}
	return s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "INSERT INTO invitations (hash, guest, until) VALUES (?, ?, ?) ON CONFLICT (hash) DO NOTHING",
			i.Hash, i.Guest, written(i.Until))
		return err
	})
}

// checkHash refuses what is no SHA-256 in hexadecimal: a key itself is never kept.
func checkHash(hash string) error {
	if !isDigest(hash) {
		return refused("a key is known by its SHA-256, %d figures in hexadecimal", digestLength)
	}
	return nil
}

// mostName is the most bytes of a device's name.
const mostName = 100

// Join lets a device in by an invitation, by its hash, once and before it runs
// out; it may do what the invitation says. From then on it is known by the hash
// of its own key.
func (s *Store) Join(ctx context.Context, invitation string, d record.Device, keyHash string, now time.Time) (record.Device, error) {
	d.Name = strings.TrimSpace(d.Name)
	if d.Name == "" || len(d.Name) > mostName || strings.ContainsFunc(d.Name, unicode.IsControl) {
		return record.Device{}, refused("a device needs a name, in one line of up to %d letters", mostName)
	}
	if err := errors.Join(checkHash(keyHash), checkText(d.Name)); err != nil {
		return record.Device{}, err
	}
	joined := record.Device{ID: newID(longIDLength), Name: d.Name, Joined: now, Seen: now.Truncate(time.Minute)}
	err := s.write(ctx, func(tx *sql.Tx) (err error) {
		if joined.Guest, err = accept(ctx, tx, invitation, now); err != nil {
			return err
		}
		done, err := tx.ExecContext(ctx, "INSERT INTO devices (id, hash, name, guest, joined, seen) VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (hash) DO NOTHING",
			joined.ID, keyHash, joined.Name, joined.Guest, written(joined.Joined), written(joined.Seen))
		if err != nil {
			return err
		}
		n, err := done.RowsAffected()
		if err == nil && n == 0 {
			err = refused("a device with this key has joined already")
		}
		return err
	})
	if err != nil {
		return record.Device{}, err
	}
	return joined, nil
}

// accept uses up an invitation, and says whether it is for a guest.
func accept(ctx context.Context, tx *sql.Tx, hash string, now time.Time) (guest bool, err error) {
	var until string
	var used bool
	err = tx.QueryRowContext(ctx, "SELECT guest, until, used IS NOT NULL FROM invitations WHERE hash = ?", hash).Scan(&guest, &until, &used)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return false, refused("there is no such invitation: ask for a new one")
	case err != nil:
		return false, err
	case used:
		return false, refused("the invitation was used already: each device needs one of its own")
	case written(now) > until:
		return false, refused("the invitation has run out: ask for a new one")
	}
	_, err = tx.ExecContext(ctx, "UPDATE invitations SET used = ? WHERE hash = ?", written(now), hash)
	return guest, err
}

const deviceColumns = "SELECT id, name, guest, joined, seen, revoked FROM devices "

func readDevice(r row) (record.Device, error) {
	var d record.Device
	var joined, seen moment
	var revoked sql.Null[moment]
	err := r.Scan(&d.ID, &d.Name, &d.Guest, &joined, &seen, &revoked)
	d.Joined, d.Seen, d.Revoked = joined.Time, seen.Time, revoked.V.Time
	return d, err
}

// DeviceByKey returns the device with a key, by its hash, and notes to the minute
// that it was seen. One that is unknown or revoked is refused.
func (s *Store) DeviceByKey(ctx context.Context, keyHash string, now time.Time) (record.Device, error) {
	d, err := readDevice(s.db.QueryRowContext(ctx, deviceColumns+"WHERE hash = ?", keyHash))
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return record.Device{}, refused("this device has not joined yet: it needs an invitation")
	case err != nil:
		return record.Device{}, s.told(err)
	case !d.Revoked.IsZero():
		return record.Device{}, refused("this device may not come in any more: it needs a new invitation")
	}
	minute := now.Truncate(time.Minute)
	if !minute.After(d.Seen) {
		return d, nil
	}
	d.Seen = minute
	err = s.write(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, "UPDATE devices SET seen = ? WHERE id = ?", written(minute), d.ID)
		return err
	})
	if errors.Is(err, record.ErrFull) || errors.Is(err, record.ErrReadOnly) || errors.Is(err, record.ErrBusy) {
		err = nil // who may come in may read all the same
	}
	return d, err
}

// Devices returns all devices that ever joined, the first first.
func (s *Store) Devices(ctx context.Context) ([]record.Device, error) {
	all, err := list(ctx, s.db, readDevice, deviceColumns+"ORDER BY joined, rowid")
	return all, s.told(err)
}

// Revoke keeps a device out from now on. It stays in the list.
func (s *Store) Revoke(ctx context.Context, id string, now time.Time) error {
	return s.write(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, "UPDATE devices SET revoked = coalesce(revoked, ?) WHERE id = ?", written(now), id)
		if err != nil {
			return err
		}
		n, err := done.RowsAffected()
		if err == nil && n == 0 {
			err = refused("no device has the id %q", id)
		}
		return err
	})
}
