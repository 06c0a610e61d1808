package site_test

import (
	"encoding/json"
	"os"
	"testing"
)

// spies note in the page when the steps to a first answer begin and end.
const spies = `
	window.steps = [];
	const note = (name, from, to) => steps.push([name, Math.round(from), Math.round(to)]);
	const spy = (o, k, name) => {
		const f = o[k];
		o[k] = function (...given) {
			const from = performance.now(), out = f.apply(this, given);
			const end = (x) => { note(name, from, performance.now()); return x; };
			return out?.then ? out.then(end) : end(out);
		};
	};
	spy(window, "fetch", "asked");
	spy(window, "atob", "read as base64");
	spy(Response.prototype, "arrayBuffer", "arrived or unpacked");
	for (const k of ["compile", "compileStreaming", "instantiate", "instantiateStreaming"]) spy(WebAssembly, k, k);
	let kernel;
	Object.defineProperty(window, "scarph", { get: () => kernel, set: (x) => { note("runs", performance.now(), performance.now()); kernel = x; for (const k of ["open", "tries", "lines"]) spy(x, k, k); } });
	window.tryOne = (name, text, wait) => new Promise((resolve) => {
		document.querySelector('a.v[data-name="' + name + '"]').click();
		setTimeout(() => {
			const begun = performance.now();
			new MutationObserver(() => { note("answered", begun, performance.now()); resolve(steps.map(([k, a, b]) => [k, Math.round(a - begun), Math.round(b - begun)])); }).observe(document.getElementById("yours"), { attributes: true });
			document.getElementById("try-text").value = text;
			document.querySelector("#try .go").click();
		}, wait);
	})`

// TestFirstAnswer tells, where SCARPH_TIMES is set, how long a reader waits for the first
// answer, and for what: asked at once, and asked after the card has been open for a while.
func TestFirstAnswer(t *testing.T) {
	if os.Getenv("SCARPH_TIMES") == "" {
		t.Skip("SCARPH_TIMES=1 measures it")
	}
	needEngine(t)
	out := publish(t, sorrel)
	for name, base := range carriers(t, out) {
		for _, wait := range []string{"0", "3000"} {
			for range 4 {
				b := newTab(t, 1280, 900)
				b.goTo(base + "2027-02-07-frames.html")
				b.do(spies)
				steps := eval[[]any](b, `tryOne("frame_count", "10", `+wait+`)`)
				text, _ := json.Marshal(steps)
				t.Logf("%s, after %s ms: %s", name, wait, text)
			}
		}
	}
}
