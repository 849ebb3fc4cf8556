package report

import "io"

// KitEntry is an instrument, a gauge piece or a machine of the shop.
type KitEntry struct {
	ID         string   `json:"id"`
	Class      string   `json:"class"`
	Kind       string   `json:"kind"`
	Size       string   `json:"size"` // of a piece, as written
	MM         *float64 `json:"mm"`   // the same in mm; nil for other things
	Tolerance  string   `json:"tolerance"`
	Calibrated string   `json:"calibrated"` // date, empty: not known
	Written    string   `json:"written"`    // the rest, as a job file has it
	Say        string   `json:"say"`
}

// Kit writes what the shop has to measure and to make with.
func Kit(w io.Writer, kit []KitEntry, style Style) error {
	p := &printer{w: w, style: style}
	return p.report(func() {
		if len(kit) == 0 {
			p.line("Nothing is in the kit yet: `oddleg kit put roll6 --kind roller --size '6 mm' --tolerance '0.002 mm'` puts a roller there.")
			return
		}
		rows := [][]string{{"id", "kind", "size", "±", "calibrated", "as written", ""}}
		for _, k := range kit {
			rows = append(rows, []string{k.ID, k.Kind, k.Size, k.Tolerance, k.Calibrated, k.Written, k.Say})
		}
		p.table(rows)
	})
}

// KitJSON writes the same for programs.
func KitJSON(w io.Writer, kit []KitEntry) error {
	return encode(w, struct {
		Kit []KitEntry `json:"kit"`
	}{append([]KitEntry{}, kit...)})
}
