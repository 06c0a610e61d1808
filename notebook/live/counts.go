package live

import "scarph/kernel"

// notedOnly says why a new reading of a kind, written under today, would not count: which
// other does; "" when it would.
func (s *visit) notedOnly(h *kernel.History, kind string) string {
	if kind == "revise" {
		kind = "revised"
	}
	var wins *kernel.Reading // nil for the new one
	strength, written := 0, false
	enter := func(x *kernel.Reading, kind string) {
		if k := strengths[kind]; k >= strength || kind == "revised" {
			wins, strength = x, max(k, strength)
		}
	}
	for i := range h.Readings {
		x := &h.Readings[i]
		if !x.Result.OK() {
			continue
		}
		if !written && x.Entry.Date > s.today() {
			written = true
			enter(nil, kind)
		}
		enter(x, x.Kind)
	}
	if !written {
		enter(nil, kind)
	}
	if wins == nil {
		return ""
	}
	return "the " + wins.Kind + " reading of " + dayOf(wins.Entry) + " counts for more"
}
