package kernel

import (
	"strings"

	"context"

	"scarph/calc"
)

// This file and its neighbours hold the messages that other programs exchange with
// the kernel. They are plain structs: how they travel, and how a text becomes one, is the
// carrier's business. The tags name the fields where the carrier speaks JSON.

// Protocol is the version of the messages; it goes up when a message changes its
// meaning or loses a field.
const Protocol = 1

// Request is a message to the kernel.
type Request struct {
	ID     string // by which interrupt may name it; "" when it cannot be named
	Method string
	// Decode fills a struct from the request's parameters, refusing fields that it
	// has not.
	Decode func(into any) error
}

// Codes of faults that are no errors of the calc language.
const (
	FaultMethod      = "unknown-method"
	FaultParameters  = "parameters"
	FaultInterrupted = "interrupted"
	FaultGone        = "gone"   // what was asked for is no longer kept
	FaultClosed      = "closed" // the kernel has been shut down
	FaultBusy        = "busy"   // too many requests wait
)

// method is a row of the table of requests.
type method struct {
	name, summary string
	// urgent requests are answered at once, ahead of those that wait.
	urgent bool
	serve  func(d *Desk, ctx context.Context, r Request) (any, *Fault)
}

// methods is the one table of requests; it is filled once, before main, since some
// of its rows tell of the table.
var methods []method

func init() {
	methods = []method{
		{"about", "what journal this is, and what can be asked", false, (*Desk).about},
		{"evaluate", "work out lines in the journal's scope", false, (*Desk).evaluate},
		{"describe", "all that is known of a name or a word", false, (*Desk).describe},
		{"complete", "what could stand at a place of a line", false, (*Desk).complete},
		{"what_if", "what would move if values were others", false, (*Desk).whatIf},
		{"ripple", "what has moved since a ripple", false, (*Desk).ripple},
		{"history", "the readings of a value, or of all that have had more than one", false, (*Desk).history},
		{"dimensions", "all named values", false, (*Desk).dimensions},
		{"subscribe", "be told of every ripple", false, (*Desk).subscribe},
		{"unsubscribe", "be told no more", false, (*Desk).unsubscribe},
		{"interrupt", "stop requests that run or wait", true, (*Desk).interrupt},
		{"shutdown", "answer what waits, then end", false, (*Desk).shutdown},
	}
}

// MethodNames lists the requests.
func MethodNames() []string {
	names := make([]string, len(methods))
	for i, m := range methods {
		names[i] = m.name
	}
	return names
}

func findMethod(name string) *method {
	for i := range methods {
		if methods[i].name == name {
			return &methods[i]
		}
	}
	return nil
}

// read fills the parameters of a request.
func read(r Request, into any) *Fault {
	if err := r.Decode(into); err != nil {
		return &Fault{Code: FaultParameters, Message: "the parameters of " + r.Method + " cannot be read: " + err.Error()}
	}
	return nil
}

// wants is the fault of a parameter that is missing.
func wants(r Request, param, example string) *Fault {
	return &Fault{Code: FaultParameters, Message: r.Method + " wants " + param, Hint: example}
}

func faultOf(err *calc.Error, text string) *Fault {
	f := FaultOf(err, text)
	return &f
}

// MIME types of a bundle.
const (
	MIMEText = "text/plain"
	MIMEHTML = "text/html"
	MIMESVG  = "image/svg+xml"
	MIMEJSON = "application/json"
)

// Bundle is one result in several forms, by MIME type: every program shows the one
// it can. Under application/json stands a Shape, under the others a text.
type Bundle map[string]any

// bundle makes the forms of a result that has a value.
func (d *Desk) bundle(text string, r *Result, style calc.Style) Bundle {
	shape := ShapeOfResult(r, style)
	b := Bundle{MIMEText: text, MIMEJSON: shape}
	for _, w := range r.Warnings {
		b[MIMEText] = b[MIMEText].(string) + "\nnote: " + w
	}
	for _, c := range shape.Cautions {
		b[MIMEText] = b[MIMEText].(string) + "\ncaution " + c
	}
	if shape.SVG != "" {
		b[MIMESVG] = shape.SVG
	}
	if d.options.HTML != nil {
		b[MIMEHTML] = d.options.HTML(r, style)
	}
	return b
}

// Worded writes a value with its echo in the other family of units, as one line.
func Worded(r *Result, style calc.Style) string {
	text := style.Text(r.Value)
	if labels := r.Value.Labels(); r.Value.Kind() == calc.List && len(labels) > 0 {
		text = labelled(labels, r.Value.Items(), style) // side.port: 1 mm, side.starboard: 2 mm
	}
	if e := style.Echo(r.Value); e != "" {
		text += "   (" + e + ")"
	}
	return text
}

// labelled writes the elements of a list, each after its label.
func labelled(labels []string, items []calc.Value, style calc.Style) string {
	list := make([]string, len(items))
	for i, x := range items {
		list[i] = style.Text(x)
		if x.Kind() == calc.List {
			list[i] = "[" + list[i] + "]"
		}
		if labels[i] != "" {
			list[i] = labels[i] + ": " + list[i]
		}
	}
	return strings.Join(list, ", ")
}

// WordedCheck writes a check's answer with both its sides. One that carries a
// caution gets no tick.
func WordedCheck(holds bool, left, right *Result, cautions uint8, style calc.Style) string {
	text := "✗ does not hold"
	switch {
	case holds && cautions != 0:
		text = "· holds"
	case holds:
		text = "✓ holds"
	}
	if left != nil && left.OK() && right.OK() {
		text += " (" + style.Text(left.Value) + ", " + style.Text(right.Value) + ")"
	}
	return text
}
