package paper

import (
	"strconv"
	"strings"
)

// warning is a caution, and the shapes whose figures carry it.
type warning struct {
	text  string
	names []string
}

// warnings gathers the cautions of the patterns, each once.
func warnings(patterns []*pattern) []warning {
	var list []warning
	at := map[string]int{}
	for _, p := range patterns {
		for _, text := range p.cautions {
			i, ok := at[text]
			if !ok {
				i = len(list)
				at[text] = i
				list = append(list, warning{text: text})
			}
			list[i].names = append(list[i].names, p.name)
		}
	}
	return list
}

// warn draws the sheet that says what must be minded before anything is cut.
func (d *document) warn(list []warning, o Options, number, of int) {
	p := keyPaper(o.page())
	d.page(p.Width, p.Height)
	d.say(margin, margin+6, "Cautions", 16, bold, 0)
	y := margin + 16
	wide := p.Width - 2*margin - upright
	for _, w := range list {
		d.say(margin, y, strings.Join(w.names, ", "), 11, bold, wide)
		y += 5.5
		for _, line := range d.lines(w.text, 11, wide) {
			d.say(margin, y, line, 11, regular, 0)
			y += 5.5
		}
		y += 4
	}
	d.foot(p, o, "Cautions", "sheet "+strconv.Itoa(number)+" of "+strconv.Itoa(of), "Read this before you cut.")
}
