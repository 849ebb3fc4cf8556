package report

import (
	"fmt"
	"strings"

	"codeberg.org/oddleg/oddleg/job/record"
	"codeberg.org/oddleg/oddleg/job/trade"
)

// Recorded is a job of the record in the words of the report.
func Recorded(j record.Job) RecordedJob {
	return RecordedJob{
		ID: j.ID, Name: j.Name, Machine: machineWords(j.Machine), Part: j.Part, Revision: j.Revision, OnShelf: j.OnShelf,
		Branches: append([]int{}, j.Branches...), Example: j.Example, PutAway: j.PutAway,
	}
}

// machineWords says which machine it is.
func machineWords(m trade.Machine) string {
	var parts []string
	for _, part := range []string{m.What, unlessNone(m.Built), m.Country} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, ", ")
}

func unlessNone(n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprint(n)
}
