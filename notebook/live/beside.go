package live

import "strings"

// pair is a row of two texts side by side.
type pair struct {
	Mine, Theirs       string
	HasMine, HasTheirs bool
	Same               bool
	Skipped            int // lines alike that are left out
}

// around is how many lines alike are shown about a difference.
const around = 2

// sideBySide lays two texts beside each other, line by line.
func sideBySide(mine, theirs string) []pair {
	a, b := strings.Split(mine, "\n"), strings.Split(theirs, "\n")
	match := matching(a, b)
	var rows []pair
	i := 0
	for k := 0; k <= len(b); k++ {
		to := len(a)
		if k < len(b) {
			if match[k] < 0 {
				continue
			}
			to = match[k]
		}
		from := k
		for from > 0 && match[from-1] < 0 {
			from--
		}
		left, right := a[i:to], b[from:k]
		for n := 0; n < max(len(left), len(right)); n++ {
			p := pair{}
			if n < len(left) {
				p.Mine, p.HasMine = left[n], true
			}
			if n < len(right) {
				p.Theirs, p.HasTheirs = right[n], true
			}
			rows = append(rows, p)
		}
		if k < len(b) {
			rows = append(rows, pair{Mine: a[to], Theirs: b[k], HasMine: true, HasTheirs: true, Same: true})
		}
		i = to + 1
	}
	return leaveOutAlike(rows)
}

// leaveOutAlike leaves out long runs of lines alike.
func leaveOutAlike(rows []pair) []pair {
	near := make([]bool, len(rows))
	for i, p := range rows {
		if p.Same {
			continue
		}
		for k := max(0, i-around); k <= min(len(rows)-1, i+around); k++ {
			near[k] = true
		}
	}
	var out []pair
	skipped := 0
	for i, p := range rows {
		if !near[i] {
			skipped++
			continue
		}
		if skipped > 0 {
			out = append(out, pair{Skipped: skipped})
			skipped = 0
		}
		out = append(out, p)
	}
	if skipped > 0 {
		out = append(out, pair{Skipped: skipped})
	}
	return out
}
