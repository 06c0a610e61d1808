// Works published journals out with the browser build, outside of a browser.
//
// engine.mjs PAGE.WASM WASM_EXEC.JS QUESTIONS.JSON, questions being a list of
// {cargo, tries: [[[name, text], …], …], keys, lists}. It prints, for each question and
// each of its tries, {error} or {values, lines, lists}; numbers as the bits they are.
import { readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';

const [, , wasm, loader, questions] = process.argv;
await import(pathToFileURL(loader));
const go = new Go();
const { instance } = await WebAssembly.instantiate(readFileSync(wasm), go.importObject);
const ready = new Promise((resolve) => { globalThis.scarphReady = resolve; });
go.run(instance);
await ready;

const bits = (x) => { const d = new DataView(new ArrayBuffer(8)); d.setFloat64(0, x); return d.getBigUint64(0).toString(16); };
const answers = JSON.parse(readFileSync(questions, 'utf8')).map((q) => {
  if (!scarph.open(q.cargo)) return null;
  return q.tries.map((numbers) => {
    const r = scarph.tries(numbers, false);
    if (r.error) return { error: r.error };
    const lines = {}, lists = {};
    for (const other of [false, true]) {
      for (const key of q.keys) lines[key + ' ' + other] = scarph.lines(key, '', other);
      for (const name of q.lists) lists[name + ' ' + other] = scarph.list(name, '', other);
    }
    return { values: scarph.values().map(([name, si, plus, text]) => [name, bits(si), bits(plus), text].join(' ')), lines, lists };
  });
});
process.stdout.write(JSON.stringify(answers), () => process.exit(0));
