package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/num/unit"
	"codeberg.org/oddleg/oddleg/show/asjson"
	"codeberg.org/oddleg/oddleg/show/doc"
	"codeberg.org/oddleg/oddleg/show/report"
	"codeberg.org/oddleg/oddleg/show/term"
)

// answer is what a verb has to say: to people, in some view, or to programs.
type answer struct {
	says  *doc.Document
	view  unit.View
	plain func(w io.Writer) error // in place of says: a text as it stands
	json  func(w io.Writer) error
	onJob bool // programs are then told what people are
}

// inJob is the view of somebody who reads a job: in the units it is written in.
func inJob(job *trade.Job) unit.View { return unit.View{In: job.Units} }

// onJob reads a job file, works on it and prints the answer; where the file is
// wrong it says so.
func onJob(s streams, file string, asJSON bool, work func(source []byte) (answer, error)) error {
	source, err := readJob(file, s.in)
	if err != nil {
		return err
	}
	return onSource(s, file, asJSON, source, work)
}

// onSource is onJob where the job has been read from somewhere.
func onSource(s streams, file string, asJSON bool, source []byte, work func(source []byte) (answer, error)) error {
	a, err := work(source)
	var faults trade.Faults
	switch {
	case errors.As(err, &faults):
		return complain(s, file, asJSON, source, faults)
	case err != nil:
		return err
	}
	a.onJob = true
	return a.tell(s, asJSON)
}

// tell prints an answer, or nothing of one that cannot be given whole.
func (a answer) tell(s streams, asJSON bool) error {
	var page bytes.Buffer
	var err error
	switch {
	case asJSON:
		if err = a.json(&page); err == nil && a.says != nil && a.onJob {
			err = addSaid(&page, asjson.Document(a.says, a.view))
		}
	case a.says != nil:
		err = term.Write(&page, a.says, term.Options{Colour: s.terminal, View: a.view})
	default:
		err = a.plain(&page)
	}
	if err != nil {
		return err
	}
	if err := s.context().Err(); err != nil && a.onJob { // some of it may not have been worked out
		return err
	}
	_, err = page.WriteTo(s.out)
	return err
}

// addSaid puts what people are told into an object for programs, under the key
// said. A list stays as it is.
func addSaid(page *bytes.Buffer, said any) error {
	object, isObject := bytes.CutSuffix(bytes.TrimSpace(page.Bytes()), []byte("}"))
	if !isObject || !bytes.HasPrefix(object, []byte("{")) {
		return nil
	}
	blocks, err := json.MarshalIndent(said, "  ", "  ")
	if err != nil {
		return err
	}
	whole := append(bytes.TrimSpace(bytes.Clone(object)), ",\n  \"said\": "...)
	whole = append(append(whole, blocks...), "\n}\n"...)
	page.Reset()
	_, err = page.Write(whole)
	return err
}

// complain tells what is wrong with a job file.
func complain(s streams, file string, asJSON bool, source []byte, faults trade.Faults) error {
	if asJSON {
		if err := report.FaultsJSON(s.out, faults); err != nil {
			return err
		}
		return errReported
	}
	report.Faults(s.complain, file, source, faults)
	return errReported
}

// readJob reads a job file, or standard input for the name -. It reads one
// byte more than a job file may have, so that a huge file is refused and not
// swallowed.
func readJob(name string, in io.Reader) ([]byte, error) {
	if name != "-" {
		file, err := os.Open(name)
		if err != nil {
			return nil, err
		}
		defer file.Close()
		in = file
	}
	source, err := io.ReadAll(io.LimitReader(in, jobfile.MaxSize+1))
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	return source, nil
}
