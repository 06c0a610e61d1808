package kernel

import "scarph/calc"

// settles says why a settled size is none of the thing's, nil when it is one.
func (z sizes) settles(f calc.Field, thing string) *calc.Error {
	k := z.index(f.Name)
	if k < 0 {
		names := make([]string, len(z.sizes))
		for i := range z.sizes {
			names[i] = z.sizes[i].Name
		}
		if f.Name == "" {
			return calc.Errorf(calc.CodePart, "%s has several sizes", thing).WithHint("say which one: %s = …", joined(names))
		}
		e := calc.Errorf(calc.CodeUnknownItem, "%s has no size %s", thing, f.Name)
		if near := calc.Nearest(f.Name, names); near != "" {
			return e.WithHint("did you mean %s?", near)
		}
		return e.WithHint("there are %s", joined(names))
	}
	return unlike("the "+z.sizes[k].Name+" of "+thing, z.sizes[k].Value, f.Value)
}
