package live

// matching gives, for each line of b, the line of a that it stands for, -1 for a new
// one: the lines both texts share, in order, by their longest common subsequence. In
// very long texts that differ much it makes do with what begins and ends both.
// Source: Myers, "An O(ND) Difference Algorithm and Its Variations", Algorithmica 1
// (1986), section 4.
func matching(a, b []string) []int {
	match := make([]int, len(b))
	for i := range match {
		match[i] = -1
	}
	p := 0
	for p < len(a) && p < len(b) && a[p] == b[p] {
		match[p] = p
		p++
	}
	q := 0
	for q < len(a)-p && q < len(b)-p && a[len(a)-1-q] == b[len(b)-1-q] {
		match[len(b)-1-q] = len(a) - 1 - q
		q++
	}
	for i, k := range common(a[p:len(a)-q], b[p:len(b)-q]) {
		if k >= 0 {
			match[p+i] = p + k
		}
	}
	return match
}

// maxDifferent bounds the work: beyond so many differing lines nothing is matched.
const maxDifferent = 1500

// common is matching for the middle of two texts.
func common(a, b []string) []int {
	match := make([]int, len(b))
	for i := range match {
		match[i] = -1
	}
	n, m := len(a), len(b)
	if n == 0 || m == 0 {
		return match
	}
	most := min(n+m, maxDifferent)
	at := func(k int) int { return k + most }
	reach := make([]int, 2*most+2)
	var trace [][]int
	for d := 0; d <= most; d++ {
		trace = append(trace, append([]int(nil), reach...))
		for k := -d; k <= d; k += 2 {
			x := 0
			switch {
			case d == 0:
			case k == -d || k != d && reach[at(k-1)] < reach[at(k+1)]:
				x = reach[at(k+1)]
			default:
				x = reach[at(k-1)] + 1
			}
			y := x - k
			for x < n && y < m && y >= 0 && a[x] == b[y] {
				x, y = x+1, y+1
			}
			reach[at(k)] = x
			if x >= n && y >= m {
				walkBack(trace, at, n, m, match)
				return match
			}
		}
	}
	return match
}

// walkBack follows the furthest reaching paths back and notes the lines they share.
func walkBack(trace [][]int, at func(int) int, x, y int, match []int) {
	for d := len(trace) - 1; d > 0; d-- {
		reach := trace[d]
		k := x - y
		prev := k - 1
		if k == -d || k != d && reach[at(k-1)] < reach[at(k+1)] {
			prev = k + 1
		}
		px := reach[at(prev)]
		py := px - prev
		for x > px && y > py {
			x, y = x-1, y-1
			match[y] = x
		}
		x, y = px, py
	}
	for x > 0 && y > 0 {
		x, y = x-1, y-1
		match[y] = x
	}
}
