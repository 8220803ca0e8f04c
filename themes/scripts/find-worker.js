// The search itself, beside the page: unpacks the WebAssembly module and the index, opens them and answers questions.
// It talks through a port: {hello} is answered with the same, {open: {wasm, segments}} (base64 of gzip) with {ready: true},
// {ask: question, number} with {answer, number}, and whatever goes wrong with {failed: reason, number}. find.js makes a
// worker of it or, where the browser refuses workers, runs it in the page.
(() => {
  "use strict";
  const search = port => {
    let module; // the module's functions and memory, once it is open

    const bytes = base64 => {
      if (Uint8Array.fromBase64) return Uint8Array.fromBase64(base64);
      const text = atob(base64);
      const all = new Uint8Array(text.length);
      for (let i = 0; i < text.length; i++) all[i] = text.charCodeAt(i);
      return all;
    };
    const unpack = base64 =>
      new Response(new Blob([bytes(base64)]).stream().pipeThrough(new DecompressionStream("gzip"))).arrayBuffer();

    // What a Go program asks of its host (WASI preview 1): the clock, chance, and somewhere to put what it prints when it
    // dies. All else does not exist here.
    const host = (imports, memory) => {
      const view = () => new DataView(memory().buffer);
      const ok = 0, noFile = 8, nothing = 52;
      let line = "";
      const known = {
        clock_time_get: (clock, precision, at) => {
          const now = clock === 0 ? Date.now() : performance.now();
          view().setBigUint64(at, BigInt(Math.round(now * 1e6)), true);
          return ok;
        },
        random_get: (at, size) => {
          for (let i = 0; i < size; i += 65536) {
            crypto.getRandomValues(new Uint8Array(memory().buffer, at + i, Math.min(65536, size - i)));
          }
          return ok;
        },
        fd_write: (file, pieces, count, written) => {
          let size = 0;
          for (let i = 0; i < count; i++) {
            const at = view().getUint32(pieces + 8 * i, true), length = view().getUint32(pieces + 8 * i + 4, true);
            line += new TextDecoder().decode(new Uint8Array(memory().buffer, at, length).slice());
            size += length;
          }
          if (line.endsWith("\n")) {
            console.error(line);
            line = "";
          }
          view().setUint32(written, size, true);
          return ok;
        },
        args_sizes_get: (count, size) => { view().setUint32(count, 0, true); view().setUint32(size, 0, true); return ok; },
        environ_sizes_get: (count, size) => { view().setUint32(count, 0, true); view().setUint32(size, 0, true); return ok; },
        fd_prestat_get: () => noFile,
        args_get: () => ok,
        environ_get: () => ok,
        sched_yield: () => ok,
        poll_oneoff: (ask, events, count, happened) => { view().setUint32(happened, 0, true); return ok; },
        proc_exit: code => { throw new Error("the search ended with code " + code); },
      };
      const given = {};
      for (const { module, name } of imports) (given[module] ??= {})[name] = known[name] ?? (() => nothing);
      return given;
    };

    // give writes bytes where the module reads them; take reads its answer of the given size. The module may move its
    // memory whenever it is called, so the place is asked for first.
    const give = data => {
      const at = module.input(data.byteLength) >>> 0;
      new Uint8Array(module.memory.buffer, at, data.byteLength).set(new Uint8Array(data));
    };
    const take = size => {
      const at = module.output() >>> 0;
      return new TextDecoder().decode(new Uint8Array(module.memory.buffer, at, size));
    };

    const open = async ({ wasm, segments }) => {
      const [code, ...index] = await Promise.all([wasm, ...segments].map(unpack));
      const compiled = await WebAssembly.compile(code);
      let made; // used before it is there, by what it is made with
      made = await WebAssembly.instantiate(compiled, host(WebAssembly.Module.imports(compiled), () => made.exports.memory));
      made.exports._initialize();
      module = made.exports;
      for (const piece of index) {
        give(piece);
        module.add();
      }
      const wrong = take(module.open());
      if (wrong) throw new Error(wrong);
    };
    const ask = question => {
      give(new TextEncoder().encode(JSON.stringify(question)));
      const { answer, error } = JSON.parse(take(module.ask()));
      if (error) throw new Error(error);
      return answer;
    };

    port.onmessage = async ({ data }) => {
      try {
        if (data.hello) {
          port.postMessage({ hello: true });
        } else if (data.open) {
          await open(data.open);
          port.postMessage({ ready: true });
        } else {
          port.postMessage({ answer: ask(data.ask), number: data.number });
        }
      } catch (problem) {
        port.postMessage({ failed: String(problem && problem.message || problem), number: data.number });
      }
    };
  };

  if (typeof document === "undefined") search(self);
  else tankside.parcel("find-worker", search);
})();
