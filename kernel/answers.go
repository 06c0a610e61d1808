package kernel

import (
	"context"
	"strconv"
	"unicode/utf8"

	"scarph/calc"
)

// MaxText is the longest text that a request may bring, in bytes.
const MaxText = 1 << 20

// AboutResult answers about.
type AboutResult struct {
	Protocol int           `json:"protocol"`
	Version  string        `json:"version"`
	Title    string        `json:"title"`
	Show     string        `json:"show"`   // feet-inches or metric
	Number   int           `json:"number"` // of the latest ripple
	Entries  []EntryShape  `json:"entries"`
	Methods  []MethodShape `json:"methods"`
}

// EntryShape is an entry of the journal.
type EntryShape struct {
	Number int    `json:"number"`
	Key    string `json:"key"`
	Title  string `json:"title"`
	Date   string `json:"date"`
}

// MethodShape is a request that can be made.
type MethodShape struct {
	Name    string `json:"name"`
	Summary string `json:"summary"`
}

// NoParams are the parameters of a request that takes none.
type NoParams struct{}

func (d *Desk) about(_ context.Context, r Request) (any, *Fault) {
	if f := read(r, &NoParams{}); f != nil {
		return nil, f
	}
	z := AboutResult{Protocol: Protocol, Version: d.options.Version, Title: d.options.Title, Show: "feet-inches", Number: d.log.Last(), Entries: []EntryShape{}}
	if d.s.Style().System == calc.Metric {
		z.Show = "metric"
	}
	for _, e := range d.s.Entries() {
		z.Entries = append(z.Entries, EntryShape{e.Number, e.Key, e.Title, e.Date})
	}
	for _, m := range methods {
		z.Methods = append(z.Methods, MethodShape{m.name, m.summary})
	}
	return z, nil
}

// EvaluateParams are the parameters of evaluate.
type EvaluateParams struct {
	// Text holds statements, one a line; where a bracket is open a statement goes on in
	// the next line.
	Text string `json:"text"`
	// AsOf is a date or the number of an entry; without it, the journal as it stands now.
	AsOf string `json:"as_of"`
	// Fresh is whether to forget the names and numbers of earlier requests first.
	Fresh bool `json:"fresh"`
}

// EvaluateResult answers evaluate.
type EvaluateResult struct {
	Answers []AnswerShape `json:"answers"`
}

// AnswerShape is the answer to one line.
type AnswerShape struct {
	Line int    `json:"line"` // from 1
	Text string `json:"text"`
	Note string `json:"note,omitempty"`
	Kind string `json:"kind"`
	Name string `json:"name,omitempty"`
	// Tries is set when the line tried another number for a value of the journal.
	Tries bool   `json:"tries,omitempty"`
	Holds *bool  `json:"holds,omitempty"` // of a check
	Data  Bundle `json:"data,omitempty"`
	Error *Fault `json:"error,omitempty"`
	// Waits names the values of the journal whose failure the line waits for.
	Waits []string `json:"waits,omitempty"`
}

func (d *Desk) evaluate(ctx context.Context, r Request) (any, *Fault) {
	var p EvaluateParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	if p.Text == "" {
		return nil, wants(r, "a text", `evaluate takes {"text": "beam / 2"}`)
	}
	if f := tooLong(r, p.Text); f != nil {
		return nil, f
	}
	at, err := d.s.OrderOf(p.AsOf)
	if err != nil {
		return nil, faultOf(err, p.AsOf)
	}
	if p.Fresh {
		d.sheet.Clear()
	}
	z := EvaluateResult{Answers: []AnswerShape{}}
	style := d.s.Style()
	for _, a := range d.sheet.Block(ctx, p.Text, at) {
		z.Answers = append(z.Answers, d.answerShape(a, style))
	}
	return z, nil
}

func tooLong(r Request, text string) *Fault {
	if len(text) > MaxText || !utf8.ValidString(text) {
		return &Fault{Code: FaultParameters, Message: "the text of " + r.Method + " is longer than 1 MiB, or no UTF-8"}
	}
	return nil
}

func (d *Desk) answerShape(a Answer, style calc.Style) AnswerShape {
	z := AnswerShape{Line: a.Line, Text: a.Text, Note: a.Note, Kind: a.Kind, Name: a.Name, Tries: a.Tries}
	switch {
	case a.Result.Err != nil:
		z.Error = faultOf(a.Result.Err, a.Source)
	case !a.Result.OK():
		z.Waits = a.Result.Waits
	default:
		text := Worded(a.Result, style)
		if a.Kind == "check" {
			holds := a.Result.Value.True()
			z.Holds = &holds
			text = WordedCheck(holds, a.Left, a.Right, a.Result.Cautions, style)
		}
		z.Data = d.bundle(text, a.Result, style)
	}
	return z
}

// DescribeParams are the parameters of describe.
type DescribeParams struct {
	// Name is the name of a value, of a part of one, of a function, of a unit, or a word
	// that begins a statement.
	Name string `json:"name"`
	// AsOf is a date or the number of an entry.
	AsOf string `json:"as_of"`
}

func (d *Desk) describe(_ context.Context, r Request) (any, *Fault) {
	var p DescribeParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	if p.Name == "" {
		return nil, wants(r, "a name", `describe takes {"name": "beam"}`)
	}
	at, err := d.s.OrderOf(p.AsOf)
	if err != nil {
		return nil, faultOf(err, p.AsOf)
	}
	z, ok := d.s.Describe(p.Name, at, d.sheet)
	if !ok {
		return nil, d.unknown(p.Name)
	}
	return ShapeOfDescription(z, d.s.Style()), nil
}

func (d *Desk) unknown(name string) *Fault {
	f := &Fault{Code: string(calc.CodeUnknownName), Message: "nothing is named " + name, Column: 1}
	if near := d.s.NearestName(name); near != "" {
		f.Hint = "did you mean " + near + "?"
	}
	return f
}

// CompleteParams are the parameters of complete.
type CompleteParams struct {
	// Text is a statement as far as it is written.
	Text string `json:"text"`
	// Cursor counts characters from the beginning of the text; without it, the end
	// of the text is meant.
	Cursor *int `json:"cursor"`
}

// CompleteResult answers complete: a proposal takes the place of the characters from
// Start to End.
type CompleteResult struct {
	Start     int             `json:"start"`
	End       int             `json:"end"`
	Proposals []ProposalShape `json:"proposals"`
	More      bool            `json:"more"` // there were more than are listed
}

// ProposalShape is one thing that could stand there.
type ProposalShape struct {
	Text   string `json:"text"`
	Kind   string `json:"kind"`
	Detail string `json:"detail,omitempty"`
	About  string `json:"about,omitempty"`
	Call   bool   `json:"call,omitempty"` // brackets follow
}

func (d *Desk) complete(_ context.Context, r Request) (any, *Fault) {
	var p CompleteParams
	if f := read(r, &p); f != nil {
		return nil, f
	}
	if f := tooLong(r, p.Text); f != nil {
		return nil, f
	}
	at := len(p.Text)
	if p.Cursor != nil {
		at = offsetOf(p.Text, *p.Cursor)
		if at < 0 {
			return nil, &Fault{Code: FaultParameters, Message: "the cursor lies outside the text", Hint: "it counts characters, from 0 to " + strconv.Itoa(utf8.RuneCountInString(p.Text))}
		}
	}
	c := d.s.Complete(p.Text, at, d.sheet)
	z := CompleteResult{Start: utf8.RuneCountInString(p.Text[:c.Span.Start]), End: utf8.RuneCountInString(p.Text[:c.Span.End]), Proposals: []ProposalShape{}, More: c.More}
	for _, x := range c.Items {
		z.Proposals = append(z.Proposals, ProposalShape{x.Text, x.Kind, x.Detail, x.About, x.Call})
	}
	return z, nil
}

// offsetOf is the byte at which so many characters of a text have passed, −1 for none.
func offsetOf(text string, runes int) int {
	if runes < 0 {
		return -1
	}
	for i := range text {
		if runes == 0 {
			return i
		}
		runes--
	}
	if runes == 0 {
		return len(text)
	}
	return -1
}
