package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"oddleg/booklet"
	"oddleg/paper"
	"oddleg/report"
	"oddleg/setup"
)

// setupCommand says how the part of a job is set up for.
type setupCommand struct {
	File     string `arg:"" help:"The job file (YAML) with a part, and best a shop and an order of work; - reads standard input."`
	Pictures string `placeholder:"FOLDER" help:"Write a picture of each set-up into this folder (SVG)."`
	JSON     bool   `name:"json" help:"Print the answer as JSON (mm, N, degrees)."`
	Force    bool   `help:"Overwrite pictures that are there already."`
}

// Run prints the set-ups, and writes their pictures where these are wanted.
func (c *setupCommand) Run(s streams) error {
	return onJob(s, c.File, c.JSON, func(source []byte) (answer, error) {
		found, err := find(c.File, source, usualSeed)
		if err != nil {
			return answer{}, err
		}
		plan, err := found.SetUps()
		if err != nil {
			return answer{}, err
		}
		written, err := c.draw(plan)
		return answer{
			print: func(w io.Writer, style report.Style) error {
				if err := report.Setup(w, plan, style); err != nil {
					return err
				}
				return told(w, written)
			},
			json: func(w io.Writer) error { return report.SetupJSON(w, plan) },
		}, err
	})
}

// The size of a picture of a set-up by itself, in mm: half a sheet of A4.
const setUpWidth, setUpHeight = 190.0, 190.0

// draw writes the pictures into the folder, and returns a line for each.
func (c *setupCommand) draw(plan *setup.Plan) ([]string, error) {
	if c.Pictures == "" {
		return nil, nil
	}
	if err := os.MkdirAll(c.Pictures, 0o777); err != nil {
		return nil, err
	}
	var lines []string
	for i, step := range plan.Steps {
		for _, scene := range plan.Scenes(step) {
			path := filepath.Join(c.Pictures, pictureName(i+1, step, scene.Title))
			sheet, err := booklet.SetUp(scene, setUpWidth, setUpHeight)
			if err != nil {
				lines = append(lines, "not drawn: "+err.Error())
				continue
			}
			if err := writeNew(path, c.Force, func(w io.Writer) error { return paper.SVG(w, sheet) }); err != nil {
				return nil, err
			}
			lines = append(lines, "wrote "+path)
		}
	}
	if lines == nil {
		lines = []string{"there is nothing to draw to scale: no holding, no faces, no holes"}
	}
	return lines, nil
}

// pictureName is the file of a picture: the number and id of its operation, and
// its title.
func pictureName(number int, step *setup.Step, title string) string {
	words := []string{fmt.Sprint(number)}
	if step.Operation != nil && step.Operation.ID != fmt.Sprintf("operation %d", step.Turn.Number) {
		words = append(words, step.Operation.ID)
	}
	name := strings.Join(append(words, title), "-")
	return strings.ToLower(strings.ReplaceAll(name, " ", "-")) + ".svg"
}

// told writes lines.
func told(w io.Writer, lines []string) error {
	if len(lines) == 0 {
		return nil
	}
	_, err := fmt.Fprintf(w, "\n%s\n", strings.Join(lines, "\n"))
	return err
}
