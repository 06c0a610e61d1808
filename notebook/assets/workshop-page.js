// The page itself: going to an address without a reload, putting changed blocks in
// place, following the files, and saying what happened.

const main = document.querySelector("main");
const said = document.querySelector(".said");
const acts = document.querySelector(".bar .acts");
let sayTimer = 0;
let bound = null; // the address that is turned to and has not come yet
let turning = 0;
let told = 0; // the last ripple that the page has spoken of itself
let toTell = 0; // the last ripple that has something to say

// say puts a sentence into the bar, where screen readers hear it, with things to do
// about it: [{label, run}].
export function say(text, actions = [], keep = false) {
  clearTimeout(sayTimer);
  said.textContent = text;
  const away = act("✕", () => { acts.contains(document.activeElement) && main.focus({ preventScroll: true }); hush(text); });
  away.classList.add("away");
  away.setAttribute("aria-label", "Put this away");
  const had = acts.contains(document.activeElement);
  acts.replaceChildren(...actions.map(({ label, run }) => act(label, run)), away);
  if (had) acts.firstChild.focus({ preventScroll: true });
  if (text && !keep) sayTimer = setTimeout(() => hush(text), actions.length ? 20000 : 7000);
}

// aloud says a sentence to screen readers alone: others see it where it happened.
export function aloud(text) {
  document.getElementById("aloud").textContent = text;
}

function act(label, run) {
  const b = document.createElement("button");
  b.type = "button";
  b.className = "act";
  b.textContent = label;
  b.addEventListener("click", run);
  return b;
}

// tell says what a change of this page did; the ripple of the same number is then not
// said again.
export function tell(sheet, text, actions) {
  told = Math.max(told, sheet);
  say(text, actions);
}

function hush(text) {
  if (said.textContent !== text || acts.contains(document.activeElement)) return;
  said.textContent = "";
  acts.replaceChildren();
}

// withQuery is the page's address with some of its questions changed; null takes one away.
export function withQuery(changes, from = location.href) {
  const url = new URL(from);
  for (const [key, value] of Object.entries(changes)) {
    url.searchParams.delete(key);
    for (const v of value === null ? [] : [].concat(value)) url.searchParams.append(key, v);
  }
  return url;
}

// turnTo shows what an address holds: in place where the page stays the same, and the
// address bar follows. mode is push, replace or stay; to stay on the way to another
// address is to go on to that.
export async function turnTo(address, mode = "push") {
  let url = new URL(address, location.href);
  if (mode === "stay" && bound) ({ url, mode } = bound);
  bound = mode === "stay" ? null : { url, mode };
  const turn = ++turning;
  let page;
  try {
    const r = await fetch(url, { headers: { Accept: "text/html" }, credentials: "same-origin" });
    page = new DOMParser().parseFromString(await r.text(), "text/html");
  } finally {
    if (turn === turning) bound = null;
  }
  if (turn !== turning || !page.querySelector("main")) return false;
  if (mode === "push" && url.href !== location.href) history.pushState(null, "", url);
  if (mode === "replace") history.replaceState(null, "", url);
  show(page);
  document.dispatchEvent(new CustomEvent("turned"));
  return true;
}

// refresh shows the page as it stands now.
export const refresh = () => turnTo(location.href, "stay");

function show(page) {
  document.title = page.title;
  const fresh = page.querySelector("main");
  keepFocus(() => {
    swap("#notice", page);
    swap("header.top .remarks", page, "header.top .tools");
    swap("header.top .tools", page);
    swap(".stick ol", page);
    const slide = document.querySelector(".slide"), now = page.querySelector(".slide");
    for (const name of slide && now ? ["aria-valuemax", "aria-valuenow", "aria-valuetext"] : []) slide.setAttribute(name, now.getAttribute(name));
    const a = main.querySelector(".entry"), b = fresh.querySelector(".entry");
    if (a && b && a.dataset.entry === b.dataset.entry) {
      patch(a, b);
      around(main, a, fresh, b);
    } else if (!written(main, fresh) && main.innerHTML !== fresh.innerHTML) {
      main.replaceChildren(...fresh.childNodes);
    }
    main.dataset.here = fresh.dataset.here || "";
    main.dataset.sheet = fresh.dataset.sheet;
  });
}

// written says that both are the desk of one file: what is typed there stays.
function written(a, b) {
  const x = a.querySelector(".desk"), y = b.querySelector(".desk");
  return x && y && x.dataset.path === y.dataset.path;
}

// swap replaces one element by the same one of the fresh page; one that is new is put
// before a neighbour.
function swap(selector, page, before) {
  const old = document.querySelector(selector), now = page.querySelector(selector);
  if (old && now) {
    if (old.outerHTML !== now.outerHTML && !old.querySelector("details[open]")) old.replaceWith(now);
  } else if (old) old.remove();
  else if (now && before) document.querySelector(before).before(now);
}

// around replaces what stands before and after the entry's text.
function around(old, a, fresh, b) {
  const side = (root, mid, after) => [...root.children].filter((x) => x !== mid && !!(x.compareDocumentPosition(mid) & 2) === after);
  for (const after of [false, true]) {
    const x = side(old, a, after), y = side(fresh, b, after);
    if (x.map((e) => e.outerHTML).join() === y.map((e) => e.outerHTML).join()) continue;
    x.forEach((e) => e.remove());
    y.forEach((e) => (after ? old.append(e) : a.before(e)));
  }
}

// patch replaces the blocks that differ, and marks the values whose text changed.
function patch(a, b) {
  const old = [...a.children], fresh = [...b.children];
  fresh.forEach((block, i) => {
    const was = old[i];
    if (!was) { a.append(block); return; }
    if (was.innerHTML === block.innerHTML) return;
    const texts = new Map();
    was.querySelectorAll(".v[data-at]").forEach((v) => texts.set(v.dataset.at, v.textContent));
    block.querySelectorAll(".v[data-at]").forEach((v) => {
      const text = texts.get(v.dataset.at);
      if (text !== undefined && text !== v.textContent) v.classList.add("just");
    });
    was.replaceWith(block);
  });
  old.slice(fresh.length).forEach((x) => x.remove());
}

// keepFocus gives the focus back to what stands where it stood.
function keepFocus(change) {
  const had = document.activeElement;
  const at = had && had.dataset ? had.dataset.at : undefined;
  const set = had && had.dataset ? had.dataset.set : undefined;
  change();
  if (!had || had === document.body || document.contains(had)) return;
  const find = at ? `.v[data-at="${CSS.escape(at)}"]` : set ? `[data-set="${set}"]` : "";
  const again = find && document.querySelector(find);
  (again || main).focus({ preventScroll: true });
}

let stream = null, lost = false, hideTimer = 0, againTimer = 0;

// listen hears of ripples, from the one on that the page shows.
function listen() {
  if (stream) return;
  stream = new EventSource("/events?since=" + encodeURIComponent(main.dataset.sheet));
  stream.addEventListener("sheet", (e) => {
    if (runOf(e.data) !== runOf(main.dataset.sheet)) told = toTell = 0; // another run counts anew
    if (e.data !== main.dataset.sheet) refresh();
  });
  stream.addEventListener("ripple", (e) => moved(JSON.parse(e.data), e.lastEventId));
  stream.onerror = () => {
    if (stream.readyState === EventSource.CLOSED) outside();
    if (lost) return;
    lost = true;
    document.documentElement.classList.add("lost");
    say("The connection is lost; the numbers may be old. Trying again …", [], true);
  };
  stream.onopen = async () => {
    if (!lost) return;
    lost = false;
    document.documentElement.classList.remove("lost");
    await refresh();
    say("Connected again.");
    document.dispatchEvent(new CustomEvent("back"));
  };
}

const runOf = (sheet) => sheet.split("-")[0];

// outside tells a page that is no longer let in why that is, and goes on trying.
async function outside() {
  stream = null;
  clearTimeout(againTimer);
  againTimer = setTimeout(() => { if (!document.hidden) listen(); }, 5000);
  const r = await fetch("/assets/mark.svg", { method: "HEAD", cache: "no-store" }).catch(() => null);
  const text = "The program was started again and does not know this device any more. Open its new address, or hold the camera to its new picture; what was typed here is kept.";
  if (r && r.status === 403 && said.textContent !== text) say(text, [], true);
}

async function moved(ripple, sheet) {
  if (ripple.words || ripple.undo) toTell = Math.max(toTell, ripple.sheet);
  const entry = main.querySelector(":scope > [data-entry]");
  const touched = !main.querySelector(".desk") && (ripple.structure || !entry || !ripple.entries || ripple.entries.includes(entry.dataset.entry));
  if (touched || new URLSearchParams(location.search).has("try")) await refresh();
  else main.dataset.sheet = sheet;
  document.dispatchEvent(new CustomEvent("ripple", { detail: ripple }));
  if (ripple.sheet <= told || !ripple.words && !ripple.undo) return;
  if (ripple.sheet < toTell) return; // one that came meanwhile says how it stands
  const actions = [];
  if (ripple.words) actions.push({ label: "What moved", run: () => document.dispatchEvent(new CustomEvent("show-ripple", { detail: ripple.sheet })) });
  if (ripple.undo && document.querySelector('meta[name="scarph-key"]')) actions.push({ label: "Take it back", run: () => document.dispatchEvent(new CustomEvent("take-back")) });
  say(ripple.words || ripple.undo, actions);
}

// follow listens for ripples, and lets go while nobody looks: browsers open only a few
// connections to one server.
export function follow() {
  listen();
  document.addEventListener("visibilitychange", () => {
    clearTimeout(hideTimer);
    if (document.hidden) {
      hideTimer = setTimeout(() => { stream && stream.close(); stream = null; }, 15000);
    } else if (!stream) {
      listen();
      refresh();
    }
  });
  addEventListener("popstate", () => turnTo(location.href, "stay"));
  lineOfHash();
  reachable();
  document.addEventListener("turned", () => { lineOfHash(); reachable(); });
}

// reachable lets a keyboard scroll what is wider than the page.
export function reachable() {
  document.querySelectorAll("main pre").forEach((x) => { if (x.scrollWidth > x.clientWidth) x.tabIndex = 0; });
}

// lineOfHash finds a line that an address points at, where it has no id of its own.
function lineOfHash() {
  const m = /^#line-(\d+)$/.exec(location.hash);
  const entry = main.querySelector("[data-entry]");
  if (!m || !entry) return;
  const v = entry.querySelector(`[data-at="${CSS.escape(entry.dataset.entry + "|" + m[1])}"]`);
  if (!v) return;
  v.scrollIntoView({ block: "center" });
  v.classList.add("just");
}
