package calc

import "strings"

// Nearest returns the word of the list that is most like w, or "" when none is
// near enough to be a slip of the finger: one wrong, missing, added or swapped
// letter, or a few in a long word.
func Nearest(w string, list []string) string {
	best, cost := "", 1+(len(w)-1)/4
	if len(w) < 2 {
		return ""
	}
	lw := strings.ToLower(w)
	for _, c := range list {
		if d := len(c) - len(w); d > cost || -d > cost {
			continue
		}
		d := editDistance(lw, strings.ToLower(c), cost)
		if d == 0 && c != w {
			return c
		}
		if d < cost || d == cost && best == "" {
			best, cost = c, d
		}
	}
	return best
}

// editDistance counts insertions, deletions, substitutions and swaps of
// neighbours between a and b (optimal string alignment), giving up past limit.
func editDistance(a, b string, limit int) int {
	x, y := []rune(a), []rune(b)
	prev2 := make([]int, len(y)+1)
	prev := make([]int, len(y)+1)
	cur := make([]int, len(y)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(x); i++ {
		cur[0] = i
		low := i
		for j := 1; j <= len(y); j++ {
			c := 1
			if x[i-1] == y[j-1] {
				c = 0
			}
			d := min(prev[j]+1, cur[j-1]+1, prev[j-1]+c)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				d = min(d, prev2[j-2]+1)
			}
			cur[j] = d
			low = min(low, d)
		}
		if low > limit {
			return limit + 1
		}
		prev2, prev, cur = prev, cur, prev2
	}
	return prev[len(y)]
}
