package results

import (
	"bytes"

	"scarph/calc/lang"
	"scarph/kernel"
)

// Cautions writes the safety remarks of a block, given as bits from A = 1.
func Cautions(w *bytes.Buffer, bits uint8) {
	for _, c := range lang.CautionsOf(bits) {
		w.WriteString(`<p class="caution"><b>Caution.</b> `)
		esc(w, c.Text())
		w.WriteString("</p>\n")
	}
}

// CautionsOf are the cautions that the figures of a list carry, as bits from A = 1. The
// lists are those of List.
func CautionsOf(s *kernel.Session, list string, asOf int) uint8 {
	bits := uint8(0)
	add := func(r *kernel.Result) {
		if r != nil {
			bits |= r.Cautions
		}
	}
	value := func(name string) {
		if r, ok := s.Value(name, asOf); ok {
			add(r)
		}
	}
	switch list {
	case "dimensions":
		for _, d := range s.Dimensions(asOf) {
			add(d.Result)
		}
	case "cutlist":
		for _, p := range append(s.Parts(asOf), s.Stock(asOf)...) {
			add(p.Result)
		}
	case "rework":
		for _, m := range s.Rework(asOf) {
			value(m.Thing)
		}
	case "checks":
		for _, k := range s.Checks(asOf) {
			add(k.Result)
		}
	case "history":
		for _, h := range s.Histories(asOf) {
			value(h.Name)
		}
	}
	return bits
}

// CautionTexts are the words of cautions, for where there is no HTML.
func CautionTexts(bits uint8) []string {
	var list []string
	for _, c := range lang.CautionsOf(bits) {
		list = append(list, "Caution. "+c.Text())
	}
	return list
}
