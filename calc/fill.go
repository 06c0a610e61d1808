package calc

import "strconv"

// fill is what Sentence is in the browser build, where the formatting of the standard
// library would weigh a tenth of the whole: %s, %d, %q, %g, %c, %v and %%, without
// widths or flags.
func fill(format string, args []any) string {
	var b []byte
	next := 0
	for i := 0; i < len(format); i++ {
		if format[i] != '%' || i+1 == len(format) {
			b = append(b, format[i])
			continue
		}
		i++
		if format[i] == '%' {
			b = append(b, '%')
			continue
		}
		if next == len(args) {
			b = append(b, "…"...)
			continue
		}
		b = appendArg(b, format[i], args[next])
		next++
	}
	return string(b)
}

func appendArg(b []byte, verb byte, arg any) []byte {
	switch x := arg.(type) {
	case string:
		if verb == 'q' {
			return strconv.AppendQuote(b, x)
		}
		return append(b, x...)
	case error:
		return append(b, x.Error()...)
	case interface{ String() string }:
		return append(b, x.String()...)
	case Code:
		return append(b, x...)
	case rune:
		if verb == 'c' {
			return append(b, string(x)...)
		}
		return strconv.AppendInt(b, int64(x), 10)
	case byte:
		if verb == 'c' {
			return append(b, x)
		}
		return strconv.AppendUint(b, uint64(x), 10)
	case int:
		return strconv.AppendInt(b, int64(x), 10)
	case int64:
		return strconv.AppendInt(b, x, 10)
	case float64:
		return strconv.AppendFloat(b, x, 'g', -1, 64)
	case bool:
		return strconv.AppendBool(b, x)
	}
	return append(b, "…"...)
}
