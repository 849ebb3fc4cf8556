package report

import (
	"io"

	"codeberg.org/oddleg/oddleg/show/say"
)

// KeptJSON writes the same for programs.
func KeptJSON(w io.Writer, k say.Keeping) error { return encode(w, k) }

// HistoryJSON writes the same for programs.
func HistoryJSON(w io.Writer, job say.RecordedJob, versions []say.Version) error {
	return encode(w, struct {
		say.RecordedJob
		Revisions []say.Version `json:"revisions"`
	}{job, versions})
}

// FoundJSON writes the same for programs.
func FoundJSON(w io.Writer, findings []say.Finding) error {
	return encode(w, struct {
		Found []say.Finding `json:"found"`
	}{append([]say.Finding{}, findings...)})
}

// SaidJSON writes for programs what is one sentence for people.
func SaidJSON(w io.Writer, text string) error {
	return encode(w, struct {
		Said string `json:"said"`
	}{text})
}

// KitJSON writes the same for programs.
func KitJSON(w io.Writer, kit []say.KitEntry) error {
	return encode(w, struct {
		Kit []say.KitEntry `json:"kit"`
	}{append([]say.KitEntry{}, kit...)})
}

// ShelfJSON writes the same for programs.
func ShelfJSON(w io.Writer, job say.RecordedJob, places []string, entries []say.ShelfEntry) error {
	return encode(w, struct {
		say.RecordedJob
		Places  []string         `json:"places"`
		Entries []say.ShelfEntry `json:"entries"`
	}{job, append([]string{}, places...), append([]say.ShelfEntry{}, entries...)})
}
