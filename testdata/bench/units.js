// Works out one expression over quantities with a general-purpose library of
// units, compiled once, and prints nanoseconds a time and the answer in metres.
const { create, all } = require("mathjs");
const math = create(all);
const text = "(aft - fwd) / (n - 1) + (a + b) * c / d - a";
const inch = (v) => math.unit(v, "inch");
const scope = { aft: inch(180), fwd: inch(22.5), n: 12, a: inch(3.5), b: inch(2.25), c: 1.5, d: 4 };
const code = math.compile(text);
for (let i = 0; i < 2000; i++) code.evaluate(scope);
const count = 20000;
const start = process.hrtime.bigint();
let value;
for (let i = 0; i < count; i++) value = code.evaluate(scope);
const took = Number(process.hrtime.bigint() - start);
console.log(JSON.stringify({ ns: took / count, metres: value.toNumber("m") }));
