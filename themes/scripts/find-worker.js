// The search itself, beside the page: starts the WebAssembly module, opens the index and answers questions.
// It talks through a port: {hello} is answered with the same, {open: {wasm, segments}} (base64 of gzip) with {ready: true},
// {ask: question, number} with {answer, number}, and whatever goes wrong with {failed: reason, number}, with {of: 0} where the module, {of: n} where the nth piece of the
// index is not what was published. find.js makes a
// worker of it and of module.js's bridge or, where the browser refuses workers, runs it in the page.
tankside.parcel("find-worker", (port, bridge) => {
  "use strict";
  const { unpack, begin } = bridge;
  let module; // once it is open

  const give = data => module.write(module.exports.input(data.length), data);
  const take = size => module.read(module.exports.output(), size);

  const open = async ({ wasm, segments }) => {
    const blamed = (promise, of) => promise.catch(problem => { throw problem instanceof RangeError ? problem : Object.assign(new Error(problem && problem.message || problem), { of }); });
    const [begun, ...index] = await Promise.all([blamed(begin(wasm), 0), ...segments.map((piece, i) => blamed(unpack(piece), i + 1))]);
    module = begun;
    for (const piece of index) {
      give(piece);
      module.exports.add();
    }
    const wrong = take(module.exports.open());
    if (wrong) throw Object.assign(new Error(wrong), segments.length === 1 ? { of: 1 } : {}); // of several nobody knows which
  };
  const ask = question => {
    give(new TextEncoder().encode(JSON.stringify(question)));
    const { answer, error } = JSON.parse(take(module.exports.ask()));
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
      port.postMessage({ failed: String(problem && problem.message || problem), of: problem?.of, number: data.number });
    }
  };
});
