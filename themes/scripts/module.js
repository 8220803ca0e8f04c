// The bridge to the WebAssembly modules, which Go has built as reactors. Needs parcel.js. The page has it, and find.js writes the same into the
// search's worker.
(() => {
  "use strict";

  // bridge stands for itself and names nothing of the page, because find.js hands it to the worker as text.
  const bridge = () => {
    const bytes = base64 => {
      if (Uint8Array.fromBase64) return Uint8Array.fromBase64(base64);
      const text = atob(base64);
      const all = new Uint8Array(text.length);
      for (let i = 0; i < text.length; i++) all[i] = text.charCodeAt(i);
      return all;
    };
    const unzipped = base64 => new Blob([bytes(base64)]).stream().pipeThrough(new DecompressionStream("gzip"));

    // unpack promises the bytes in the base64 of a gzip file.
    const unpack = async base64 => new Uint8Array(await new Response(unzipped(base64)).arrayBuffer());

    // What a Go program asks of its host (WASI preview 1): the clock, chance, and somewhere to put what it prints when it dies. Files and
    // sockets it may ask for, and hears that there are none. Whatever else a module wants was never thought of: it is not started.
    const host = (module, memory) => {
      const ok = 0, noFile = 8, nothing = 52; // errno: success, badf, nosys
      const view = () => new DataView(memory().buffer);
      const none = (count, size) => { view().setUint32(count, 0, true); view().setUint32(size, 0, true); return ok; };
      let line = "";
      const known = {
        __proto__: null,
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
        args_sizes_get: none, environ_sizes_get: none,
        args_get: () => ok, environ_get: () => ok, sched_yield: () => ok,
        poll_oneoff: (ask, events, count, happened) => { view().setUint32(happened, 0, true); return ok; },
        proc_exit: code => { throw new Error("the module has ended with code " + code); },
        fd_prestat_get: () => noFile,
      };
      const refused = name => /^(fd|path|sock)_/.test(name) ? () => nothing : undefined;
      const given = {};
      for (const { module: from, name, kind } of WebAssembly.Module.imports(module)) {
        const answer = kind === "function" && from === "wasi_snapshot_preview1" && (known[name] ?? refused(name));
        if (!answer) throw new Error("the module asks for " + from + "." + name + ", which this page does not have");
        (given[from] ??= {})[name] = answer;
      }
      return given;
    };

    // begin promises a module out of the base64 of its gzip file: what it exports, and write and read, which put bytes into its memory
    // and take a text out of it. The module may move its memory whenever it is called, so a place is asked for just before.
    const begin = async base64 => {
      const module = await WebAssembly.compileStreaming(new Response(unzipped(base64), { headers: { "Content-Type": "application/wasm" } }));
      let exports; // used by the host once the module runs
      ({ exports } = await WebAssembly.instantiate(module, host(module, () => exports.memory)));
      exports._initialize();
      const place = (at, length) => {
        if (at === 0 && length > 0) throw new Error("the module has no room for " + length + " bytes");
        return new Uint8Array(exports.memory.buffer, at >>> 0, length);
      };
      return {
        exports,
        write: (at, data) => place(at, data.length).set(data),
        read: (at, length) => new TextDecoder().decode(place(at, length)),
      };
    };
    return { unpack, begin };
  };

  const tankside = window.tankside;
  const { unpack, begin } = bridge();
  tankside.bridge = bridge;

  // blamed gives what is promised of a file, or blames the file: what packed bytes cannot be made of comes as these errors. No room and the like is nobody's fault.
  const blamed = (promise, address) => promise.catch(problem => {
    throw problem instanceof TypeError || problem instanceof SyntaxError || problem instanceof DOMException || window.WebAssembly && (problem instanceof WebAssembly.CompileError || problem instanceof WebAssembly.LinkError)
      ? tankside.damaged(address, problem) : problem;
  });

  // content promises the bytes of a packed parcel, and told what they say in JSON.
  tankside.content = async (name, address) => blamed(unpack(await tankside.load(name, address)), address);
  tankside.told = async (name, address) => {
    const bytes = await tankside.content(name, address);
    return blamed((async () => JSON.parse(new TextDecoder().decode(bytes)))(), address);
  };

  // answers promises the module of the sums, of “may it go in?” and of the causes, one a page: a function that hands a text, or bytes, to one of its functions
  // and gives the text that this answers with, or null where there is none. Its parcel's address stands in data-answers of <body>.
  let starting;
  tankside.answers = () => starting ??= (async () => {
    const name = "answers-wasm", address = document.body.dataset.answers;
    const { exports, write, read } = await blamed(begin(await tankside.load(name, address)), address);
    tankside.drop(name);
    return (what, text) => {
      const request = typeof text === "string" ? new TextEncoder().encode(text) : text;
      write(exports.reserve(request.length), request);
      const length = exports[what](request.length);
      return length < 0 ? null : read(exports.reply(), length);
    };
  })();
})();
