// Two texts of one file side by side, and the choice between them.

// clash shows them in a dialog and gives the chosen text; null leaves the field as it is.
export function clash(dialog, e, mine) {
  const head = `<div class="head"><h2 id="clash-title" tabindex="-1">Two texts of one entry</h2></div>
<p>This file was saved elsewhere while you were writing here: in another tab, on another device or in an editor. Nothing is lost: here are both.</p>`;
  const joined = e.clean
    ? "The two do not touch the same lines, so they can be joined."
    : "Both changed the same lines; joined, those are as you wrote them.";
  dialog.innerHTML = `${head}<div class="wide" tabindex="0" role="group" aria-label="Both texts">${e.html}</div><p class="small">${joined}</p>
<div class="acts"><button type="button" class="act${e.clean ? " first" : ""}" value="join">Join both</button><button type="button" class="act" value="mine">Keep mine</button><button type="button" class="act" value="theirs">Take the other</button></div>`;
  dialog.showModal();
  dialog.querySelector("h2").focus();
  return new Promise((done) => {
    dialog.addEventListener("cancel", (x) => x.preventDefault());
    dialog.onclick = (x) => {
      const way = x.target.value;
      if (!["join", "mine", "theirs"].includes(way)) return;
      dialog.close();
      done(way === "join" ? e.joined : way === "theirs" ? e.theirs : mine);
    };
  });
}
