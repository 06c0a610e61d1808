package notebook

import (
	"scarph/calc"
	"scarph/notebook/results"
)

// Cutlist is the list of parts with what must be bought for them and how they lie
// on the boards at hand.
type Cutlist = results.Cutlist

// Cutlist makes the cut list as of an entry. The waste is the journal's setting, by
// default three tenths of what is bought; so is the width of the saw's cut, by default 1/8 in.
func (n *Notebook) Cutlist(asOf int) Cutlist {
	return results.CutlistOf(n.Session, asOf, n.buying())
}

// buying is how the settings say that wood is bought and sawn.
func (n *Notebook) buying() results.Buying {
	set := n.Settings()
	b := results.Buying{Waste: 0.3, OfAdded: set.WasteOf == "added", Kerf: 0.0254 / 8}
	if l, err := calc.ParseLiteral(set.Kerf); err == nil && l.Value.D == calc.DimLength && l.Value.V >= 0 {
		b.Kerf = l.Value.V
	}
	if l, err := calc.ParseLiteral(set.Waste); err == nil && l.Value.D.IsNumber() && l.Value.V >= 0 && l.Value.V < 1 {
		b.Waste = l.Value.V
	}
	return b
}
