// Opens a sheet in the module under Node and puts requests to it. Standard input is JSON: the module's path, the sheet in base64, the
// requests. Standard output is JSON: what open gave, the replies, and the median time of an answer in ms.
import { readFileSync } from "node:fs";

const { path, sheet, requests } = JSON.parse(readFileSync(0, "utf8"));
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
const { exports } = new WebAssembly.Instance(module, imports);
memory = exports.memory;
exports._initialize();

const put = bytes => {
  const at = exports.reserve(bytes.length);
  new Uint8Array(memory.buffer, at, bytes.length).set(bytes);
  return bytes.length;
};
const opened = exports.open(put(Buffer.from(sheet, "base64")));
const times = [];
const replies = requests.map(request => {
  const before = performance.now();
  const length = exports.answer(put(new TextEncoder().encode(request)));
  const reply = length < 0 ? "none" : new TextDecoder().decode(new Uint8Array(memory.buffer, exports.reply(), length));
  times.push(performance.now() - before);
  return reply;
});
process.stdout.write(JSON.stringify({ opened, replies, took: times.sort((a, b) => a - b)[times.length >> 1] }));
