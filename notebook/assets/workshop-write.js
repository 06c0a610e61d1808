// Writing an entry. What is typed is kept on the device at once, saved to the file at
// every pause, and never laid over what was saved elsewhere.
import { say } from "./workshop-page.js";
import { get, post, Refusal, sentence } from "./workshop-send.js";
import { keys, headOf } from "./workshop-keys.js";
import { completion } from "./workshop-fits.js";
import { proof } from "./workshop-proof.js";
import { clash, headGoes } from "./workshop-clash.js";
import { grid } from "./workshop-grid.js";
import { photo } from "./workshop-photo.js";

const pause = 1500;

// draft keeps a text on this device until the file has it.
function drafts(path) {
  const key = "scarph-draft:" + path;
  return {
    keep(base, text, sent) {
      try { localStorage.setItem(key, JSON.stringify({ base, text, sent, when: Date.now() })); return true; } catch { return false; }
    },
    find() {
      try { return JSON.parse(localStorage.getItem(key)); } catch { return null; }
    },
    drop() { localStorage.removeItem(key); },
  };
}

const clock = (when = Date.now()) => new Date(when).toTimeString().slice(0, 5);

export function writing() {
  const desk = document.querySelector(".desk");
  if (!desk) return;
  const field = desk.querySelector("#text"), state = desk.querySelector(".state");
  const path = desk.dataset.path, draft = drafts(path);
  let base = field.defaultValue, timer = 0, retry = 0, saving = null, clashing = false;
  let looked = 0, saved = 0; // how often the file was looked at, and a save answered
  let unanswered = []; // texts whose save was not answered: the file may hold one of them

  const tell = (text, kind = "") => { state.textContent = text; state.dataset.kind = kind; };
  const dirty = () => field.value !== base;
  const keep = () => draft.keep(base, field.value, [unanswered.at(0), unanswered.at(-1)]);

  function typed() {
    if (!dirty()) { draft.drop(); tell("Saved"); return; }
    const kept = keep();
    tell(kept ? "Kept on this device, not saved yet" : "Not saved yet", "waiting");
    clearTimeout(timer);
    timer = setTimeout(save, pause);
  }

  // save sends the text once; what is typed meanwhile goes with the next save.
  async function save(asked = false) {
    clearTimeout(timer);
    clearTimeout(retry);
    if (clashing) return; // a question lies open, and took the focus from the field
    if (saving) { await saving; }
    if (!dirty() || clashing) return;
    saving = send(field.value, asked);
    const soon = await saving;
    saving = null;
    if (dirty() && !clashing && state.dataset.kind !== "lost") timer = setTimeout(save, soon ? 0 : pause);
  }

  async function send(text, asked, sure = false) {
    tell("Saving …", "waiting");
    try {
      const d = await post("/save", { path, base, text, sure });
      base = d.text;
      saved++;
      unanswered = [];
      if (dirty()) keep(); else { draft.drop(); tell("Saved " + clock()); }
    } catch (e) {
      if (e instanceof Refusal && e.code === "conflict" && unanswered.includes(e.theirs)) { // ours: the answer alone was lost
        base = e.theirs;
        unanswered = [];
        return true;
      }
      if (e instanceof Refusal && e.code === "conflict") { await resolve(e, text); return true; }
      if (e instanceof Refusal && e.code === "head") return top(e, text, asked);
      if (e instanceof Refusal) { tell(sentence(e) + " The text is kept on this device.", "lost"); return false; }
      if (!unanswered.includes(text)) unanswered.push(text);
      keep();
      tell("No connection: the text is kept on this device, and saved when the program answers again", "lost");
      retry = setTimeout(save, 3000);
    }
    return false;
  }

  // resolve shows both texts; nothing is saved until one is chosen.
  async function resolve(e, text) {
    clashing = true;
    tell("This file was saved elsewhere meanwhile: choose what it shall hold", "lost");
    const chosen = await clash(desk.querySelector(".clash"), e, text);
    clashing = false;
    base = e.theirs;
    unanswered = [];
    if (chosen !== null) set(chosen);
    typed();
  }

  // top asks whether the settings at the top shall go. Who is still writing among them is
  // told only, and asked on leaving the field.
  async function top(e, text, asked) {
    tell(sentence(e) + " It is kept on this device, not saved.", "lost");
    if (!asked && document.activeElement === field && field.selectionStart <= headOf(base)) return false;
    clashing = true;
    const way = await headGoes(desk.querySelector(".clash"), e);
    clashing = false;
    if (way === "sure") return send(text, asked, true);
    if (way === "mend") { set(e.mended); typed(); }
    field.focus();
    return true;
  }

  // set replaces the text but leaves the caret where it was, and the browser's own
  // undo knows of it.
  function set(text) {
    let a = 0, b = 0;
    const old = field.value;
    while (a < old.length && a < text.length && old[a] === text[a]) a++;
    while (b < old.length - a && b < text.length - a && old[old.length - 1 - b] === text[text.length - 1 - b]) b++;
    const had = document.activeElement === field, { selectionStart: at } = field;
    field.setRangeText(text.slice(a, text.length - b), a, old.length - b, "preserve");
    if (had && at <= a) field.setSelectionRange(at, at);
    look();
  }

  // changed follows what an editor saved, where nothing waits to be saved here. An answer
  // that comes late is of an older text: it is not laid over a newer one.
  async function changed() {
    const mine = ++looked, before = saved;
    try {
      const { text } = await get("/text?path=" + encodeURIComponent(path));
      if (mine !== looked) return;
      if (saved !== before) { changed(); return; }
      if (text === base || clashing) return;
      if (dirty()) { save(); return; }
      base = text;
      set(text);
      tell("Changed outside this page " + clock());
    } catch { /* the file may be on its way from one name to another */ }
  }

  const look = proof(desk, field, path);
  completion(desk, field);
  keys(desk.querySelector(".under .keys"), () => field, [["{ }", "a slot", "{}"], ["calc", "a calc block", "\n```calc\n\n```\n"]]);
  grid(desk, field);
  photo(desk, field);

  field.addEventListener("input", () => { typed(); look(); });
  field.addEventListener("blur", () => { if (dirty()) save(true); });
  desk.querySelector("[data-save]").addEventListener("click", () => (dirty() ? save(true) : tell("Saved")));
  document.addEventListener("keydown", (e) => {
    if ((e.ctrlKey || e.metaKey) && e.key === "s") { e.preventDefault(); save(true); }
  });
  document.addEventListener("visibilitychange", () => { if (document.hidden && dirty()) save(); });
  document.addEventListener("ripple", changed);
  document.addEventListener("back", () => { changed(); if (dirty()) save(); });
  addEventListener("beforeunload", (e) => {
    if (dirty() && !keep()) e.preventDefault();
  });

  const left = draft.find();
  if (dirty()) { // typed before this script was there
    typed();
  } else if (left && left.text !== field.value) {
    const was = base;
    base = left.base;
    unanswered = left.sent || [];
    set(left.text);
    tell(`What was typed at ${clock(left.when)} was kept on this device and is here again`, "waiting");
    say("A text that was not saved yet is here again.");
    if (left.base === was) base = was;
    save();
  } else {
    draft.drop();
    tell("Saved");
  }
  sayBegun();
  look();
}

const begun = "scarph-begun";

// sayBegun says on the page of a new entry that it was made, and how to take it back.
function sayBegun() {
  let text = null;
  try {
    text = sessionStorage.getItem(begun);
    sessionStorage.removeItem(begun);
  } catch { /* nothing was kept */ }
  if (text) say(text, [{ label: "Take it back", run: () => document.dispatchEvent(new CustomEvent("take-back")) }]);
}

// beginnings makes a new entry.
export function beginnings() {
  document.addEventListener("submit", async (e) => {
    if (!e.target.matches("[data-new-entry]")) return;
    e.preventDefault();
    const wrong = e.target.querySelector("[role=alert]");
    try {
      const d = await post("/begin", { title: e.target.elements.title.value, day: e.target.elements.day.value });
      try { sessionStorage.setItem(begun, d.said); } catch { /* then it is not said */ }
      location.assign(d.where.replace(/^\/entry\//, "/write/"));
    } catch (x) {
      wrong.textContent = sentence(x);
      wrong.hidden = false;
    }
  });
}
