package wired

import (
	"errors"

	"oddleg"
	"oddleg/record"
)

var errYet = errors.New("not yet")

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
