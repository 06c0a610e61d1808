//go:build js && wasm

// Command scarph-page is the kernel for the pages of a published series, built for
// GOOS=js GOARCH=wasm. It gives scripts one object, scarph:
//
//	open(cargo)              takes the journal; false when the cargo is none
//	tries(numbers, other)    [[name, text], …] in place of the journal's numbers, [] to
//	                         go back; {moved: [{name, from, to, yours}]} or {error, hint}
//	lines(key, root, other)  the lines of an entry as HTML, each as it stands in the page
//	list(name, root, other)  one of the lists as HTML
//	values()                 [[name, SI, ±, text], …] to the last bit
//
// other asks for the other family of units.
package main

import (
	"syscall/js"

	"scarph/notebook/reader"
)

func main() {
	var r *reader.Reader
	object := js.Global().Get("Object").New()
	give := func(name string, f func(args []js.Value) any) {
		object.Set(name, js.FuncOf(func(_ js.Value, args []js.Value) any { return f(args) }))
	}
	give("open", func(args []js.Value) any {
		opened, ok := reader.Open(args[0].String())
		if ok {
			r = opened
		}
		return ok
	})
	give("tries", func(args []js.Value) any {
		numbers := make([]reader.Number, args[0].Length())
		for i := range numbers {
			pair := args[0].Index(i)
			numbers[i] = reader.Number{Name: pair.Index(0).String(), Text: pair.Index(1).String()}
		}
		moved, err := r.Try(numbers, args[1].Bool())
		if err != nil {
			return map[string]any{"error": err.Message, "hint": err.Hint}
		}
		list := make([]any, len(moved))
		for i, m := range moved {
			list[i] = map[string]any{"name": m.Name, "from": m.From, "to": m.To, "yours": m.Yours}
		}
		return map[string]any{"moved": list}
	})
	give("lines", func(args []js.Value) any {
		lines := r.Lines(args[0].String(), args[1].String(), args[2].Bool())
		list := make([]any, len(lines))
		for i, l := range lines {
			list[i] = l
		}
		return list
	})
	give("list", func(args []js.Value) any {
		return r.List(args[0].String(), args[1].String(), args[2].Bool())
	})
	give("values", func([]js.Value) any {
		values := r.Values()
		list := make([]any, len(values))
		for i, v := range values {
			list[i] = []any{v.Name, v.SI, v.Plus, v.Text}
		}
		return list
	})
	js.Global().Set("scarph", object)
	if ready := js.Global().Get("scarphReady"); ready.Type() == js.TypeFunction {
		ready.Invoke()
	}
	select {}
}
