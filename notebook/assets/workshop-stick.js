// The stick: a slide on the batten turns the journal back to a day. It is dragged,
// or moved by the arrow keys; the page and the address follow.
import { turnTo, withQuery } from "./workshop-page.js";
import { again } from "./workshop-card.js";

let slide, timer = 0, dragging = false;

const nav = () => document.querySelector(".stick");
const marks = () => [...nav().querySelectorAll("li")];
const last = () => marks().length;
const lying = () => getComputedStyle(nav().querySelector("ol")).flexDirection === "row";
const words = (n) => {
  const m = marks()[n - 1];
  if (!m) return "now";
  const day = [m.dataset.day, m.dataset.title].filter(Boolean).join(", ");
  return n >= last() ? `now, ${day}` : `as of ${day}`;
};

// place lays the slide at an entry's mark.
function place(n) {
  const share = last() > 1 ? (n - 1) / (last() - 1) : 1;
  const box = nav().querySelector("ol").getBoundingClientRect(), home = nav().getBoundingClientRect();
  if (lying()) {
    slide.style.left = `${box.left - home.left + share * box.width}px`;
    slide.style.top = `${box.top - home.top + box.height / 2}px`;
  } else {
    slide.style.left = `${box.left - home.left + box.width / 2}px`;
    slide.style.top = `${box.top - home.top + share * box.height}px`;
  }
  slide.setAttribute("aria-orientation", lying() ? "horizontal" : "vertical");
  slide.setAttribute("aria-valuenow", n);
  slide.setAttribute("aria-valuetext", words(n));
  slide.querySelector(".reads").textContent = words(n);
  slide.classList.toggle("back", n < last());
}

const now = () => Number(slide.getAttribute("aria-valuenow"));

// turn shows the journal as of an entry. A page that had not been written then gives
// way to the one of that day.
async function turn(n) {
  const m = marks()[n - 1], here = marks().find((x) => x.classList.contains("here"));
  let url = withQuery({ "as-of": n >= last() ? null : String(n), try: null });
  if (n < last() && here && Number(here.dataset.number) > n) {
    url = withQuery({ "as-of": String(n), try: null }, new URL(m.dataset.href, location.href).href);
    url.hash = "";
  }
  await turnTo(url, "replace");
  await again();
}

function go(n, wait = 120) {
  n = Math.max(1, Math.min(last(), n));
  if (n === now()) return;
  place(n);
  clearTimeout(timer);
  timer = setTimeout(() => turn(n), wait);
}

function at(e) {
  const box = nav().querySelector("ol").getBoundingClientRect();
  const share = lying() ? (e.clientX - box.left) / box.width : (e.clientY - box.top) / box.height;
  return 1 + Math.round(Math.max(0, Math.min(1, share)) * (last() - 1));
}

export function stick() {
  slide = document.querySelector(".slide");
  if (!slide || last() < 2) return;
  slide.hidden = false;
  place(now());
  addEventListener("resize", () => place(now()));
  document.addEventListener("turned", () => { if (!dragging) place(now()); });
  slide.addEventListener("keydown", (e) => {
    const steps = { ArrowUp: -1, ArrowLeft: -1, ArrowDown: 1, ArrowRight: 1, PageUp: -5, PageDown: 5, Home: -Infinity, End: Infinity };
    if (!(e.key in steps) || e.altKey || e.ctrlKey || e.metaKey) return;
    e.preventDefault();
    go(now() + steps[e.key], 200);
  });
  const start = (e) => {
    if (e.button || e.target.closest("a")) return;
    dragging = true;
    slide.setPointerCapture(e.pointerId);
    slide.classList.add("held");
    go(at(e));
    slide.focus({ preventScroll: true });
    e.preventDefault();
  };
  nav().addEventListener("pointerdown", (e) => { if (e.target.closest("ol, .slide")) start(e); });
  slide.addEventListener("pointermove", (e) => { if (dragging) go(at(e)); });
  for (const end of ["pointerup", "pointercancel"]) slide.addEventListener(end, () => { dragging = false; slide.classList.remove("held"); });
}
