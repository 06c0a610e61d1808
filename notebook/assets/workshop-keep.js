// Keeping: what was tried is written down, a part is settled, a change is taken back.
import { say, tell, turnTo, withQuery, refresh } from "./workshop-page.js";
import { post, sentence } from "./workshop-send.js";
import { open, again } from "./workshop-card.js";

const value = (form, name) => (form.elements[name] ? form.elements[name].value : "");

async function keep(form) {
  const card = form.closest(".card");
  const way = value(form, "way") || "new";
  const body = {
    name: form.dataset.name,
    value: card.querySelector("form.try").elements.value.value,
    at: way === "correct" ? value(form, "at") : "",
    kind: value(form, "kind"),
    note: value(form, "note"),
  };
  await send(form, "/keep", body);
}

const settle = (form) => send(form, "/settle", { thing: form.dataset.thing, count: value(form, "count"), how: value(form, "how"), to: value(form, "to"), note: value(form, "note") });

// send posts a form's change. What was tried is no longer needed when it is kept.
async function send(form, address, body) {
  const wrong = form.querySelector("[role=alert]"), button = form.querySelector("[type=submit]");
  wrong.hidden = true;
  button.disabled = true;
  try {
    const d = await post(address, body);
    tell(d.sheet, d.said, []);
    if (new URLSearchParams(location.search).has("try")) await turnTo(withQuery({ try: null }), "replace");
    else await refresh();
    after(d);
    await open("/ripple?sheet=" + d.sheet);
  } catch (e) {
    wrong.textContent = sentence(e);
    wrong.hidden = false;
  } finally {
    button.disabled = false;
  }
}

function after(d) {
  const actions = [];
  if (d.where) actions.push({ label: "Go there", run: () => location.assign(d.where) });
  if (d.undo) actions.push({ label: "Take it back", run: takeBack });
  tell(d.sheet, d.said, actions);
}

export async function takeBack() {
  try {
    const d = await post("/undo", {});
    tell(d.sheet, d.said, [{ label: "What moved", run: () => open("/ripple?sheet=" + d.sheet) }]);
    await refresh();
    await again();
  } catch (e) {
    say(sentence(e));
  }
}

// rescue puts a rescued text into its file, or forgets it.
async function rescue(button) {
  try {
    const d = await post("/rescue", { id: button.dataset.rescue, keep: !!button.dataset.keep });
    await refresh();
    after(d);
  } catch (e) {
    say(sentence(e));
  }
}

export function changes() {
  document.addEventListener("submit", (e) => {
    if (e.target.matches("[data-keep]")) { e.preventDefault(); keep(e.target); }
    if (e.target.matches("[data-settle]")) { e.preventDefault(); settle(e.target); }
  });
  document.addEventListener("change", (e) => {
    if (e.target.name !== "way") return;
    const form = e.target.form, correct = e.target.value === "correct";
    form.querySelector(".new").hidden = correct;
    form.querySelector(".correct").hidden = !correct;
  });
  document.addEventListener("click", (e) => {
    if (e.target.closest("[data-undo]")) takeBack();
    const text = e.target.closest("[data-rescue]");
    if (text) rescue(text);
  });
  document.addEventListener("take-back", takeBack);
}
