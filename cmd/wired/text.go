package wired

import (
	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// text reads and changes the text of jobs, as jobfile does it.
type text struct{}

// Read reads a job under way: its readings need not have been taken.
func (text) Read(source []byte) (*trade.Job, error) { return jobfile.ReadPlanned("", source) }

// Put adds an item, or changes the one of its id.
func (text) Put(source []byte, i record.Item) ([]byte, error) { return jobfile.Put(source, i) }

// Drop takes an item out.
func (text) Drop(source []byte, section, id string) ([]byte, error) {
	return jobfile.Drop(source, section, id)
}

// SetHead says what the job and its part are called.
func (text) SetHead(source []byte, fields ...record.Field) ([]byte, error) {
	return jobfile.SetHead(source, fields...)
}

// AddSaw adds values to a reading.
func (text) AddSaw(source []byte, reading string, saw ...string) ([]byte, error) {
	return jobfile.AddSaw(source, reading, saw...)
}

// SetAside leaves a value out, or takes it in again.
func (text) SetAside(source []byte, reading string, index int, why string, aside bool) ([]byte, error) {
	return jobfile.SetAside(source, reading, index, why, aside)
}

// Section returns the text of one section.
func (text) Section(source []byte, name string) (string, error) { return jobfile.Section(source, name) }

// SetSection puts a text in the place of one section.
func (text) SetSection(source []byte, name, words string) ([]byte, error) {
	return jobfile.SetSection(source, name, words)
}

// NextID returns an id that is not taken.
func (text) NextID(source []byte, section, stem string) string {
	return jobfile.NextID(source, section, stem)
}

// Blank is a job with nothing in it yet.
func (text) Blank(name, units string, machine trade.Machine) ([]byte, error) {
	return jobfile.Blank(name, units, machine)
}

// WithoutReadings is another job like this one, with nothing read yet.
func (text) WithoutReadings(source []byte, name string) ([]byte, error) {
	return jobfile.WithoutReadings(source, name)
}

// Merge puts together what two people made of one text.
func (text) Merge(base, mine, theirs []byte) ([]byte, []record.Clash, error) {
	return jobfile.Merge(base, mine, theirs)
}
