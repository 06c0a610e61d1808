// A row of keys for the signs that a phone's keyboard hides.

const signs = [["°", "degrees"], ["±", "plus or minus"], ["'", "feet"], ["\"", "inches"], ["½", "a half"], ["¼", "a quarter"], ["¾", "three quarters"], ["⅛", "an eighth"], ["⅜", "three eighths"], ["⅝", "five eighths"], ["⅞", "seven eighths"], ["1/16", "a sixteenth"], ["1/32", "a thirty-second"], ["×", "times"]];

// placed are the fields in which somebody placed the caret. In all others it stands
// where the browser left it, which is nobody's choice.
const placed = new WeakSet();
const moves = /^(Arrow|Home|End|Page)/;
for (const kind of ["click", "select", "input", "keydown"]) {
  document.addEventListener(kind, (e) => { if (kind !== "keydown" || moves.test(e.key)) placed.add(e.target); }, true);
}

// headOf is how far the settings reach that a text begins with.
export const headOf = (text) => (/^---[ \t]*\n(?:.*\n)*?---[ \t]*(?:\n|$)/.exec(text) || [""])[0].length;

// endOf is where the entry ends that is written on; a file may hold later ones, tail
// letters long.
function endOf(field) {
  const tail = Number(field.dataset.tail || 0), end = field.value.length - tail;
  return end >= 0 && field.value.slice(end) === field.defaultValue.slice(field.defaultValue.length - tail) ? end : field.value.length;
}

// placeIn is what a text takes the place of: what is selected, or the end of the entry
// where nobody placed the caret. Nothing is put before the settings at the top, and
// no lines among them.
function placeIn(field, text) {
  if (!placed.has(field)) { const end = endOf(field); return [end, end]; }
  const { selectionStart: a, selectionEnd: b } = field, head = headOf(field.value);
  if (a > 0 && a < head && b < head && !text.includes("\n")) return [a, b];
  return [Math.max(a, head), Math.max(b, head)];
}

// put writes a text at the caret of a field, as if it had been typed.
export function put(field, text) {
  const [a, b] = placeIn(field, text), below = !placed.has(field);
  field.focus();
  field.setRangeText(text, a, b, "end");
  if (below) field.scrollTop = field.scrollHeight;
  field.dispatchEvent(new InputEvent("input", { bubbles: true, inputType: "insertText", data: text }));
}

// keys fills a row with keys that write into the field that find gives; more are
// signs of one kind of text.
export function keys(row, find, more = []) {
  row.replaceChildren(...[...signs, ...more].map(([sign, label, text]) => {
    const b = document.createElement("button");
    b.type = "button";
    b.className = "key";
    b.textContent = sign;
    b.setAttribute("aria-label", `${sign} ${label}`);
    b.addEventListener("pointerdown", (e) => e.preventDefault()); // the field keeps its keyboard
    b.addEventListener("click", () => put(find(), text || (sign === "×" ? "*" : sign)));
    return b;
  }));
  row.hidden = false;
}
