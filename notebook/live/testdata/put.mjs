// Puts texts into fields as the page does, without a browser: reads the cases from
// its input and writes what the fields hold then.
import { readFileSync } from "node:fs";

const listeners = [];
globalThis.document = { addEventListener: (kind, f) => listeners.push([kind, f]) };
globalThis.InputEvent = class { constructor(type, more) { Object.assign(this, more, { type }); } };
const { put } = await import("../../assets/workshop-keys.js");

const tell = (target, type, more) => listeners.forEach(([kind, f]) => kind === type && f({ target, type, ...more }));

class Field {
  constructor(c) { Object.assign(this, { value: c.text, defaultValue: c.text, selectionStart: 0, selectionEnd: 0, dataset: c.tail ? { tail: String(c.tail) } : {} }); }
  focus() {}
  setRangeText(text, a, b) {
    this.value = this.value.slice(0, a) + text + this.value.slice(b);
    this.selectionStart = this.selectionEnd = a + text.length;
  }
  dispatchEvent(e) { tell(this, e.type); }
}

console.log(JSON.stringify(JSON.parse(readFileSync(0, "utf8")).map((c) => {
  const field = new Field(c);
  for (const e of c.events || []) {
    if (e.at !== undefined) field.selectionStart = field.selectionEnd = e.at;
    tell(field, e.type, { key: e.key });
  }
  for (const text of c.put) put(field, text);
  return field.value;
})));
