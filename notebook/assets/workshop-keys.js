// A row of keys for the signs that a phone's keyboard hides.

const signs = [["°", "degrees"], ["±", "plus or minus"], ["'", "feet"], ["\"", "inches"], ["½", "a half"], ["¼", "a quarter"], ["¾", "three quarters"], ["⅛", "an eighth"], ["⅜", "three eighths"], ["⅝", "five eighths"], ["⅞", "seven eighths"], ["1/16", "a sixteenth"], ["1/32", "a thirty-second"], ["×", "times"]];

// put writes a text at the caret of a field, as if it had been typed.
export function put(field, text) {
  field.focus();
  const { selectionStart: a, selectionEnd: b } = field;
  field.setRangeText(text, a, b, "end");
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
