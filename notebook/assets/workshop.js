// The live page: listens for ripples and puts the changed blocks in place, so that
// the page follows the files without a reload.
const entry = document.querySelector("[data-entry]");
const said = document.querySelector(".said");

function say(text) {
  if (!said) return;
  said.textContent = text;
  clearTimeout(say.timer);
  say.timer = setTimeout(() => { said.textContent = ""; }, 6000);
}

// put replaces the blocks of the shown entry that differ, and marks the values
// whose text changed.
function put(blocks) {
  const now = [...entry.children].filter((b) => b.classList.contains("b"));
  blocks.forEach((html, i) => {
    const old = now[i];
    if (old && old.dataset.html === undefined) old.dataset.html = "";
    const fresh = document.createElement("div");
    fresh.className = "b";
    fresh.innerHTML = html;
    if (!old) { entry.append(fresh); return; }
    if (old.innerHTML === fresh.innerHTML) return;
    const before = new Map();
    old.querySelectorAll(".v[data-name]").forEach((v) => before.set(v.dataset.name + "|" + v.dataset.at, v.textContent));
    fresh.querySelectorAll(".v[data-name]").forEach((v) => {
      const was = before.get(v.dataset.name + "|" + v.dataset.at);
      if (was !== undefined && was !== v.textContent) v.classList.add("just");
    });
    old.replaceWith(fresh);
  });
  now.slice(blocks.length).forEach((b) => b.remove());
}

async function refresh() {
  const url = new URL(location.href);
  url.searchParams.set("blocks", "1");
  const r = await fetch(url, { headers: { Accept: "application/json" } });
  if (!r.ok) return;
  const page = await r.json();
  put(page.blocks);
}

function listen() {
  const events = new EventSource("/events");
  let lost = false;
  events.addEventListener("ripple", async (e) => {
    const ripple = JSON.parse(e.data);
    if (ripple.structure) { location.reload(); return; }
    if (entry && (!ripple.entries || ripple.entries.includes(entry.dataset.entry))) await refresh();
    if (ripple.words) say(ripple.words);
  });
  events.onerror = () => { lost = true; };
  events.onopen = () => { if (lost) { lost = false; refresh(); } };
}

listen();
