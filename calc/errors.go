package calc

// Span is a half-open range of byte offsets in the text that was handed over.
type Span struct{ Start, End int }

// Shift moves a span by n bytes, as when a part of a text becomes the whole.
func (s Span) Shift(n int) Span { return Span{s.Start + n, s.End + n} }

// Code names what is wrong. Programs branch on it; the wording may change.
type Code string

// The codes of this package and of the language above it.
const (
	CodeDimension    Code = "dimension"     // two dimensions that do not go together
	CodeBareNumber   Code = "bare-number"   // a number without a unit where a unit is wanted
	CodeKind         Code = "kind"          // a text where a quantity is wanted, and so on
	CodeShape        Code = "shape"         // lists of different length
	CodeDomain       Code = "domain"        // outside what the rule or the geometry allows
	CodeZero         Code = "zero"          // a division by nothing
	CodeMissing      Code = "missing"       // an empty cell was used
	CodeUnknownUnit  Code = "unknown-unit"  // a word after a number that is no unit
	CodeInchMark     Code = "inch-mark"     // feet and a number with no inch mark
	CodeDecimalComma Code = "decimal-comma" // 1,5 or 1,500
	CodeOffsetDash   Code = "offset-dash"   // 1-10-5 outside a table of offsets
	CodeNumber       Code = "number"        // digits that make no number
	CodeOffset       Code = "offset"        // an offset that no rule shows
	CodeCurrency     Code = "currency"      // two currencies
	CodeTemperature  Code = "temperature"   // readings added, multiplied
	CodeLimit        Code = "limit"         // too long, too deep, too much work
	CodeSyntax       Code = "syntax"        // a line that makes no statement
	CodeName         Code = "name"          // a name that cannot be a name
	CodeUnknownName  Code = "unknown-name"  // nothing bears this name
	CodeUnknownFunc  Code = "unknown-func"  // no such function
	CodeArguments    Code = "arguments"     // too few, too many
	CodeUnknownItem  Code = "unknown-item"  // a table has no such row, a record no such field
	CodeTwice        Code = "twice"         // a bare second naming
	CodeNoReading    Code = "no-reading"    // revise of nothing, drawn(x) of what was never drawn
	CodeCircle       Code = "circle"        // values that wait for each other
	CodeWaits        Code = "waits"         // hangs on something that failed
	CodePlusMinus    Code = "plus-minus"    // a ± that cannot be
	CodePart         Code = "part"          // part, made and settle that do not fit
	CodeTable        Code = "table"         // a data table that cannot be read
	CodeSetting      Code = "setting"       // front matter
	CodeDate         Code = "date"          // a date that is not ISO
	CodeSlot         Code = "slot"          // a slot that cannot be read
	CodeInterrupted  Code = "interrupted"   // the evaluation was stopped
	CodeFile         Code = "file"          // a file that cannot be read
	CodePublish      Code = "publish"       // something a published page must not have
)

// Error is a refusal: what was got, what was wanted, and the next step to take.
// Span points into the text that was handed over; it is empty when the caller
// knows the place better.
type Error struct {
	Code    Code
	Message string
	Hint    string
	Span    Span
	// Near is a word that nothing bears; who knows all names at the time of asking
	// may add the most similar one to the hint. Parts asks for names of parts only.
	Near  string
	Parts bool
}

func (e *Error) Error() string {
	if e.Hint == "" {
		return e.Message
	}
	return e.Message + " (" + e.Hint + ")"
}

// Errorf makes an Error without a place.
func Errorf(code Code, format string, args ...any) *Error {
	return &Error{Code: code, Message: Sentence(format, args...)}
}

// WithHint returns e with the next step to take.
func (e *Error) WithHint(format string, args ...any) *Error {
	e.Hint = Sentence(format, args...)
	return e
}

// At returns e with its place, unless it has one.
func (e *Error) At(s Span) *Error {
	if e.Span == (Span{}) {
		e.Span = s
	}
	return e
}
