package plan

// Cautions returns what to mind wherever work or cutters turn (common practice,
// no source). They stand on every sheet of set-ups, in these words alone.
func Cautions() []string {
	return []string{
		"Never leave the key in the chuck: your hand leaves it only when it is out.",
		"Guards shut, eyes covered; no gloves, loose sleeves, rings or long hair near what turns.",
		"Turn the work round once by hand: jaws, dogs and clamps must clear everything.",
		"Long or heavy work is held at both ends. Bar must not stand out behind the spindle unsupported.",
		"Stop the spindle to measure, to change gears and to clear swarf; hooks and brushes, never fingers or an air line.",
		"Isolate the machine before you put a hand among the change gears, and shut their cover again.",
		"Speeds and feeds here are starting values: listen, and slow down first.",
	}
}
