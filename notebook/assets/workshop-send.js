// Changes are posted with the key of the server's run. A page that was open before a
// restart fetches the new key once and tries again.

const key = () => document.querySelector('meta[name="scarph-key"]');

// Refusal is an answer that says no, in words for people.
export class Refusal extends Error {
  constructor(status, body) {
    super(body.message || "the server said no");
    Object.assign(this, body, { status });
  }
}

// get fetches JSON; a refusal is thrown.
export async function get(address) {
  return read(await fetch(address, { headers: { Accept: "application/json" } }));
}

// post sends a change and gives the answer; a refusal is thrown, and so is a lost
// connection (a TypeError of fetch).
export async function post(address, body, again = true) {
  const raw = body instanceof Blob;
  const r = await fetch(address, {
    method: "POST",
    headers: { "Content-Type": raw ? body.type || "application/octet-stream" : "application/json", "Scarph-Key": key() ? key().content : "" },
    body: raw ? body : JSON.stringify(body),
  });
  if (r.status === 403 && again && key()) {
    const refusal = await r.clone().json().catch(() => ({}));
    if (refusal.code === "key") {
      key().content = (await get("/key")).key;
      return post(address, body, false);
    }
  }
  return read(r);
}

async function read(r) {
  const body = await r.json().catch(() => (r.status === 403 ? { message: "the program was started again and does not know this device any more" } : {}));
  if (!r.ok) throw new Refusal(r.status, body);
  return body;
}

// stopped ends a sentence with a full stop, where it has no sign of its own at its end.
export const stopped = (text) => (/[.?!…]$/.test(text) ? text : text + ".");

// sentence is what to say of anything that was thrown.
export function sentence(e) {
  if (!(e instanceof Refusal)) return "No connection to the program. Nothing was changed.";
  const text = stopped(e.message.charAt(0).toUpperCase() + e.message.slice(1));
  return e.hint ? `${text} ${stopped(e.hint.charAt(0).toUpperCase() + e.hint.slice(1))}` : text;
}
