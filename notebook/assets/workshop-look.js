// How a reader likes to look: units, large targets, high contrast. Kept as cookies of
// this device, so that the server writes the page that way from the start.
import { turnTo, withQuery } from "./workshop-page.js";
import { again } from "./workshop-card.js";

const classes = { targets: ["large", "large"], contrast: ["stark", "high"] };

export function looks() {
  document.addEventListener("click", async (e) => {
    const b = e.target.closest("[data-set]");
    if (!b) return;
    e.preventDefault();
    const { set, value } = b.dataset;
    document.cookie = `scarph-${set}=${value}; path=/; max-age=31536000; samesite=lax`;
    if (classes[set]) {
      const [name, on] = classes[set];
      document.documentElement.classList.toggle(name, value === on);
      b.dataset.value = value === on ? "usual" : on;
      b.setAttribute("aria-pressed", String(value === on));
      return;
    }
    await turnTo(withQuery({ units: null }), "replace");
    await again();
  });
  // a drawer closes when something else is wanted
  document.addEventListener("click", (e) => {
    document.querySelectorAll("details.drop[open]").forEach((d) => { if (!d.contains(e.target)) d.open = false; });
  });
  document.addEventListener("keydown", (e) => {
    const d = e.key === "Escape" && document.querySelector("details.drop[open]");
    if (d) { d.open = false; d.querySelector("summary").focus(); e.preventDefault(); }
  });
}
