package keys

import (
	"slices"
	"sync/atomic"

	"codeberg.org/oddleg/oddleg/job/trade"
	"codeberg.org/oddleg/oddleg/read/gauge"
	"codeberg.org/oddleg/oddleg/read/survey"
)

// Version is the one version of the format there is.
const Version = "1"

// PartPrefix stands before the id of a size of the part outside of it.
const PartPrefix = "part."

// made is the description made last, and what the catalogues were that it was made from.
var made atomic.Pointer[description]

// edition stands for a state of all catalogues.
type edition struct {
	methods gauge.Edition
	surveys survey.Edition
	parts   trade.PartWordsEdition
}

type description struct {
	of     edition
	file   *Entry
	byName map[string]*Entry
}

// current returns the description, which is made once, and again when a method or
// a kind of survey or of part has been put into its catalogue.
func current() *description {
	now := edition{gauge.CurrentEdition(), survey.CurrentEdition(), trade.CurrentPartWords()}
	if last := made.Load(); last != nil && last.of == now {
		return last
	}
	d := &description{of: now, file: New(), byName: map[string]*Entry{}}
	for _, e := range d.file.Described() {
		d.byName[e.Name] = e
	}
	made.Store(d)
	return d
}

// File returns the description of the whole file, which is not to be changed.
func File() *Entry { return current().file }

// Section returns the entry that is described under a name, "readings" or
// "part.sizes", which is not to be changed; nil where there is none.
func Section(name string) *Entry { return current().byName[name] }

// New returns a fresh description of the whole file, which may be changed.
func New() *Entry {
	return &Entry{
		Each: "the file",
		Says: "One job in one file: what was seen, what it means, and what is to be made.",
		Keys: []Key{
			{
				Name: "oddleg", Holds: anySign(FormatVersion), Required: true, Example: Version,
				Says: "Version of this format.",
			},
			{
				Name: "job", Holds: anySign(Text), Required: true, Example: "Index plunger and its bush",
				Says: "What the job is called.",
			},
			{
				Name: "machine", Holds: mapping(machine()),
				Example: "{what: dividing table, built: 1936, country: GB}",
				Says:    "The machine that is being mended.",
			},
			{
				Name: "units", Holds: word("mm", "in"), Default: "mm", Example: "mm",
				Says: "Units of bare numbers, and how results are shown first.",
			},
			{
				Name: "kit", Holds: byID("instrument or piece", mapping(kit())),
				Says: "Instruments and gauge pieces that the readings were taken with.",
			},
			{Name: "sizes", Holds: byID("size", mapping(size())), Says: "The sizes that are sought."},
			{
				Name: "readings", Holds: list(mapping(reading())),
				Says: "What the instruments showed, and how they were held to the work.",
			},
			{
				Name: "relations", Holds: list(mapping(relation())),
				Says: "What ties sizes together, exactly or nearly.",
			},
			{Name: "plans", Holds: byID("plan", mapping(plan())), Says: "Sets of holes whose places are sought."},
			{
				Name: "places", Holds: byID("place", mapping(place())),
				Says: "Circles and lines that were touched with a stylus.",
			},
			{
				Name: "threads", Holds: byID("thread", mapping(thread())),
				Says: "Which sizes belong to one thread, so that its standard can be found.",
			},
			{Name: "part", Holds: mapping(part()), Says: "The part that is to be made."},
			{
				Name: "joints", Holds: list(mapping(joint())),
				Says: "What is screwed, keyed, sheared or pressed together, for its strength.",
			},
			{
				Name: "shop", Holds: byID("machine", mapping(machinery())),
				Says: "The machines that this shop has to make the part with.",
			},
			{Name: "work", Holds: list(mapping(operation())).from(0, 60), Says: "The operations, in order of work."},
			{
				Name: "checks", Holds: list(mapping(check())),
				Says: "Readings of the finished part, or of the old one once it was apart.",
			},
			{
				Name: "surveys", Holds: list(mapping(surveyed())),
				Says: "What was read along slides and screws to see how far they have worn.",
			},
		},
		Example: "oddleg: 1\njob: Index plunger and its bush\nunits: mm\n",
	}
}

func machine() *Entry {
	return &Entry{
		Name: "machine", Each: "the machine that is being mended",
		Says: "What its maker probably worked in, and so what a worn size was meant to be, follows from age and " +
			"country.",
		Keys: []Key{
			{Name: "what", Holds: anySign(Text), Example: "dividing table", Says: "What sort of machine it is."},
			{Name: "built", Holds: whole(1, 9999), Example: "1936", Says: "The year it was built."},
			{Name: "country", Holds: anySign(Text), Example: "GB", Says: "Where it was built, in two letters."},
		},
		Example: "machine: {what: dividing table, built: 1936, country: GB}\n",
	}
}

// Figures of an instrument and of a piece.
var (
	shownKeys = []string{"resolution", "mpe", "zero", "repeat"}
	sizedKeys = []string{"size", "tolerance"}
)

func kit() *Entry {
	instruments, pieces := words(gauge.InstrumentKinds()), words(gauge.PieceKinds())
	pieces = pieces[:len(pieces)-1] // other is there already
	return &Entry{
		Name: "kit", Each: "an instrument or a gauge piece",
		Says: "An instrument has a resolution or an error, a gauge piece a size. One with several jaws or rods " +
			"that have zeros of their own is listed once for each.",
		Keys: []Key{
			{
				Name: "kind", Holds: word(slices.Concat(instruments, pieces)...), Required: true,
				Example: "micrometer",
				Says:    "What it is.",
			},
			{
				Name: "resolution", Holds: notNegative(OfKind).above0(), Example: "0.01 mm",
				Says: "The smallest step that the instrument shows.",
			},
			{
				Name: "mpe", Holds: notNegative(OfKind), Default: "as usual for its kind", Example: "0.005 mm",
				Says: "The largest error the instrument may show, ±.",
			},
			{
				Name: "zero", Holds: notNegative(OfKind), Default: "from mpe", Example: "0.002 mm",
				Says: "Standard uncertainty of its zero, one error shared by all its readings.",
			},
			{
				Name: "repeat", Holds: notNegative(OfKind), Default: "from mpe", Example: "0.002 mm",
				Says: "Standard uncertainty of one reading, new each time.",
			},
			{
				Name: "size", Holds: above0(Length), Example: "6 mm",
				Says: "Size of the gauge piece: the diameter of a pin, ball or roller, the height of a block.",
			},
			{
				Name: "tolerance", Holds: notNegative(Length), Default: "exact", Example: "0.002 mm",
				Says: "How far the piece may be from its size, ±.",
			},
			say("what else is to be known of it"),
		},
		Cases: []Case{
			{
				Key: "kind", Words: instruments[:len(instruments)-1],
				Refuses: []Refusal{{Keys: sizedKeys, Why: "an instrument has no size"}},
			},
			{
				Key: "kind", Words: pieces, Needs: []string{"size"},
				Refuses: []Refusal{{Keys: shownKeys, Why: "a gauge piece has a size and a tolerance"}},
			},
		},
		Example: kitExample,
	}
}

// above0 returns a quantity that must be above 0.
func (h Holds) above0() Holds {
	h.Sign = Positive
	return h
}

// say is the key for a remark in the user's own words.
func say(what string) Key {
	return Key{
		Name: "say", Holds: anySign(Text), Example: "the worn one",
		Says: "A remark in your own words: " + what + ".",
	}
}
