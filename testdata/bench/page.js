// Runs the browser build of a published series in node, as its pages do: unpack,
// start, work the journal out, try a number, then two numbers in turn. Arguments: the
// site, a name, two numbers.
const fs = require("fs"), path = require("path"), zlib = require("zlib"), vm = require("vm");
const [site, name, first, second] = process.argv.slice(2);
const asset = (x) => path.join(site, "assets", x);
vm.runInThisContext(fs.readFileSync(asset("wasm_exec.js"), "utf8"));
let cargo;
vm.runInNewContext(fs.readFileSync(asset("cargo.js"), "utf8"), { scarphCargo: (x) => { cargo = JSON.stringify(x); } });
const packed = fs.readFileSync(asset("engine.wasm.gz"));
const now = () => Number(process.hrtime.bigint());
(async () => {
  const begin = now();
  const wasm = zlib.gunzipSync(packed);
  const go = new Go();
  go.env = { GOGC: "400" }; // as notebook/assets/reader.js does
  const { instance } = await WebAssembly.instantiate(wasm, go.importObject);
  await new Promise((ready) => { globalThis.scarphReady = ready; go.run(instance); });
  if (!scarph.open(cargo)) throw new Error("the cargo was not taken");
  const try_ = (text) => {
    const d = scarph.tries([[name, text]], false);
    if (d.error) throw new Error(d.error);
    return d.moved.length;
  };
  const moved = try_(first);
  const answered = now() - begin;
  let count = 0, start = now();
  while (now() - start < 2e9) { try_(count % 2 ? first : second); count++; }
  console.log(JSON.stringify({ Answered: answered, Each: (now() - start) / count, Moved: moved, Wasm: wasm.length, Gzip: packed.length, Brotli: zlib.brotliCompressSync(wasm).length }));
  process.exit(0);
})().catch((e) => { console.error(e.message); process.exit(1); });
