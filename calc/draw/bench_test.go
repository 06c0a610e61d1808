package draw_test

import "testing"

// BenchmarkPicture is the cost of one drawing on a page.
func BenchmarkPicture(b *testing.B) {
	all := pictures()
	for _, name := range []string{"body_plan", "profile", "fairness", "panel", "deviation_map", "tick_strip_many"} {
		p := all[name]
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				_ = p.kind.SVG(p.style)
			}
		})
	}
}
