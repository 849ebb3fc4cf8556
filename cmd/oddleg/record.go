package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/user"
	"path/filepath"
	"time"

	"codeberg.org/oddleg/oddleg/file/store"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/say"
)

// recordFlags say which record is meant.
type recordFlags struct {
	Shop string `help:"The shop's record; else oddleg/shop.db in the user's own folder." placeholder:"FILE"`
}

// path returns the file of the record.
func (f recordFlags) path() (string, error) {
	if f.Shop != "" {
		return f.Shop, nil
	}
	folder, err := os.UserConfigDir()
	if err != nil {
		return "", fmt.Errorf("where to keep the record is not known: %w; name a file with --shop", err)
	}
	return filepath.Join(folder, "oddleg", "shop.db"), nil
}

// make opens the record, and makes one where there is none.
func (f recordFlags) make() (*store.Store, error) {
	path, err := f.path()
	if err != nil {
		return nil, err
	}
	if f.Shop == "" {
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			return nil, err
		}
	}
	return store.Make(path)
}

// open opens the record that is there.
func (f recordFlags) open() (*store.Store, error) {
	path, err := f.path()
	if err != nil {
		return nil, err
	}
	return store.Open(path)
}

// onRecord works on a record and prints the answer; where what was given is
// wrong it says so.
func onRecord(s streams, open func() (*store.Store, error), asJSON bool, work func(context.Context, *store.Store) (answer, error)) error {
	shop, err := open()
	if err != nil {
		return refuse(s, asJSON, err)
	}
	a, err := work(s.context(), shop)
	if err := errors.Join(err, shop.Close()); err != nil {
		return refuse(s, asJSON, err)
	}
	return a.tell(s, asJSON)
}

// refuse tells what is wrong with what was given; other errors are returned as
// they are.
func refuse(s streams, asJSON bool, err error) error {
	var g given
	if !errors.As(err, &g.faults) {
		return err
	}
	return g.complain(s, asJSON)
}

// whoFlags say who does something.
type whoFlags struct {
	Who string `help:"Who does this; else the user of this computer." placeholder:"NAME"`
}

// stamp returns now and who it is.
func (f whoFlags) stamp(note string) record.Stamp {
	who := f.Who
	if who == "" {
		if u, err := user.Current(); err == nil {
			who = u.Username
		}
	}
	return record.Stamp{When: time.Now(), Who: who, Note: note}
}

// versions are revisions in the words of a report, in the time of this place.
func versions(all []record.Revision) []say.Version {
	list := make([]say.Version, len(all))
	for i, v := range all {
		list[i] = say.Version{
			Number: v.Number, When: v.When.Local(), Who: v.Who, Note: v.Note, From: v.From, Branch: v.Branch, Merges: v.Merges, Restores: v.Restores,
		}
	}
	return list
}

// sentence is an answer of one sentence.
func sentence(format string, args ...any) answer {
	text := fmt.Sprintf(format, args...)
	return answer{
		plain: func(w io.Writer) error { _, err := fmt.Fprintln(w, text); return err },
		json:  func(w io.Writer) error { return report.SaidJSON(w, text) },
	}
}

// wrong is a fault of what was given.
func wrong(format string, args ...any) error {
	return trade.Faults{{Text: fmt.Sprintf(format, args...)}}
}
