// A photo from the camera: shown before it is sent, put beside the entry by the server
// upright and without the camera's data, and named in the text with its alt text.
import { post, sentence } from "./workshop-send.js";
import { put } from "./workshop-keys.js";

// plain keeps the marks of Markdown and of slots from being read in a text.
const plain = (s) => s.replace(/[\\[\]{}*_`<>!]/g, "\\$&");

export function photo(desk, field) {
  const dialog = desk.querySelector("dialog.photo"), form = dialog.querySelector("form"), shows = dialog.querySelector(".shows"), wrong = dialog.querySelector("[role=alert]");
  let seen = "";

  desk.querySelector("[data-photo]").addEventListener("click", () => { dialog.showModal(); });
  dialog.querySelector("[data-shut]").addEventListener("click", () => dialog.close());
  dialog.addEventListener("close", () => field.focus());

  form.elements.file.addEventListener("change", () => {
    URL.revokeObjectURL(seen);
    shows.replaceChildren();
    const file = form.elements.file.files[0];
    if (!file) return;
    const im = document.createElement("img");
    im.src = seen = URL.createObjectURL(file);
    im.alt = "The picture that was chosen";
    shows.append(im);
  });

  form.addEventListener("submit", async (e) => {
    e.preventDefault();
    const button = form.querySelector("[type=submit]");
    wrong.hidden = true;
    button.disabled = true;
    try {
      const p = await post("/photo?path=" + encodeURIComponent(desk.dataset.path), form.elements.file.files[0]);
      const caption = form.elements.caption.value.trim();
      const title = caption ? ` "${plain(caption).replace(/"/g, '\\"')}"` : "";
      dialog.close();
      put(field, `\n\n![${plain(form.elements.alt.value.trim())}](${p.name}${title})\n\n`);
      form.reset();
      shows.replaceChildren();
    } catch (x) {
      wrong.textContent = sentence(x);
      wrong.hidden = false;
    } finally {
      button.disabled = false;
    }
  });
}
