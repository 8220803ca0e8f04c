// Starts a WebAssembly module that Go has built as a reactor, out of its parcel. Needs parcel.js.
(() => {
  "use strict";
  const tankside = window.tankside;

  // Go's runtime asks for a few WASI functions; only the clock, chance and an end need doing anything.
  const wasi = memory => {
    const view = () => new DataView(memory().buffer);
    const nothing = (count, size) => (view().setUint32(count, 0, true), view().setUint32(size, 0, true), 0);
    const known = {
      clock_time_get: (id, precision, at) => (view().setBigUint64(at, BigInt(Math.round(performance.now() * 1e6)), true), 0),
      random_get: (at, n) => (crypto.getRandomValues(new Uint8Array(memory().buffer, at, n)), 0),
      args_sizes_get: nothing, environ_sizes_get: nothing,
      fd_write: (fd, vectors, n, written) => {
        let length = 0;
        for (let i = 0; i < n; i++) length += view().getUint32(vectors + 8 * i + 4, true);
        view().setUint32(written, length, true);
        return 0;
      },
      proc_exit: code => { throw new Error("the module has ended with " + code); },
    };
    return new Proxy(known, { get: (all, name) => all[name] ?? (() => 0), has: () => true });
  };

  // start promises the module's functions, and ask, which writes a text, or bytes, where the module wants it, calls one of its functions with the
  // text's length, and gives the text that it answers with, or null for a negative length.
  tankside.start = async (name, address) => {
    const module = await WebAssembly.compile(await tankside.unpack(await tankside.load(name, address)));
    let instance;
    const shim = wasi(() => instance.exports.memory);
    const imports = {};
    for (const { module: from, name: what } of WebAssembly.Module.imports(module)) (imports[from] ??= {})[what] = shim[what];
    instance = await WebAssembly.instantiate(module, imports);
    const { memory, _initialize, reserve, reply } = instance.exports;
    _initialize();
    const ask = (what, text) => {
      const request = typeof text === "string" ? new TextEncoder().encode(text) : text;
      const at = reserve(request.length);
      new Uint8Array(memory.buffer, at, request.length).set(request);
      const length = instance.exports[what](request.length);
      return length < 0 ? null : new TextDecoder().decode(new Uint8Array(memory.buffer, reply(), length));
    };
    return { ask };
  };
})();
