package notebook

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// New makes a journal in a folder that does not exist or is empty: a title page that
// shows the way, and a first entry for the given day (ISO 8601).
func New(dir, today string) ([]string, error) {
	list, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, err
	}
	if len(list) > 0 {
		return nil, fmt.Errorf("%s is not empty; nothing was written", dir)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, err
	}
	name := filepath.Base(dir)
	if abs, err := filepath.Abs(dir); err == nil {
		name = filepath.Base(abs)
	}
	name = strings.ToUpper(name[:1]) + name[1:]
	files := [][2]string{
		{TitlePage, strings.ReplaceAll(newTitlePage, "NAME", name)},
		{today + "-first-measurements.md", strings.ReplaceAll(newEntry, "DATE", today)},
	}
	var made []string
	for _, f := range files {
		p := filepath.Join(dir, f[0])
		if err := os.WriteFile(p, []byte(f[1]), 0o644); err != nil {
			return made, err
		}
		made = append(made, p)
	}
	return made, nil
}

const newTitlePage = `---
title: NAME
boat: NAME
show:
  length: feet-inches      # or metric
  nearest: 1/16"           # the smallest mark on your rule
  angle: degrees           # or degrees-minutes, rise-per-foot
currency: EUR
---
# NAME

What the boat is, where the drawing came from, who is building her. She is to be
{length} long and {beam} in the beam.

` + "```calc" + `
drawn length = 12' 6"                   # from the plan; the text after # is the note
drawn beam = 4' 6"
frames = 9
run_of_frames = 10' 8"                  # first frame to last, along the chine
frame_spacing = run_of_frames / (frames - 1)
` + "```" + `

A value is named once. When you know better, say so in a later entry, with
` + "`found beam = …` or `revise frames = …`" + `, and every number that hangs on it follows.
`

const newEntry = `---
title: First measurements
date: DATE
---
Write what you did. A number in the text is a slot: the frames stand {frame_spacing}
apart, marked from one zero:

` + "```calc" + `
marks = mark_positions(0 in, frame_spacing, frames)
part frame: 2 * frames of 7/8" by 2 1/4" by 1' 6" in white_oak, within 1/16"
check frame_spacing <= 1' 6"            # a check must hold
work 2 h on lofting
` + "```" + `

- [ ] measure the beam on the moulds, and write ` + "`found beam = …`" + ` here
`
