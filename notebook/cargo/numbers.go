package cargo

import "strconv"

// joined writes lists of numbers as "3 7,,12,": for so many of them JSON's own arrays
// take too long to read.
func joined(lists [][]int) string {
	var out []byte
	for _, list := range lists {
		for i, n := range list {
			if i > 0 {
				out = append(out, ' ')
			}
			out = strconv.AppendInt(out, int64(n), 10)
		}
		out = append(out, ',')
	}
	return string(out)
}

// maxNumber keeps what is read within an int anywhere.
const maxNumber = 1 << 28

// lists reads what joined wrote.
func lists(s string) ([][]int, bool) {
	var out [][]int
	var room []int // the lists lie side by side
	from, n, digits := 0, 0, 0
	for i := 0; i < len(s); i++ {
		switch c := s[i]; {
		case c >= '0' && c <= '9' && n < maxNumber:
			n, digits = n*10+int(c-'0'), digits+1
		case c == ' ' && digits > 0:
			room = append(room, n)
			n, digits = 0, 0
		case c == ',' && (digits > 0 || len(room) == from):
			if digits > 0 {
				room = append(room, n)
			}
			out = append(out, room[from:len(room):len(room)])
			n, digits, from = 0, 0, len(room)
		default:
			return nil, false
		}
	}
	return out, digits == 0 && len(room) == from
}
