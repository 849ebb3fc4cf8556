package index

import (
	"reflect"
	"testing"

	"codeberg.org/oddleg/oddleg/job/record"
)

func TestQuery(t *testing.T) {
	seven := 11.1125 // 7/16 of 25.4 mm
	inch := record.Span{MM: seven, Within: seven * 0.01}
	for asked, want := range map[string]record.Query{
		"what on the 1936 shaper takes a 7/16 BSW stud?": {Words: []string{"1936", "shaper", "stud"}, Threads: []string{"7/16 BSW"}},
		`7/16" bsw`:               {Threads: []string{"7/16 BSW"}},
		"7/16 in BSW":             {Threads: []string{"7/16 BSW"}},
		"M10x1.5, M8":             {Threads: []string{"M10", "M8"}},
		"7/16 in":                 {Sizes: []record.Span{inch}},
		"stud 11.1125 mm, 7/16in": {Words: []string{"stud"}, Sizes: []record.Span{inch, inch}},
		"0.5mm":                   {Sizes: []record.Span{{MM: 0.5, Within: 0.05}}},
		"1936":                    {Words: []string{"1936"}},
		"Where is the gib?":       {Words: []string{"gib"}},
		"-3 mm":                   {Words: []string{"-3", "mm"}},
		"? the !":                 {},
	} {
		if got := Query(asked); !reflect.DeepEqual(got, want) {
			t.Errorf("%q: %+v, want %+v", asked, got, want)
		}
	}
}
