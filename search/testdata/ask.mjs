// Runs the browser's search worker under node: node ask.mjs MODULE.js WORKER.js WASM.gz INDEX… < questions.json
// Prints {"open": ms, "answers": [...], "times": [ms...], "memory": bytes of the module's memory at the end}; the questions are asked as often as "rounds" says.
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import vm from "node:vm";

const [bridge, worker, wasm, ...index] = process.argv.slice(2).map(name => readFileSync(name));
const { questions, rounds } = JSON.parse(readFileSync(0));

let made; // what the worker makes of the module
const { instantiate } = WebAssembly;
WebAssembly.instantiate = async (...what) => made = await instantiate(...what);

let search, reply;
globalThis.window = globalThis;
globalThis.tankside = { parcel: (name, content) => { search = content; } };
vm.runInThisContext(bridge.toString());
vm.runInThisContext(worker.toString());
const port = { postMessage: message => reply(message) };
search(port, tankside.bridge());
const send = data => new Promise((done, failed) => {
  reply = message => "failed" in message ? failed(new Error(message.failed)) : done(message);
  port.onmessage({ data });
});

const before = performance.now();
await send({ open: { wasm: wasm.toString("base64"), segments: index.map(piece => gzipSync(piece).toString("base64")) } });
const open = performance.now() - before;
const answers = [], times = [];
for (let round = 0; round < rounds; round++) {
  for (const [number, ask] of questions.entries()) {
    const start = performance.now();
    const { answer } = await send({ ask, number });
    times.push(performance.now() - start);
    if (round === 0) answers.push(answer);
  }
}
process.stdout.write(JSON.stringify({ open, answers, times, memory: made.exports.memory.buffer.byteLength }));
