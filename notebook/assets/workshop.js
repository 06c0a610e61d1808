// The workshop page: puts its parts together. Each module owns one thing that a
// reader does; none is needed to read.
import { follow } from "./workshop-page.js";
import { cards } from "./workshop-card.js";
import { stick } from "./workshop-stick.js";
import { looks } from "./workshop-look.js";
import { changes } from "./workshop-keep.js";

cards();
changes();
stick();
looks();
follow();
if (document.querySelector(".desk, [data-new-entry]")) {
  const { writing, beginnings } = await import("./workshop-write.js");
  writing();
  beginnings();
}
document.dispatchEvent(new Event("ready"));
