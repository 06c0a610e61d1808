// Words that fit: names of the journal, functions and units are offered while a sum is
// typed; Tab or a touch takes one. Inside a call its arguments are shown.
import { get } from "./workshop-send.js";

const most = 6;

// inSum tells whether the caret stands where the language is written: in a calc block,
// or in a slot.
function inSum(text, at) {
  const before = text.slice(0, at), line = before.slice(before.lastIndexOf("\n") + 1);
  let fence = "";
  for (const l of before.slice(0, before.length - line.length).split("\n")) {
    const m = /^ {0,3}(`{3,}|~{3,})\s*(\S*)/.exec(l);
    if (!m) continue;
    if (!fence) fence = m[1] + (m[2] === "calc" ? " calc" : "");
    else if (m[1].startsWith(fence.split(" ")[0]) && !m[2]) fence = "";
  }
  if (fence.endsWith(" calc")) return !line.includes("#");
  return !fence && line.lastIndexOf("{") > line.lastIndexOf("}") && !line.endsWith("{");
}

// calledAt is the function in whose brackets the caret stands.
function calledAt(line) {
  let depth = 0;
  for (let i = line.length - 1; i >= 0; i--) {
    if (line[i] === ")") depth++;
    if (line[i] !== "(") continue;
    if (depth-- > 0) continue;
    const m = /([a-z_]\w*)$/i.exec(line.slice(0, i));
    return m ? m[1] : "";
  }
  return "";
}

export function completion(desk, field) {
  const strip = desk.querySelector(".fits");
  let words = [], offered = [], from = 0, put = false;

  const learn = async () => { try { words = await get("/vocabulary"); } catch { /* none are offered */ } };
  learn();
  document.addEventListener("ripple", learn);

  function hide() { strip.hidden = true; strip.replaceChildren(); offered = []; }

  function offer() {
    if (put) { put = false; hide(); return; }
    const at = field.selectionStart, text = field.value;
    if (at !== field.selectionEnd || !inSum(text, at)) return hide();
    const line = text.slice(text.lastIndexOf("\n", at - 1) + 1, at);
    const m = /([A-Za-z_][\w.]*)$/.exec(line);
    const typed = m ? m[1] : "";
    const afterNumber = typed && /[\d½¼¾⅛⅜⅝⅞]\s*$/.test(line.slice(0, line.length - typed.length));
    from = at - typed.length;
    offered = [];
    if (typed.length >= (afterNumber ? 1 : 2)) {
      const low = typed.toLowerCase(), starts = /^\s*$/.test(line.slice(0, line.length - typed.length));
      const fits = (w) => {
        if (afterNumber) return w.kind === "unit" && (w.word.toLowerCase().startsWith(low) || w.what.split(", ").some((n) => n.startsWith(low)));
        if (w.kind === "unit" || w.kind === "statement" && !starts || w.word === typed) return false;
        return w.word.toLowerCase().startsWith(low) || low.length > 2 && w.word.toLowerCase().split(/[_.]/).some((p) => p.startsWith(low));
      };
      const rank = (w) => (w.word.toLowerCase().startsWith(low) ? 0 : 4) + ["name", "statement", "function", "unit"].indexOf(w.kind);
      offered = words.filter(fits).sort((a, b) => rank(a) - rank(b) || a.word.length - b.word.length).slice(0, most);
    }
    const call = offered.length ? null : words.find((w) => w.kind === "function" && w.word === calledAt(line));
    show(call);
  }

  function show(call) {
    if (!offered.length && !call) return hide();
    strip.replaceChildren(...offered.map((w) => {
      const b = document.createElement("button");
      b.type = "button";
      b.className = "fit";
      const what = document.createElement("span");
      what.className = "small";
      what.textContent = w.kind === "function" ? "(" + (w.what.split("(")[1] || "").split(":")[0] : w.what;
      b.append(w.word, " ", what);
      b.addEventListener("pointerdown", (e) => e.preventDefault());
      b.addEventListener("click", () => take(w));
      return b;
    }));
    if (call) {
      const p = document.createElement("p");
      p.className = "small call";
      p.textContent = call.what;
      strip.append(p);
    }
    strip.hidden = false;
  }

  function take(w) {
    field.focus();
    put = true;
    const text = w.kind === "function" ? w.word + "(" : w.kind === "statement" ? w.word + " " : w.word;
    field.setRangeText(text, from, field.selectionStart, "end");
    field.dispatchEvent(new InputEvent("input", { bubbles: true }));
    hide();
    if (w.kind === "function") offer();
  }

  field.addEventListener("input", () => setTimeout(offer, 0));
  field.addEventListener("keydown", (e) => {
    if (!offered.length) return;
    if (e.key === "Tab" && !e.shiftKey && !e.ctrlKey && !e.altKey) { e.preventDefault(); take(offered[0]); }
    if (e.key === "Escape") { e.preventDefault(); hide(); }
  });
  field.addEventListener("click", hide);
  field.addEventListener("blur", () => setTimeout(() => { if (!strip.contains(document.activeElement)) hide(); }, 150));
}
