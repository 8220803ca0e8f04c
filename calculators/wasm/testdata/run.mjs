// Runs the module's functions under Node. Standard input is JSON: the module's path, and calls of a function with a request, each
// made a number of times. Standard output is JSON: for each the last reply, and the median time of a call in ns.
import { readFileSync } from "node:fs";

const { path, calls } = JSON.parse(readFileSync(0, "utf8"));
const module = new WebAssembly.Module(readFileSync(path));
let memory;
const view = () => new DataView(memory.buffer);
const none = (count, size) => (view().setUint32(count, 0, true), view().setUint32(size, 0, true), 0);
const known = {
  clock_time_get: (id, precision, at) => (view().setBigUint64(at, process.hrtime.bigint(), true), 0),
  random_get: (at, n) => (crypto.getRandomValues(new Uint8Array(memory.buffer, at, n)), 0),
  args_sizes_get: none, environ_sizes_get: none,
  fd_write: (fd, vectors, n, written) => {
    let length = 0;
    for (let i = 0; i < n; i++) {
      const at = view().getUint32(vectors + 8 * i, true), size = view().getUint32(vectors + 8 * i + 4, true);
      process.stderr.write(new Uint8Array(memory.buffer, at, size));
      length += size;
    }
    view().setUint32(written, length, true);
    return 0;
  },
  proc_exit: code => { throw new Error("the module has ended with " + code); },
};
const imports = {};
for (const { module: from, name } of WebAssembly.Module.imports(module)) (imports[from] ??= {})[name] = known[name] ?? (() => 0);
const started = process.hrtime.bigint();
const { exports } = new WebAssembly.Instance(module, imports);
memory = exports.memory;
exports._initialize();
const start = Number(process.hrtime.bigint() - started);

const replies = calls.map(({ what, request, times }) => {
  const bytes = new TextEncoder().encode(request);
  const taken = [];
  let reply = "";
  for (let i = 0; i < times; i++) {
    const before = process.hrtime.bigint();
    const at = exports.reserve(bytes.length);
    new Uint8Array(memory.buffer, at, bytes.length).set(bytes);
    const length = exports[what](bytes.length);
    reply = new TextDecoder().decode(new Uint8Array(memory.buffer, exports.reply(), length));
    taken.push(Number(process.hrtime.bigint() - before));
  }
  taken.sort((a, b) => a - b);
  return { reply, time: taken[times >> 1] };
});
process.stdout.write(JSON.stringify({ start, memory: memory.buffer.byteLength, replies }));
