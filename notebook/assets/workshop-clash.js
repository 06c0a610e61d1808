// What a save asks: two texts of one file side by side and the choice between them, or
// whether the settings at the top of a file shall go.

// choose shows a dialog and gives the value of the button that is pressed; Escape is no
// answer where there is none without a loss.
function choose(dialog, html) {
  dialog.innerHTML = html;
  if (!dialog.open) dialog.showModal();
  dialog.querySelector("h2").focus();
  return new Promise((done) => {
    dialog.oncancel = (x) => x.preventDefault();
    dialog.onclick = (x) => { if (x.target.matches("button[value]")) done(x.target.value); };
  });
}

const head = (title) => `<div class="head"><h2 id="clash-title" tabindex="-1">${title}</h2></div>`;
const button = (value, text, first) => `<button type="button" class="act${first ? " first" : ""}" value="${value}">${text}</button>`;
const escape = (text) => text.replace(/[&<>"]/g, (c) => `&#${c.charCodeAt(0)};`);

// clash gives the chosen text. Two texts joined are shown before they are taken.
export async function clash(dialog, e, mine) {
  const joined = e.clean
    ? "The two do not touch the same lines, so they can be joined."
    : "Both changed the same lines. Joined, both versions of them stand in the text, one after the other, between lines that say so.";
  for (;;) {
    const way = await choose(dialog, `${head("Two texts of one entry")}
<p>This file was saved elsewhere while you were writing here: in another tab, on another device or in an editor. Nothing is lost: here are both.</p>
<div class="wide" tabindex="0" role="group" aria-label="Both texts">${e.html}</div><p class="small">${joined}</p>
<div class="acts">${button("join", "Join both", e.clean)}${button("mine", "Keep mine")}${button("theirs", "Take the other")}</div>`);
    if (way !== "join") { dialog.close(); return way === "theirs" ? e.theirs : mine; }
    const lines = e.joined.split("\n").map((l) => (/^== .* ==$|^# the other wrote: /.test(l) ? `<mark>${escape(l)}</mark>` : escape(l)));
    const sure = await choose(dialog, `${head("The two joined")}
<p>${e.clean ? "This is what the file will hold." : "This is what the file will hold. What both changed stands between the marked lines: keep what is right and take the marks out."}</p>
<pre class="wide joined" tabindex="0" role="group" aria-label="The joined text">${lines.join("\n")}</pre>
<div class="acts">${button("yes", "Save it like this", true)}${button("back", "Back to the two")}</div>`);
    if (sure === "yes") { dialog.close(); return e.joined; }
  }
}

// headGoes asks whether the settings at the top shall go: "mend" puts them back, "on"
// writes on without saving, "sure" saves.
export async function headGoes(dialog, e) {
  const way = await choose(dialog, `${head("The top of this entry")}
<p>Between its <code>---</code> lines, the top of the file says what the entry is. Saved like this:</p>
<ul>${e.lost.map((l) => `<li>${escape(l.charAt(0).toUpperCase() + l.slice(1))}.</li>`).join("")}</ul>
<div class="acts">${button("mend", "Put the top back", true)}${button("on", "Write on, not saved yet")}${button("sure", "Save it all the same")}</div>`);
  dialog.close();
  return way;
}
