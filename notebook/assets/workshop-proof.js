// How the text will look, while it is typed, and what is wrong with it: each line that
// wants a look, with a caret under the place. The journal itself does not change.
import { reachable } from "./workshop-page.js";
import { post, stopped } from "./workshop-send.js";

const wait = 250;

// proof gives the function that looks again after a pause.
export function proof(desk, field, path) {
  const out = desk.querySelector(".proof"), entry = out.querySelector(".entry"), date = out.querySelector(".date"), wants = desk.querySelector(".wants"), first = desk.querySelector(".first-want");
  let timer = 0, turn = 0;

  async function look() {
    const mine = ++turn;
    let p;
    try {
      p = await post("/preview", { path, text: field.value, caret: field.selectionStart });
    } catch { return; }
    if (mine !== turn) return;
    date.textContent = [p.title, p.date].filter(Boolean).join(" · ");
    show(p.blocks);
    entry.dataset.entry = p.entry;
    list(p.problems);
    reachable();
  }

  function show(blocks) {
    const old = [...entry.children];
    blocks.forEach((html, i) => {
      const b = document.createElement("div");
      b.className = "b";
      b.innerHTML = html;
      if (!old[i]) entry.append(b);
      else if (old[i].innerHTML !== b.innerHTML) old[i].replaceWith(b);
    });
    old.slice(blocks.length).forEach((b) => b.remove());
  }

  // goTo selects the place that a problem speaks of.
  function goTo(p) {
    field.blur(); // a field that gets the focus scrolls to what is selected
    field.setSelectionRange(p.from, p.to);
    field.focus();
  }

  function list(problems) {
    const wrong = problems.filter((p) => !p.note), n = wrong.length;
    first.hidden = n === 0;
    if (n) {
      first.textContent = `${wrong[0].line ? `Line ${wrong[0].line}: ` : ""}${wrong[0].message}${n > 1 ? `, and ${n - 1} more` : ""}`;
      first.onclick = () => goTo(wrong[0]);
    }
    const rows = problems.slice(0, 30).map((p) => {
      const b = document.createElement("button");
      b.type = "button";
      b.className = p.note ? "want note" : "want";
      const what = document.createElement("span");
      what.textContent = `${p.line ? `Line ${p.line}: ` : ""}${stopped(p.message)}${p.hint ? ` ${p.hint.charAt(0).toUpperCase()}${p.hint.slice(1)}` : ""}`;
      const pre = document.createElement("pre");
      pre.textContent = p.source ? `${p.source}\n${p.caret}` : "";
      b.append(what, pre);
      b.addEventListener("click", () => goTo(p));
      return b;
    });
    const head = document.createElement("p");
    head.className = "small";
    head.textContent = n === 0 ? "" : n === 1 ? "One line wants a look." : `${n} lines want a look.`;
    if (wants.innerText === head.innerText && !rows.length && !wants.querySelector("button")) return;
    wants.replaceChildren(head, ...rows);
  }

  const later = () => { clearTimeout(timer); timer = setTimeout(look, wait); };
  document.addEventListener("ripple", later);
  return later;
}
