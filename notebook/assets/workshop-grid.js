// A table of offsets, pasted or typed: every cell is read back in words and in the
// other family, row by row, before the table is put into the text.
import { post, sentence } from "./workshop-send.js";
import { put } from "./workshop-keys.js";

export function grid(desk, field) {
  const dialog = desk.querySelector("dialog.grid");
  const paste = dialog.querySelector("#grid-paste"), cells = dialog.querySelector(".cells"), back = dialog.querySelector(".back"), wrong = dialog.querySelector("[role=alert]"), ready = dialog.querySelector("[data-put]"), asks = dialog.querySelector(".asks");
  let markdown = "", timer = 0, turn = 0;
  let names = "", commas = false, seen = ""; // what was answered about the pasted text, and that

  const part = (name) => dialog.querySelector(`[name="${name}"]`);
  const head = () => ({ name: part("name").value, kind: part("kind").value, unit: part("unit").value, text: "", columns: [], rows: [], names, commas });

  // table is what stands in the cells now.
  function table() {
    const t = head();
    t.columns = [...cells.querySelectorAll("thead input")].map((x) => x.value);
    t.rows = [...cells.querySelectorAll("tbody tr")].map((tr) => {
      const [name, ...rest] = [...tr.querySelectorAll("input")].map((x) => x.value);
      return { name, cells: rest };
    });
    return t;
  }

  // unread takes the button away: nothing is put in but what was read back last.
  function unread() {
    turn++;
    markdown = "";
    ready.hidden = true;
  }

  function forget() {
    unread();
    asks.replaceChildren();
    cells.replaceChildren();
    back.replaceChildren();
  }

  async function read(t, draw) {
    unread();
    const mine = turn;
    wrong.hidden = true;
    try {
      const b = await post("/grid", t);
      if (mine !== turn) return;
      if (draw) drawCells(b);
      if (t.text) ask(b);
      mark(b);
      readBack(b);
      markdown = b.markdown;
      ready.hidden = false;
      ready.textContent = b.faults ? `Put it in all the same: ${b.faults === 1 ? "one cell is" : b.faults + " cells are"} not understood` : "Put it into the text";
    } catch (e) {
      if (mine !== turn) return;
      if (draw) forget();
      wrong.textContent = sentence(e);
      wrong.hidden = false;
    }
  }

  const readPaste = () => { seen = paste.value; read({ ...head(), text: paste.value }, true); };

  // ask asks what a pasted text leaves open: what its first column is, what its commas are.
  function ask(b) {
    const box = document.createElement("input"), label = document.createElement("label");
    box.type = "checkbox";
    box.checked = b.named;
    box.addEventListener("change", () => { names = box.checked ? "yes" : "no"; readPaste(); });
    label.append(box, b.head ? ` The first column, ${b.head}, names the rows` : " The first column names the rows");
    asks.replaceChildren(label);
    if (!b.commas) return;
    const p = document.createElement("p"), yes = document.createElement("button");
    yes.type = "button";
    yes.className = "act";
    yes.textContent = "Yes, read them so";
    yes.addEventListener("click", () => { commas = true; readPaste(); });
    p.append(`${b.commas.charAt(0).toUpperCase()}${b.commas.slice(1)}. `, yes);
    asks.append(p);
  }

  function input(value, label) {
    const x = document.createElement("input");
    x.value = value;
    x.spellcheck = false;
    x.setAttribute("aria-label", label);
    return x;
  }

  function drawCells(b) {
    const t = document.createElement("table"), h = t.createTHead().insertRow();
    const corner = document.createElement("td");
    h.append(corner);
    b.columns.forEach((c, i) => {
      const th = document.createElement("th");
      th.scope = "col";
      th.append(input(c, `name of column ${i + 1}`));
      h.append(th);
    });
    const body = t.createTBody();
    b.rows.forEach((r, n) => {
      const tr = body.insertRow(), th = document.createElement("th");
      th.scope = "row";
      th.append(input(r.name, `name of row ${n + 1}`));
      tr.append(th);
      r.cells.forEach((c, i) => tr.insertCell().append(input(c.text, `${r.name}, ${b.columns[i]}`)));
    });
    cells.replaceChildren(t);
  }

  function mark(b) {
    [...cells.querySelectorAll("tbody tr")].forEach((tr, n) => {
      [...tr.querySelectorAll("td input")].forEach((x, i) => {
        const fault = b.rows[n]?.cells[i]?.fault;
        if (fault) x.setAttribute("aria-invalid", "true"); else x.removeAttribute("aria-invalid");
        x.title = fault || "";
      });
    });
  }

  // readBack tells each row as somebody would call it out at the loft.
  function readBack(b) {
    const rows = b.rows.map((r) => {
      const d = document.createElement("details"), s = document.createElement("summary"), list = document.createElement("ol");
      const faults = r.cells.filter((c) => c.fault).length;
      s.textContent = `${r.name.replaceAll("_", " ")}: ${r.cells.filter((c) => c.text).length} cells${faults ? `, ${faults} not understood` : ""}`;
      d.open = faults > 0 || b.rows.length <= 4;
      r.cells.forEach((c, i) => {
        const li = document.createElement("li");
        const label = document.createElement("span");
        label.className = "label";
        label.textContent = b.columns[i].replaceAll("_", " ");
        li.append(label);
        const say = (text, kind) => { const x = document.createElement("span"); x.className = kind; x.textContent = text; li.append(" ", x); };
        if (c.fault) say(c.fault.startsWith(c.text) ? c.fault : `${c.text}: ${c.fault}`, "wrong");
        else if (!c.text) say("empty: missing, not zero", "small");
        else {
          say(c.words, "words");
          if (c.other) say(c.other, "small");
          if (c.step) say(`(${c.step})`, "small step-by");
        }
        list.append(li);
      });
      d.append(s, list);
      return d;
    });
    const h = document.createElement("h3");
    h.textContent = "Read back, with the step from the cell before";
    const message = document.createElement("p");
    message.className = "wrong";
    message.textContent = b.message ? b.message + "." : "";
    back.replaceChildren(h, message, ...rows);
  }

  desk.querySelector("[data-grid]").addEventListener("click", () => dialog.showModal());
  dialog.querySelector("[data-shut]").addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => field.focus());
  dialog.querySelector("[data-read]").addEventListener("click", () => { names = ""; commas = false; readPaste(); });
  paste.addEventListener("input", unread);
  dialog.querySelector("[data-blank]").addEventListener("click", () => {
    asks.replaceChildren();
    seen = paste.value;
    const columns = [...Array(9).keys()].map(String);
    read({ ...head(), columns, rows: ["sheer height", "chine height", "sheer half", "chine half"].map((name) => ({ name, cells: columns.map(() => "") })) }, true);
  });
  cells.addEventListener("input", () => { unread(); clearTimeout(timer); timer = setTimeout(() => read(table(), false), 300); });
  // Enter goes down a column, as one reads a table out
  cells.addEventListener("keydown", (e) => {
    if (e.key !== "Enter") return;
    e.preventDefault();
    const td = e.target.closest("td, th"), tr = td.parentElement, next = tr.nextElementSibling || tr.parentElement.firstElementChild;
    next.children[td.cellIndex + (tr.nextElementSibling ? 0 : 1)]?.querySelector("input")?.focus();
  });
  for (const name of ["name", "kind", "unit"]) {
    part(name).addEventListener("input", unread);
    part(name).addEventListener("change", () => { if (cells.firstChild && paste.value === seen) read(table(), false); });
  }
  ready.addEventListener("click", () => {
    if (!markdown) return;
    dialog.close();
    put(field, `\n\n${markdown}\n`);
  });
}
