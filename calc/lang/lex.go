package lang

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"scarph/calc"
)

// MaxSource is the longest statement, in bytes; MaxDepth the deepest bracket.
const (
	MaxSource = 4096
	MaxDepth  = 200
)

type tokenKind uint8

const (
	tokLiteral tokenKind = iota // a quantity
	tokText                     // "white oak"
	tokRef                      // a name, perhaps with dots: offsets.chine_half.st_5
	tokFunc                     // a name before an opening bracket
	tokWord                     // a word of the language: and, or, not, to, by, of, in, within, on
	tokSign                     // an operator or bracket
	tokAsOf                     // as of entry 3, as of 2027-02-21
)

type token struct {
	kind  tokenKind
	text  string // source text; of a text token, its content
	span  calc.Span
	lit   *calc.Literal // of a literal
	entry int           // of tokAsOf
	date  string        // of tokAsOf
}

// isWord reports whether s is a word of the language that can stand inside a statement.
func isWord(s string) bool {
	switch s {
	case "and", "or", "not", "to", "by", "of", "in", "within", "on", "at":
		return true
	}
	return false
}

// line is a statement's text cut into tokens.
type line struct {
	src    string
	tokens []token
	note   string // the text after #, trimmed
	end    int    // where the statement ends in src, before the note
	remark []string
	// scratch is set where "it" outside a list is the answer before.
	scratch bool

	terms terms // of the expression that is read
	trees trees
}

// lex cuts a statement into tokens, in the room of the one before.
func (l *line) lex(src string) *calc.Error {
	*l = line{src: src, end: len(src), tokens: l.tokens[:0], terms: l.terms, trees: l.trees}
	if len(src) > MaxSource {
		return calc.Errorf(calc.CodeLimit, "a statement is at most %d bytes long; this one has %d", MaxSource, len(src)).
			At(calc.Span{Start: 0, End: len(src)}).WithHint("give parts of it names of their own")
	}
	depth := 0
	for i := 0; i < len(src); {
		c := src[i]
		if c == ' ' || c == '\t' || c == '\r' {
			i++
			continue
		}
		if c == '#' {
			l.note = strings.TrimSpace(src[i+1:])
			l.end = i
			break
		}
		t, err := l.next(src, i)
		if err != nil {
			return err
		}
		if t.kind == tokSign {
			switch t.text {
			case "(", "[":
				if depth++; depth > MaxDepth {
					return calc.Errorf(calc.CodeLimit, "brackets stand more than %d deep", MaxDepth).At(t.span)
				}
			case ")", "]":
				depth--
			}
		}
		l.tokens = append(l.tokens, t)
		i = t.span.End
	}
	return nil
}

// wantsOperand reports whether an operand may stand next.
func (l *line) wantsOperand() bool {
	if len(l.tokens) == 0 {
		return true
	}
	t := l.tokens[len(l.tokens)-1]
	if len(l.tokens) == 1 && (t.kind == tokRef || t.kind == tokFunc) && isReserved(t.text) {
		return true // work 3.5 h, check "larch" == wood
	}
	switch t.kind {
	case tokSign:
		return t.text != ")" && t.text != "]"
	case tokWord:
		return true
	}
	return false
}

func (l *line) next(src string, i int) (token, *calc.Error) {
	rest := src[i:]
	r, w := utf8.DecodeRuneInString(rest)
	if r == utf8.RuneError && w <= 1 {
		return token{}, calc.Errorf(calc.CodeSyntax, "this byte is no letter of UTF-8").At(calc.Span{Start: i, End: i + 1}).WithHint("save the file as UTF-8")
	}
	if calc.BeginsLiteral(rest) {
		return l.literal(src, i)
	}
	if r == '"' || r == '“' || r == '”' {
		return l.text(src, i, w)
	}
	if r == '_' || unicode.IsLetter(r) {
		return l.word(src, i)
	}
	if s, n := sign(rest); n > 0 {
		return token{kind: tokSign, text: s, span: calc.Span{Start: i, End: i + n}}, nil
	}
	if n := len(l.tokens); (r == '%' || r == '°') && n > 0 && (l.isTo(n-1) || l.isTo(n-2) && l.tokens[n-1].span.End == i) {
		return token{kind: tokSign, text: string(r), span: calc.Span{Start: i, End: i + w}}, nil
	}
	return token{}, signError(r, calc.Span{Start: i, End: i + w})
}

// isTo reports whether token i is the word to.
func (l *line) isTo(i int) bool {
	return i >= 0 && l.tokens[i].kind == tokWord && l.tokens[i].text == "to"
}

// sign reads the sign at the start of s: how the grammar spells it, and its length; "" and
// 0 where there is none.
func sign(s string) (string, int) {
	if s == "" {
		return "", 0
	}
	second := byte(0)
	if len(s) > 1 {
		second = s[1]
	}
	switch s[0] {
	case '+':
		if second == '-' || strings.HasPrefix(s, "+/-") {
			return "", 0
		}
		return s[:1], 1
	case '-', '/', '^', '(', ')', '[', ']', ',', '?', ':':
		return s[:1], 1
	case '*':
		if second == '*' {
			return "^", 2
		}
		return s[:1], 1
	case '=', '!', '<', '>':
		if second == '=' {
			return s[:2], 2
		}
		return s[:1], 1
	case '.':
		if second == '.' {
			return s[:2], 2
		}
		return s[:1], 1
	case '&', '|':
		if second != s[0] {
			return "", 0
		}
		if second == '&' {
			return "and", 2
		}
		return "or", 2
	}
	switch r, n := utf8.DecodeRuneInString(s); r {
	case '≤':
		return "<=", n
	case '≥':
		return ">=", n
	case '≠':
		return "!=", n
	case '×', '·':
		return "*", n
	case '÷':
		return "/", n
	case '−', '–':
		return "-", n
	}
	return "", 0
}

func signError(r rune, at calc.Span) *calc.Error {
	e := calc.Errorf(calc.CodeSyntax, "%q has no meaning here", string(r)).At(at)
	switch r {
	case '±':
		return e.WithHint(`± follows a number, as in 2' 1 3/8" ± 1/16"; for a sum write plus_minus(sum, 1/16")`)
	case '\'', '’', '‘', '′':
		return e.WithHint(`a foot mark follows a number; texts stand between double quotes`)
	case '°':
		return e.WithHint("a degree sign follows a number")
	case '%':
		return e.WithHint("percent follows a number, as in 15 %%")
	case '{', '}':
		return e.WithHint("braces make a slot in running text; inside a calc block use names alone")
	case ';':
		return e.WithHint("write each statement on its own line")
	case '+':
		return e.WithHint(`+/- follows a number, as in 2' 1 3/8" +/- 1/16"; a sum with a minus has spaces, a + -b`)
	case '$', '€', '£', '¥':
		return e.WithHint("money is written with its code of ISO 4217: 42.50 USD")
	}
	return e.WithHint("signs are + − * / ^ ( ) [ ] , < > = ? : and the words and, or, not")
}

func (l *line) literal(src string, i int) (token, *calc.Error) {
	lit, err := calc.ScanLiteral(src[i:])
	if err != nil {
		if err.Code == calc.CodeDecimalComma && l.inList() && !thousands(src[i:]) {
			// [1,2] is a list; only 1,500 stays doubtful
			n := strings.IndexByte(src[i:], ',')
			lit, err = calc.ScanLiteral(src[i : i+n])
		}
		if err != nil {
			err.Span = err.Span.Shift(i)
			return token{}, err
		}
	}
	end := i + lit.Len
	if !l.wantsOperand() {
		return token{}, l.noRoom(lit, src[i:end], calc.Span{Start: i, End: end})
	}
	if r, _ := utf8.DecodeRuneInString(src[end:]); r == '_' || unicode.IsLetter(r) || r == '°' || r == '%' {
		e := calc.UnknownUnit(src[i:], lit.Len)
		e.Span = e.Span.Shift(i)
		return token{}, e
	}
	if lit.Value.D.IsNumber() && lit.Plus == 0 {
		k := end
		for k < len(src) && (src[k] == ' ' || src[k] == '\t') {
			k++
		}
		if w := wordAt(src[k:]); w != "" && !isWord(w) && w != "as" && !l.counts() && !strings.HasPrefix(src[k+len(w):], "(") {
			e := calc.UnknownUnit(src[i:], lit.Len)
			e.Span = e.Span.Shift(i)
			return token{}, e
		}
	}
	if lit.Note != "" {
		l.remark = append(l.remark, lit.Note)
	}
	if over := l.overLength(lit, src[i:end]); over != "" {
		l.remark = append(l.remark, over)
	}
	return token{kind: tokLiteral, text: src[i:end], span: calc.Span{Start: i, End: end}, lit: &lit}, nil
}

// noRoom says why a literal cannot stand behind what stands before it.
func (l *line) noRoom(lit calc.Literal, text string, at calc.Span) *calc.Error {
	prev := l.tokens[len(l.tokens)-1]
	e := noSign(prev.text, text, at)
	if len(l.tokens) == 2 && prev.kind == tokRef && l.tokens[0].text == "made" {
		e = e.WithHint("a colon stands before how many: made %s: %s", prev.text, text)
	}
	if len(l.tokens) == 2 && prev.kind == tokRef && isReadingWord(l.tokens[0].text) {
		e = e.WithHint("a reading wants = after its name: %s %s = %s", l.tokens[0].text, prev.text, text)
	}
	if prev.kind == tokLiteral && prev.lit.Value.D == calc.DimLength && lit.Value.D.IsNumber() && strings.HasSuffix(prev.text, "in") {
		e = e.WithHint("a slope is written %s:%s", strings.TrimSpace(strings.TrimSuffix(prev.text, "in")), text)
	}
	return e
}

// counts reports whether the number read next may be a count with a word behind it:
// settle rib: 20 replaced.
func (l *line) counts() bool {
	return len(l.tokens) == 3 && l.tokens[0].text == "settle" && l.tokens[2].text == ":"
}

func isReadingWord(s string) bool {
	for _, k := range statements {
		if k.word == s {
			return k.kind.IsReading()
		}
	}
	return false
}

// overLength remarks on 1 / 2": a whole number over a whole length with spaces between
// is likely meant for a fraction of an inch or a foot, which is written tight.
func (l *line) overLength(lit calc.Literal, text string) string {
	n := len(l.tokens)
	if n < 2 || l.tokens[n-1].text != "/" || l.tokens[n-2].kind != tokLiteral || lit.System != calc.FeetInches || lit.Value.D != calc.DimLength {
		return ""
	}
	over := l.tokens[n-2]
	if !over.lit.Value.D.IsNumber() || !allDigits(over.text) || !allDigits(strings.TrimRight(text, " \"'′″’”inft")) {
		return ""
	}
	return over.text + " / " + text + " is " + over.text + " divided by " + text + "; a fraction is written tight: " + over.text + "/" + text
}

func allDigits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

func (l *line) inList() bool {
	depth := 0
	for _, t := range l.tokens {
		if t.kind == tokSign && (t.text == "(" || t.text == "[") {
			depth++
		} else if t.kind == tokSign && (t.text == ")" || t.text == "]") {
			depth--
		}
	}
	return depth > 0
}

// thousands reports whether s begins like 1,500: one to three digits, a comma, three digits.
func thousands(s string) bool {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	m := n + 1
	for m < len(s) && s[m] >= '0' && s[m] <= '9' {
		m++
	}
	return n >= 1 && n <= 3 && m-n-1 == 3
}

func noSign(a, b string, at calc.Span) *calc.Error {
	e := calc.Errorf(calc.CodeSyntax, "there is no sign between %s and %s", a, b).At(at)
	switch last := a[strings.LastIndexByte(a, ' ')+1:]; {
	case b == "[":
		return e.WithHint("the second element of a list is at(%s, 2)", a)
	case a == "x" || a == "X" || a == "×":
		return e.WithHint(`the sizes of a part are written 1" by 2" by 3'; * multiplies`)
	case last == "deg" || strings.HasSuffix(a, "°"):
		return e.WithHint("degrees and minutes are written 15° 30'")
	case last == "h" || strings.HasSuffix(a, "h") && a[0] >= '0' && a[0] <= '9':
		return e.WithHint("hours and minutes are written 3 h 30 min")
	}
	return e.WithHint("write a sign between them; names of several words are joined_by_underscores")
}

func (l *line) text(src string, i, w int) (token, *calc.Error) {
	if !l.wantsOperand() {
		return token{}, calc.Errorf(calc.CodeSyntax, "an inch mark follows a number; a text cannot stand here").
			At(calc.Span{Start: i, End: i + w}).WithHint("a sign or a comma goes before a text")
	}
	for j := i + w; j < len(src); {
		r, rw := utf8.DecodeRuneInString(src[j:])
		if r == '"' || r == '”' || r == '“' {
			return token{kind: tokText, text: src[i+w : j], span: calc.Span{Start: i, End: j + rw}}, nil
		}
		j += rw
	}
	return token{}, calc.Errorf(calc.CodeSyntax, "the text has no closing quote").
		At(calc.Span{Start: i, End: len(src)}).WithHint(`a text stands between double quotes: "white oak"`)
}

// wordAt returns the word at the start of s: a letter or _, then letters, digits, _.
func wordAt(s string) string {
	n := 0
	for n < len(s) {
		r, w := utf8.DecodeRuneInString(s[n:])
		if !(r == '_' || unicode.IsLetter(r) || n > 0 && unicode.IsDigit(r)) || r == utf8.RuneError {
			break
		}
		n += w
	}
	return s[:n]
}

func (l *line) word(src string, i int) (token, *calc.Error) {
	w := wordAt(src[i:])
	end := i + len(w)
	if w == "as" && strings.HasPrefix(src[end:], " of ") {
		return l.asOf(src, i)
	}
	if isWord(w) && !strings.HasPrefix(src[end:], ".") && !strings.HasPrefix(src[end:], "(") || w == "and" || w == "or" || w == "not" {
		return token{kind: tokWord, text: w, span: calc.Span{Start: i, End: end}}, nil
	}
	for strings.HasPrefix(src[end:], ".") {
		next := wordAt(src[end+1:])
		if next == "" {
			break
		}
		end += 1 + len(next)
	}
	kind := tokRef
	if strings.HasPrefix(src[end:], "(") {
		kind = tokFunc
	}
	return token{kind: kind, text: src[i:end], span: calc.Span{Start: i, End: end}}, nil
}

// asOf reads "as of entry 3" or "as of 2027-02-21" after a name.
func (l *line) asOf(src string, i int) (token, *calc.Error) {
	k := i + len("as of ")
	t := token{kind: tokAsOf}
	rest := src[k:]
	n := 0
	if r, ok := strings.CutPrefix(rest, "entry "); ok {
		for n < len(r) && r[n] >= '0' && r[n] <= '9' && n < 6 {
			t.entry = t.entry*10 + int(r[n]-'0')
			n++
		}
		n += len("entry ")
	} else if IsDate(rest) {
		t.date, n = rest[:10], 10
	}
	t.span = calc.Span{Start: i, End: k + n}
	if t.entry == 0 && t.date == "" {
		return t, calc.Errorf(calc.CodeDate, "as of wants an entry or a date").At(calc.Span{Start: i, End: len(src)}).
			WithHint("write beam as of entry 3, or beam as of 2027-02-21")
	}
	if len(l.tokens) == 0 || l.tokens[len(l.tokens)-1].kind != tokRef {
		return t, calc.Errorf(calc.CodeSyntax, "as of follows a name").At(t.span)
	}
	t.text = src[i:t.span.End]
	return t, nil
}

// IsDate reports whether s begins with an ISO 8601 calendar date, 2027-02-21.
func IsDate(s string) bool {
	if len(s) < 10 || s[4] != '-' || s[7] != '-' {
		return false
	}
	for i := 0; i < 10; i++ {
		if i != 4 && i != 7 && (s[i] < '0' || s[i] > '9') {
			return false
		}
	}
	if len(s) > 10 && s[10] >= '0' && s[10] <= '9' {
		return false
	}
	month := int(s[5]-'0')*10 + int(s[6]-'0')
	day := int(s[8]-'0')*10 + int(s[9]-'0')
	year := int(s[0]-'0')*1000 + int(s[1]-'0')*100 + int(s[2]-'0')*10 + int(s[3]-'0')
	return month >= 1 && month <= 12 && day >= 1 && day <= daysIn(year, month)
}

func daysIn(year, month int) int {
	switch month {
	case 4, 6, 9, 11:
		return 30
	case 2:
		if year%4 == 0 && (year%100 != 0 || year%400 == 0) {
			return 29
		}
		return 28
	}
	return 31
}

// span covers tokens i to j, j excluded.
func (l *line) span(i, j int) calc.Span {
	if i >= j || i >= len(l.tokens) {
		at := l.end
		if i < len(l.tokens) {
			at = l.tokens[i].span.Start
		} else if n := len(l.tokens); n > 0 {
			at = l.tokens[n-1].span.End
		}
		return calc.Span{Start: at, End: at + 1}
	}
	return calc.Span{Start: l.tokens[i].span.Start, End: l.tokens[j-1].span.End}
}

// find returns the first token in [i, j) at bracket depth 0 that is the given
// sign or word, or −1.
func (l *line) find(i, j int, kind tokenKind, text string) int {
	depth := 0
	for k := i; k < j; k++ {
		t := &l.tokens[k]
		if t.kind == tokSign {
			switch t.text {
			case "(", "[":
				depth++
			case ")", "]":
				depth--
			}
		}
		if depth == 0 && t.kind == kind && t.text == text {
			return k
		}
	}
	return -1
}

// findLast is find from the end.
func (l *line) findLast(i, j int, kind tokenKind, text string) int {
	last := -1
	for k := i; k < j; k++ {
		n := l.find(k, j, kind, text)
		if n < 0 {
			break
		}
		last, k = n, n
	}
	return last
}
