// Asks the module's functions under Node, through the bridge of the pages: node run.mjs MODULE.js < JSON
// Standard input is JSON: the module's path, and calls of a function with a request in base64, each made a number of times. Standard
// output is JSON: for each the last reply, null where there is none, and the median and the least time of a call in ns; the bytes of the module's memory in the end.
import { readFileSync } from "node:fs";
import { gzipSync } from "node:zlib";
import vm from "node:vm";

globalThis.window = globalThis;
globalThis.tankside = {};
vm.runInThisContext(readFileSync(process.argv[2], "utf8"));

const { path, calls } = JSON.parse(readFileSync(0, "utf8"));
const { exports, write, read } = await tankside.bridge().begin(gzipSync(readFileSync(path), { level: 1 }).toString("base64"));

const replies = (calls ?? []).map(({ what, request, times }) => {
  const bytes = Buffer.from(request, "base64");
  const taken = [];
  let reply = null;
  for (let i = 0; i < times; i++) {
    const before = process.hrtime.bigint();
    write(exports.reserve(bytes.length), bytes);
    const length = exports[what](bytes.length);
    reply = length < 0 ? null : read(exports.reply(), length);
    taken.push(Number(process.hrtime.bigint() - before));
  }
  taken.sort((a, b) => a - b);
  return { reply, time: taken[times >> 1], least: taken[0] };
});
process.stdout.write(JSON.stringify({ memory: exports.memory.buffer.byteLength, replies }));
