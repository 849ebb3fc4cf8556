package jobedit

import (
	"regexp"
	"strconv"

	"codeberg.org/oddleg/oddleg/file/jobfile"
	"codeberg.org/oddleg/oddleg/job/keys"
	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// Blank returns the text of a new job with nothing in it yet, which Read takes.
// units are mm or in.
func Blank(name, units string, machine trade.Machine) ([]byte, error) {
	built := ""
	if machine.Built != 0 {
		built = strconv.Itoa(machine.Built)
	}
	source, err := SetHead([]byte("oddleg: "+version+"\n"),
		record.Field{Key: "job", Text: name},
		record.Field{Key: "machine.what", Text: machine.What},
		record.Field{Key: "machine.built", Text: built},
		record.Field{Key: "machine.country", Text: machine.Country},
		record.Field{Key: "units", Text: units},
	)
	if err != nil {
		return nil, err
	}
	if _, err := jobfile.Read("", source); err != nil {
		return nil, err
	}
	return source, nil
}

// usualStem begins the ids of a section where nothing better is known.
var usualStem = map[string]string{"kit": "tool", "sizes": "size", "readings": "r", "checks": "k", "plans": "plan", "places": "place", "surveys": "look"}

// notOfIDs are runs of what an id does not have.
var notOfIDs = regexp.MustCompile(`[^A-Za-z0-9_]+`)

// NextID returns an id for a new entry that nothing in the file is called: the stem
// itself where it is a word, else with the first number that is free. What an id
// cannot have is left out of the stem.
func NextID(source []byte, section, stem string) string {
	taken := map[string]bool{}
	if s, err := newSheet(source); err == nil {
		s.root.EachWord(func(word string) { taken[word] = true })
	}
	stem = notOfIDs.ReplaceAllString(stem, "")
	if !keys.IsID(stem) {
		stem = usualStem[section] + stem
	}
	if !keys.IsID(stem) {
		stem = "n" + stem
	}
	free := func(id string) bool { return !taken[id] && !keys.IsReserved(id) }
	number := 1
	if len(stem) > 1 {
		if free(stem) {
			return stem
		}
		number = 2
	}
	for !free(stem + strconv.Itoa(number)) {
		number++
	}
	return stem + strconv.Itoa(number)
}
