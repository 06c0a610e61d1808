// A sheet for the wall: prints, and says when the journal has moved on.
const print = document.querySelector("[data-print]");
print.hidden = false;
print.addEventListener("click", () => window.print());

new EventSource("/events").addEventListener("ripple", async () => {
  const page = new DOMParser().parseFromString(await (await fetch(location.href)).text(), "text/html");
  const now = page.querySelector("[data-mark]");
  if (now && now.dataset.mark !== document.querySelector("[data-mark]").dataset.mark) document.querySelector(".outdated").hidden = false;
});
