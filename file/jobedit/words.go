package jobedit

import "codeberg.org/oddleg/oddleg/job/keys"

// version is the version of a new file.
const version = keys.Version

// The keys of sections in the order in which one is written.
var (
	sections      = keys.File().Names()
	kitKeys       = keys.Section("kit").Names()
	sizeKeys      = keys.Section("sizes").Names()
	readingKeys   = keys.Section("readings").Names()
	partKeys      = keys.Section("part").Names()
	newSizeKeys   = keys.Section("part.sizes").Names()
	mateKeys      = keys.Section("part.mates").Names()
	jointKeys     = keys.Section("joints").Names()
	machineKeys   = keys.Section("shop").Names()
	operationKeys = keys.Section("work").Names()
	checkKeys     = keys.Section("checks").Names()
	surveyKeys    = keys.NamesOf(keys.Section("surveys").Keys)
)
