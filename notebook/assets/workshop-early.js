// A tap that comes before the page's modules is kept, and done when they are there. This
// script alone is no module: it runs before the page is shown.
(() => {
  const kept = [];
  const ours = "button, a[data-dock], a[data-drop], a[data-set], a[data-ripple]";

  function keep(e) {
    const what = e.type === "submit" ? e.target : e.target.closest(ours);
    if (!what || e.type === "submit" && what.matches(".search") || e.ctrlKey || e.metaKey || e.shiftKey) return;
    if (e.type === "click" && what.type === "submit") return; // the form itself follows
    e.preventDefault();
    e.stopImmediatePropagation();
    kept.push({ what, type: e.type, by: e.submitter });
  }

  for (const type of ["click", "submit"]) addEventListener(type, keep, true);
  function done() {
    for (const type of ["click", "submit"]) removeEventListener(type, keep, true);
    document.documentElement.dataset.ready = "";
    kept.splice(0).forEach((k) => (k.type === "submit" ? k.what.requestSubmit(k.by) : k.what.click()));
  }
  document.addEventListener("ready", done, { once: true });
  addEventListener("load", () => setTimeout(done, 5000), { once: true }); // modules that never come keep nothing back
})();
