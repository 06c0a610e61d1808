package live

import "strings"

// join brings two texts together that both began as base: what only one of them
// changed is taken from it. clean is false where both changed the same lines; those
// lines are then taken from mine, for a person to look at.
func join(base, mine, theirs string) (joined string, clean bool) {
	o, a, b := strings.SplitAfter(base, "\n"), strings.SplitAfter(mine, "\n"), strings.SplitAfter(theirs, "\n")
	inA, inB := places(o, a), places(o, b)
	var out strings.Builder
	clean = true
	i, j, k := 0, 0, 0 // in base, mine, theirs
	for i <= len(o) {
		// the next line of base that stands in both
		n := i
		for n < len(o) && (inA[n] < 0 || inB[n] < 0) {
			n++
		}
		ja, kb := len(a), len(b)
		if n < len(o) {
			ja, kb = inA[n], inB[n]
		}
		x, y, z := strings.Join(o[i:n], ""), strings.Join(a[j:ja], ""), strings.Join(b[k:kb], "")
		switch {
		case y == z, z == x:
			out.WriteString(y)
		case y == x:
			out.WriteString(z)
		default:
			out.WriteString(y)
			clean = false
		}
		if n < len(o) {
			out.WriteString(o[n])
		}
		i, j, k = n+1, ja+1, kb+1
	}
	return out.String(), clean
}

// places gives for each line of base where it stands in a text, -1 for nowhere.
func places(base, text []string) []int {
	list := make([]int, len(base))
	for i := range list {
		list[i] = -1
	}
	for i, k := range matching(base, text) {
		if k >= 0 {
			list[k] = i
		}
	}
	return list
}

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
