package draw

import "sort"

// column sets the sliding labels of one side: each as near to its own height as it
// can be with no two over one another, and in the order of their points.
func (p *placer) column(labels []Label, side Side) {
	var list []Label
	for _, l := range labels {
		if l.Sliding && l.Side == side && finite(l.At) && l.Text != "" {
			list = append(list, l)
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return p.m.at(list[a].At).Y < p.m.at(list[b].At).Y })
	heights := make([]float64, len(list))
	for i, l := range list {
		heights[i] = p.m.at(l.At).Y
	}
	for i, y := range apart(heights, nextLine) {
		c := p.m.at(list[i].At)
		c.Y = y
		p.try(list[i], []Lettering{lettering(list[i], c, side, list[i].gap())})
	}
}

// apart moves rising heights as little as it takes to keep a distance between them:
// those that crowd form a block about the mean of where they would be.
func apart(heights []float64, distance float64) []float64 {
	type block struct {
		sum float64 // of where the first of the block would stand for each of its members
		n   int
	}
	var blocks []block
	for _, y := range heights {
		blocks = append(blocks, block{y, 1})
		for k := len(blocks) - 1; k > 0; k-- {
			a, b := blocks[k-1], blocks[k]
			if b.sum/float64(b.n) >= a.sum/float64(a.n)+float64(a.n)*distance {
				break
			}
			blocks[k-1] = block{a.sum + b.sum - float64(a.n*b.n)*distance, a.n + b.n}
			blocks = blocks[:k]
		}
	}
	var out []float64
	for _, b := range blocks {
		for i := 0; i < b.n; i++ {
			out = append(out, b.sum/float64(b.n)+float64(i)*distance)
		}
	}
	return out
}
