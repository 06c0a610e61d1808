package calc

import (
	"math"
	"strconv"
	"strings"
)

// AngleStyle is how angles are shown.
type AngleStyle uint8

// Degrees with decimals, degrees and minutes, or so much rise in a foot.
const (
	DecimalDegrees AngleStyle = iota
	DegreesMinutes
	RisePerFoot
)

// Style is how a journal shows its quantities. The zero Style shows feet and
// inches to the nearest sixteenth, degrees with decimals, ± as likely.
type Style struct {
	System  System  // FeetInches (the zero, Both, too) or Metric
	Nearest float64 // the tape mark of lengths in metres; 0 for 1/16 in or 0.1 mm
	Angle   AngleStyle
	Worst   bool // ± as the straight sum
}

// Display is a wish how one value is shown: in a unit, to a mark.
type Display struct {
	Unit   string  // the symbol as written: mm, lb, bd ft; "" for the style's choice
	Factor float64 // size of the unit in SI; 0 when there is none
	Zero   float64
	D      Dimension
	Step   float64 // nearest mark in SI; 0 for decimals
	System System
	Offset bool // feet-inches-eighths
}

// Other returns the style of the other family, for the echo beside a value.
func (s Style) Other() Style {
	o := Style{Angle: s.Angle, Worst: s.Worst, System: Metric}
	if s.System == Metric {
		o.System = FeetInches
	}
	return o
}

// ScanDisplay reads what stands after "to": a unit (mm, lb/ft^3), a tape mark
// (1/16", 0.5 mm), a part of a degree (1/4°), or "offsets" for feet-inches-eighths.
func ScanDisplay(s string) (*Display, *Error) {
	t := strings.TrimSpace(s)
	if t == "offset" || t == "offsets" {
		return &Display{D: DimLength, Offset: true, System: FeetInches}, nil
	}
	if BeginsLiteral(t) {
		l, err := ParseLiteral(t)
		if err != nil {
			return nil, err
		}
		if l.Value.V-l.Zero <= 0 || l.Value.D.IsNumber() && !strings.HasSuffix(t, "%") {
			return nil, Errorf(CodeBareNumber, "%s is no mark to show a value to", t).At(Span{0, len(s)}).
				WithHint(`write to 1/16", to 0.5 mm, to 1/4°, or a unit: to mm`)
		}
		d := &Display{D: l.Value.D, Step: l.Value.V - l.Zero, System: l.System}
		if l.System != FeetInches || l.Value.D != DimLength || !onRule(d.Step) {
			if l.System == FeetInches && strings.Contains(t, "/") {
				return nil, Errorf(CodeBareNumber, "%s is no mark of a rule", t).At(Span{0, len(s)}).
					WithHint(`write to 1/16", or to 0.01 in for decimals`)
			}
			for k := range t {
				if u, n := lengthMark(t[k:]); n == len(t)-k && n > 0 {
					d.Unit, d.Factor = u.Symbol, u.Factor
					break
				}
				if c, n, _ := scanUnit(t[k:]); n == len(t)-k && n > 0 {
					d.Unit, d.Factor, d.Zero = c.symbol, c.factor, c.zero
					break
				}
			}
		}
		return d, nil
	}
	c, n, err := scanUnit(t)
	if err != nil {
		return nil, err
	}
	if u, w := lengthMark(t); w == len(t) && w > 0 {
		return &Display{Unit: u.Symbol, Factor: u.Factor, D: u.D, System: u.System}, nil
	}
	if n == 0 || n < len(t) {
		w := unitWord(t)
		e := Errorf(CodeUnknownUnit, "%s is no unit to show a value in", clip(t)).At(Span{0, len(s)})
		if near := Nearest(w, UnitWords()); near != "" {
			return nil, e.WithHint("did you mean %s?", near)
		}
		return nil, e.WithHint(`write to mm, to lb, to 1/16", to 1/4°`)
	}
	return &Display{Unit: c.symbol, Factor: c.factor, Zero: c.zero, D: c.d, System: c.system}, nil
}

// InUnit returns the wish to be shown in the unit with the given name; it panics
// on a name that is not in the table, for the name is a constant of the program.
func InUnit(name string) *Display {
	c, n, err := scanUnit(name)
	if err != nil || n != len(name) {
		panic("calc: no unit " + name)
	}
	return &Display{Unit: c.symbol, Factor: c.factor, Zero: c.zero, D: c.d, System: c.system}
}

// Text writes a value as a person reads it, in the style s.
func (s Style) Text(x Value) string {
	switch x.Kind() {
	case Text:
		return x.Text()
	case Truth:
		if x.V != 0 {
			return "yes"
		}
		return "no"
	case Missing:
		return "—"
	case List:
		parts := make([]string, len(x.Items()))
		for i, it := range x.Items() {
			parts[i] = s.Text(it)
			if it.Kind() == List {
				parts[i] = "[" + parts[i] + "]"
			}
		}
		return strings.Join(parts, ", ")
	case Record:
		parts := make([]string, len(x.Items()))
		for i, it := range x.Items() {
			parts[i] = Words(x.X.Labels[i]) + " " + s.Text(it)
		}
		return strings.Join(parts, "; ")
	case Picture:
		if x.X.Drawing != nil {
			return x.X.Drawing.Describe(s)
		}
		return "a drawing"
	}
	u := x.Likely()
	if s.Worst {
		u = x.Worst()
	}
	var d *Display
	if x.X != nil && x.X.Show != nil && (x.X.Show.D == x.D || x.X.Show.D == DimAngle && x.D == DimAngle) {
		d = x.X.Show
	}
	return s.quantity(x.V, x.D, u, d)
}

// Echo writes a quantity in the other family, or "" when that would say the same.
func (s Style) Echo(x Value) string {
	if !x.IsQuantity() {
		return ""
	}
	text := s.Text(x)
	o := s.Other()
	if x.X != nil && x.X.Show != nil && x.X.Show.System == o.System {
		o = s // shown in the other family already: echo in the journal's own
	}
	if x.D == DimAngle {
		if s.Angle == RisePerFoot {
			o.Angle = DecimalDegrees
		} else {
			return riseText(x.V)
		}
	}
	e := o.quantity(x.V, x.D, 0, nil)
	if e == text || x.D.IsNumber() {
		return ""
	}
	return e
}

// Words turns a name into words: chine_half.st_5 is "chine half, st 5". A column that
// is headed by a number or a day is named _4 or _2027_01_09; its words are 4 and 2027-01-09.
func Words(name string) string {
	if !strings.HasPrefix(name, "_") && !strings.Contains(name, "._") {
		return strings.ReplaceAll(strings.ReplaceAll(name, ".", ", "), "_", " ")
	}
	parts := strings.Split(name, ".")
	for i, p := range parts {
		if p = strings.TrimPrefix(p, "_"); isDay(p) {
			p = strings.ReplaceAll(p, "_", "-")
		}
		parts[i] = strings.ReplaceAll(p, "_", " ")
	}
	return strings.Join(parts, ", ")
}

// isDay reports whether a name is that of a day: 2027_01_09.
func isDay(name string) bool {
	if len(name) != 10 {
		return false
	}
	for i := range name {
		if stroke := i == 4 || i == 7; stroke != (name[i] == '_') || !stroke && (name[i] < '0' || name[i] > '9') {
			return false
		}
	}
	return true
}

func (s Style) quantity(v float64, d Dimension, u float64, show *Display) string {
	if math.IsNaN(v) {
		return "no number"
	}
	if show != nil {
		return s.inDisplay(v, d, u, show)
	}
	switch {
	case d == DimLength:
		return s.length(v, u)
	case d == DimAngle:
		return s.angle(v, u)
	case d.IsNumber():
		return withSpread(formatSig(v, u, 5), u, "")
	case d.IsMoney():
		return money(v, u, d)
	}
	if f := s.family(d, v); f != nil {
		return withSpread(formatSig(onScale(v, f.Zero, f.Factor), u/f.Factor, 4), u/f.Factor, unitTail(f.Symbol))
	}
	sym, factor := s.product(d)
	return withSpread(formatSig(v/factor, u/factor, 4), u/factor, unitTail(sym))
}

// onScale is a value in a unit whose scale begins at zero in SI. On a scale of its own
// (32 °F is 0 °C) what the subtraction leaves behind the ninth decimal is dropped.
func onScale(v, zero, factor float64) float64 {
	n := (v - zero) / factor
	if zero != 0 {
		n = math.Round(n*1e9) / 1e9
	}
	return n
}

func unitTail(symbol string) string {
	if symbol == "" || symbol == "%" || symbol == "°" {
		return symbol
	}
	return " " + symbol
}

func withSpread(v string, u float64, tail string) string {
	if u == 0 {
		return v + tail
	}
	return v + " ± " + trimZeros(formatU(u)) + tail
}

// formatU writes a ± with two significant figures.
func formatU(u float64) string { return formatNumber(u, 2) }

// formatSig writes a number with so many significant figures, or with the
// decimals that its ± deserves.
func formatSig(v, u float64, sig int) string {
	if u <= 0 {
		return formatNumber(v, sig)
	}
	return trimFixed(v, decimalsFor(u))
}

func decimalsFor(u float64) int {
	d := 1 - int(math.Floor(math.Log10(u)))
	return max(0, min(d, 9))
}

func trimFixed(v float64, decimals int) string {
	return minus(trimZeros(fixed(v, decimals)))
}

// fixed writes v with so many decimals.
func fixed(v float64, decimals int) string {
	if p := math.Pow10(decimals); math.Abs(v)*p < 1e15 {
		v = nearest(v*p) / p
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// nearest rounds to a whole number, halves away from zero, as it is done at the bench.
// What is a billionth short of a half is one: 18 1/4 in is 463.55 mm, which no float
// holds, and a quarter of an inch always ends so.
func nearest(x float64) float64 {
	return math.Copysign(math.Floor(math.Abs(x)*(1+1e-12)+0.5), x)
}

func trimZeros(s string) string {
	if strings.ContainsAny(s, "e") || !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// minus writes the true minus sign and no negative zero.
func minus(s string) string {
	if r, ok := strings.CutPrefix(s, "-"); ok {
		if strings.Trim(r, "0.") == "" {
			return r
		}
		return "−" + r
	}
	return s
}

// formatNumber writes v with sig significant figures and no trailing zeros;
// whole numbers up to a million million are written in full.
func formatNumber(v float64, sig int) string {
	if v == math.Trunc(v) && math.Abs(v) < 1e12 {
		return minus(strconv.FormatFloat(v, 'f', 0, 64))
	}
	a := math.Abs(v)
	if a >= 1e12 || a < 1e-6 {
		return minus(strconv.FormatFloat(v, 'g', sig, 64))
	}
	decimals := max(0, sig-1-int(math.Floor(math.Log10(a))))
	return trimFixed(v, decimals)
}

func money(v, u float64, d Dimension) string {
	digits := currencies[d.Exponents().Currency].digits
	text := minus(fixed(v, digits))
	if u > 0 {
		text += " ± " + fixed(u, digits)
	}
	return text + " " + d.CurrencyCode()
}

// length writes a length in the style's family.
func (s Style) length(v, u float64) string {
	if s.System == Metric {
		step := s.Nearest
		if step == 0 {
			step = 0.0001
		}
		dec := 0
		for p := step * 1000; dec < 4 && math.Abs(p-math.Round(p)) > 1e-9; p *= 10 {
			dec++
		}
		if u > 0 {
			return withSpread(trimFixed(v*1000, min(decimalsFor(u*1000), 4)), u*1000, " mm")
		}
		if step < 1e-3 || v == 0 {
			step = math.Pow(10, -float64(dec)-3)
		}
		return trimFixed(nearest(v/step)*step*1000, dec) + " mm"
	}
	mark := s.Nearest
	if mark == 0 {
		mark = inch / 16
	}
	return FormatFeetInches(v, mark) + s.lengthSpread(u)
}

// onRule reports whether a mark (in metres) is a whole inch or more, or a half, a
// quarter, an eighth and so on of one: any other part of an inch is written in decimals.
func onRule(mark float64) bool {
	den := math.Round(inch / mark)
	if den < 1 {
		return true
	}
	return math.Abs(inch/mark-den) < 1e-6 && int64(den)&(int64(den)-1) == 0
}

func (s Style) lengthSpread(u float64) string {
	if u == 0 {
		return ""
	}
	in := u / inch
	if n := math.Round(in * 64); n >= 1 && math.Abs(in*64-n) < 1e-6 {
		return " ± " + feetInches(u, 64)
	}
	return " ± " + formatNumber(in, 2) + "\""
}

// nothing is less than a gauge of the shop tells, half a thousandth of an inch.
const nothing = inch / 2000

// FormatFeetInches writes a length of v metres in feet, inches and a fraction to
// the nearest mark (in metres), halves away from zero, and says "strong" or "shy" when at
// least a fifth of a mark is left over: 7 7/16" shy is a little less than 7 7/16".
func FormatFeetInches(v, mark float64) string {
	perInch := inch / mark
	den := math.Round(perInch)
	if den < 1 || math.Abs(perInch-den) > 1e-6 { // a mark that is no part of an inch
		return trimFixed(nearest(v/mark)*mark/inch, 4) + "\""
	}
	units := nearest(math.Abs(v) / mark)
	text := feetInches(units*mark, int64(den))
	if v < 0 && units > 0 {
		text = "−" + text
	}
	left := math.Abs(v) - units*mark
	switch {
	case units == 0 && math.Abs(v) > nothing: // nothing on the rule: say the decimal
		return minus(formatNumber(v/inch, 2)) + "\""
	case math.Abs(left) < mark/5:
		return text
	case left > 0:
		return text + " strong"
	default:
		return text + " shy"
	}
}

// feetInches writes a length that is a whole number of 1/den inches. Between feet and a
// fraction the nought is written, for 4' 1/2" is read as four inches and a half.
func feetInches(v float64, den int64) string {
	n := int64(math.Round(v / inch * float64(den)))
	ft := n / (12 * den)
	n -= ft * 12 * den
	in, num := n/den, n%den
	for num > 0 && num%2 == 0 && den%2 == 0 {
		num, den = num/2, den/2
	}
	var b strings.Builder
	if ft > 0 {
		b.WriteString(strconv.FormatInt(ft, 10) + "'")
		if in == 0 && num == 0 {
			return b.String()
		}
		b.WriteByte(' ')
	}
	if in > 0 || ft > 0 || num == 0 {
		b.WriteString(strconv.FormatInt(in, 10))
		if num > 0 {
			b.WriteByte(' ')
		}
	}
	if num > 0 {
		b.WriteString(strconv.FormatInt(num, 10) + "/" + strconv.FormatInt(den, 10))
	}
	return b.String() + "\""
}

// Gap writes by how much lengths differ, without its sign: on the coarsest mark of a rule
// that says it, from the style's own to 1/64", else in decimals; 1.619 in is 1 5/8".
func (s Style) Gap(v float64) string {
	v = math.Abs(v)
	if s.System == Metric {
		return s.Text(Length(v))
	}
	mark := s.Nearest
	if mark == 0 || !onRule(mark) {
		mark = inch / 16
	}
	for ; mark > inch/65; mark /= 2 {
		if n := nearest(v / mark); n > 0 && math.Abs(v-n*mark) < mark/5 {
			return FormatFeetInches(n*mark, mark)
		}
	}
	return trimFixed(v/inch, 3) + " in"
}

// asFraction writes a number that is a whole number of 64ths, and none of ones, as on a
// rule: 7/16, 1 3/8. It is "" for others.
func asFraction(v float64) string {
	n := v * 64
	if n != math.Trunc(n) || v == math.Trunc(v) || math.Abs(n) >= 64*12 {
		return ""
	}
	return strings.TrimSuffix(feetInches(v*inch, 64), "\"")
}

func (s Style) angle(v, u float64) string {
	deg := v * 180 / math.Pi
	switch s.Angle {
	case DegreesMinutes:
		t := degreesMinutes(deg)
		if u > 0 {
			return t + " ± " + formatNumber(u*10800/math.Pi, 2) + "'"
		}
		return t
	case RisePerFoot:
		if math.Abs(deg) < 85 {
			return riseText(v)
		}
	}
	if u > 0 {
		ud := u * 180 / math.Pi
		return withSpread(trimFixed(deg, min(decimalsFor(ud), 4)), ud, "°")
	}
	dec := 1
	if a := math.Abs(deg); a < 10 && a > 0 {
		dec = min(6, 2-int(math.Floor(math.Log10(a))))
	}
	return trimFixed(deg, dec) + "°"
}

func degreesMinutes(deg float64) string {
	m := int64(nearest(math.Abs(deg) * 60))
	t := strconv.FormatInt(m/60, 10) + "°"
	if m%60 != 0 {
		t += " " + strconv.FormatInt(m%60, 10) + "'"
	}
	if deg < 0 && m > 0 {
		t = "−" + t
	}
	return t
}

// riseText says an angle as so much in a foot.
func riseText(v float64) string {
	if math.Abs(math.Cos(v)) < 0.087 {
		return ""
	}
	return FormatFeetInches(12*inch*math.Tan(v), inch/16) + " in 12\""
}

// inDisplay writes a value the way it asks for.
func (s Style) inDisplay(v float64, d Dimension, u float64, w *Display) string {
	if w.Offset {
		return FormatOffset(v)
	}
	if w.Step > 0 {
		if d == DimLength && w.System == FeetInches && onRule(w.Step) {
			return FormatFeetInches(v, w.Step) + s.lengthSpread(u)
		}
		f := w.Factor
		if f == 0 {
			f = 1
		}
		if d == DimAngle {
			return stepped(v/f, w.Step/f, w.Unit)
		}
		step := w.Step / f
		dec := 0
		for p := step; dec < 6 && math.Abs(p-math.Round(p)) > 1e-9; p *= 10 {
			dec++
		}
		return withSpread(trimFixed(nearest((v-w.Zero)/f/step)*step, dec), u/f, unitTail(w.Unit))
	}
	n := onScale(v, w.Zero, w.Factor)
	if w.Unit == "in" {
		return withSpread(formatSig(n, u/w.Factor, 6), u/w.Factor, " in")
	}
	if w.D.IsMoney() {
		return money(v, u, d)
	}
	return withSpread(formatSig(n, u/w.Factor, 5), u/w.Factor, unitTail(w.Unit))
}

// stepped writes an angle to a fraction of a degree: 15 3/4°.
func stepped(v, step float64, unit string) string {
	den := math.Round(1 / step)
	n := nearest(math.Abs(v) / step)
	if unit != "°" || den < 1 || math.Abs(1/step-den) > 1e-6 || int64(den)&(int64(den)-1) != 0 { // halves, quarters, eighths as fractions
		return trimFixed(nearest(v/step)*step, 4) + unitTail(unit)
	}
	whole := int64(n / den)
	num := int64(n) - whole*int64(den)
	t := ""
	if whole > 0 || num == 0 {
		t = strconv.FormatInt(whole, 10)
	}
	if num > 0 {
		g := gcd(num, int64(den))
		if t != "" {
			t += " "
		}
		t += strconv.FormatInt(num/g, 10) + "/" + strconv.FormatInt(int64(den)/g, 10)
	}
	if v < 0 && n > 0 {
		t = "−" + t
	}
	return t + "°"
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
