// Cards: what is known of a value, beside the text; and the form in which another
// number is tried. The dock holds one card or sheet at a time.
import { turnTo, withQuery, say, aloud } from "./workshop-page.js";
import { get, sentence } from "./workshop-send.js";
import { keys } from "./workshop-keys.js";

const dock = document.getElementById("dock");
let opener = null, shown = "", readTimer = 0, reading = Promise.resolve();
let asked = 0; // what was fetched or closed: what comes late of an earlier one is not wanted
let arriving = 0; // how much of what was opened anew is on its way
let behind = false; // the journal moved while a card was on its way
let stale = false; // the journal moved while someone typed on the card that lies there

// open fetches a card or a sheet into the dock and takes the focus there. What lies there
// again keeps what was typed, and the focus where it is; it never takes the place of what
// was opened meanwhile, and what was closed meanwhile stays closed.
export async function open(address, from, anew = true) {
  if (!anew) {
    if (arriving) behind = true;
    else await lay(address, null, false);
    return;
  }
  arriving++;
  try {
    await lay(address, from, true);
  } finally {
    if (!--arriving && behind) moved();
  }
}

async function lay(address, from, anew) {
  const mine = ++asked;
  const url = new URL(address, location.href);
  url.searchParams.set("part", "1");
  let r, html;
  try {
    r = await fetch(url);
    html = await r.text();
  } catch {
    say("No connection to the program.");
    return;
  }
  if (mine !== asked) return;
  if (!r.ok) { say(html || "There is nothing to show."); return; }
  const typed = anew ? [] : written(), place = anew ? null : placeOf(document.activeElement);
  url.searchParams.delete("part");
  shown = url.pathname + url.search;
  if (anew) stale = false; // or the focus that leaves with the old card would fetch it again
  dock.innerHTML = html;
  if (from) opener = from;
  if (!dock.open) dock.show();
  document.documentElement.classList.add("docked");
  if (anew) dock.scrollTop = 0;
  dock.querySelectorAll(".keys").forEach((row) => keys(row, () => row.parentElement.querySelector("input[name=value]")));
  typed.forEach(writeAgain);
  if (anew) dock.querySelector("h2").focus();
  else if (place) (find(place) || dock.querySelector("h2")).focus({ preventScroll: true });
  mark();
  uncover();
}

// moved lets a card follow the journal, but not under the hands of someone who types on
// it, and not before what is on its way lies there.
function moved() {
  behind = arriving > 0;
  if (behind || !shown.startsWith("/card")) return;
  stale = dock.contains(document.activeElement?.closest("form"));
  if (!stale) again();
}

// uncover scrolls the value that was opened out from under the dock, where the dock
// lies across the foot of the screen.
function uncover() {
  const at = opener && opener.dataset.at, v = at && document.querySelector(`main .v[data-at="${CSS.escape(at)}"]`);
  if (v && dock.getBoundingClientRect().left < 1 && v.getBoundingClientRect().bottom > dock.getBoundingClientRect().top) v.scrollIntoView({ block: "start" });
}

export function close() {
  if (!dock.open) return;
  dock.close();
  asked++;
  shown = "";
  document.documentElement.classList.remove("docked");
  mark();
  const at = opener && opener.dataset.at;
  const back = at ? document.querySelector(`.v[data-at="${CSS.escape(at)}"]`) : opener;
  if (back && document.contains(back)) back.focus({ preventScroll: true });
  else document.querySelector("main").focus();
}

// again fetches what lies in the dock anew, as after a change.
export async function again() {
  if (!dock.open || !shown) return;
  const url = new URL(shown, location.href);
  const now = new URLSearchParams(location.search);
  for (const k of ["as-of", "try"]) {
    url.searchParams.delete(k);
    now.getAll(k).forEach((v) => url.searchParams.append(k, v));
  }
  const scroll = dock.scrollTop;
  const kept = dock.querySelector("details.keep");
  const wasOpen = kept && kept.open;
  await open(url, null, false);
  dock.scrollTop = scroll;
  const keep = dock.querySelector("details.keep");
  if (keep && wasOpen) keep.open = true;
}

// written is what was typed and chosen in the forms of the dock.
function written() {
  return [...dock.querySelectorAll("form input")]
    .filter((x) => (x.type === "radio" ? x.checked && !x.defaultChecked : x.value !== x.defaultValue))
    .map((x) => ({ ...placeOf(x), value: x.value }));
}

// placeOf says where something stands in the dock, so that it is found in the next.
function placeOf(x) {
  if (!x || !dock.contains(x)) return null;
  const n = [...dock.querySelectorAll("form")].indexOf(x.closest("form"));
  if (n < 0) return { n };
  return { n, name: x.name, option: x.type === "radio" ? x.value : null, kind: x.type, a: x.selectionStart, b: x.selectionEnd };
}

function find({ n, name, option, kind, a, b }) {
  const form = dock.querySelectorAll("form")[n];
  const x = form && ([...form.elements].find((f) => f.name === name && f.type === kind && (option === null || f.value === option)) || form.elements.value);
  if (x && a !== null && a !== undefined && x.setSelectionRange) setTimeout(() => x.setSelectionRange(a, b));
  return x;
}

function writeAgain(w) {
  const x = find(w);
  if (!x || x.name !== w.name) return;
  if (w.option === null) x.value = w.value; else x.checked = true;
  x.dispatchEvent(new Event(w.option === null ? "input" : "change", { bubbles: true }));
}

// mark shows which value's card lies open.
function mark() {
  document.querySelectorAll(".v.open").forEach((v) => v.classList.remove("open"));
  const card = dock.open && dock.querySelector(".card[data-name]");
  if (!card) return;
  const { name, at } = card.dataset;
  document.querySelectorAll("main .v").forEach((v) => {
    if (name ? v.dataset.name === name : v.dataset.at === at) v.classList.add("open");
  });
}

function cardOf(v) {
  const url = new URL("/card", location.href);
  if (v.dataset.name) url.searchParams.set("name", v.dataset.name);
  if (v.dataset.at) url.searchParams.set("at", v.dataset.at);
  const now = new URLSearchParams(location.search);
  for (const k of ["as-of", "try"]) now.getAll(k).forEach((x) => url.searchParams.append(k, x));
  return url;
}

// tryIt puts a number into the address as one that is tried, and shows the ripple.
async function tryIt(form) {
  const name = form.dataset.name, value = form.elements.value.value.trim();
  const others = new URLSearchParams(location.search).getAll("try").filter((t) => !t.startsWith(name + "="));
  if (value) others.push(`${name}=${value}`);
  await turnTo(withQuery({ try: others, "as-of": null }), "replace");
  await again();
  if (!value) { say("The field is empty: nothing is tried."); return; }
  const trial = dock.querySelector(".trial");
  if (!trial) return;
  trial.scrollIntoView({ block: "nearest" });
  aloud(trial.querySelector("p").textContent);
}

// readBack says, while a number is typed, how it is understood. One answer is waited for
// before the next is asked: none overtakes another, and two quick steps are two.
function readBack(form, step) {
  clearTimeout(readTimer);
  const ask = () => { reading = reading.then(() => readNow(form, step)); };
  if (step) ask(); else readTimer = setTimeout(ask, 180);
}

async function readNow(form, step) {
  const input = form.elements.value, reads = form.querySelector(".reads");
  const q = new URLSearchParams({ name: form.dataset.name, value: input.value });
  if (step) q.set("step", step.dataset.step);
  if (step && step.dataset.down) q.set("down", "1");
  try {
    const a = await get("/read?" + q);
    if (step) input.value = a.value;
    reads.className = "reads";
    reads.textContent = ["reads " + a.text, a.also, a.by, a.note].filter(Boolean).join(" · ");
    input.removeAttribute("aria-invalid");
  } catch (e) {
    reads.className = "reads wrong";
    reads.textContent = sentence(e);
    input.setAttribute("aria-invalid", "true");
  }
}

export function cards() {
  document.addEventListener("click", async (e) => {
    if (e.defaultPrevented || e.button || e.ctrlKey || e.metaKey || e.shiftKey) return;
    const v = e.target.closest("button.v[data-at]");
    if (v) { opener = v; await open(cardOf(v), v); return; }
    const link = e.target.closest("a[data-dock]");
    if (link) { e.preventDefault(); await open(link.href, dock.contains(link) ? null : link); return; }
    if (e.target.closest("[data-close]")) { close(); return; }
    const drop = e.target.closest("[data-drop]");
    if (drop) { e.preventDefault(); await turnTo(withQuery({ try: null }), "replace"); await again(); return; }
    if (e.target.closest("[data-ripple]")) { e.preventDefault(); await open("/ripple" + location.search); return; }
    const step = e.target.closest("button.step");
    if (step) readBack(step.form, step);
  });
  document.addEventListener("keydown", (e) => {
    if (e.key === "Escape" && dock.open && !e.defaultPrevented) { e.preventDefault(); close(); }
  });
  document.addEventListener("submit", (e) => {
    if (e.target.matches("form.try")) { e.preventDefault(); tryIt(e.target); }
  });
  document.addEventListener("input", (e) => {
    const form = e.target.closest("form.try");
    if (form) readBack(form);
  });
  document.addEventListener("show-ripple", (e) => open("/ripple?sheet=" + e.detail));
  document.addEventListener("turned", mark);
  document.addEventListener("ripple", moved);
  dock.addEventListener("focusout", (e) => {
    if (!stale || dock.contains(e.relatedTarget?.closest?.("form"))) return;
    stale = false;
    if (shown.startsWith("/card")) again();
  });
}
