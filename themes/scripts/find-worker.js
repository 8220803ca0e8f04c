// The search itself, beside the page: starts the WebAssembly module, opens the index and answers questions.
// It talks through a port: {hello} is answered with the same, {open: {wasm, segments}} (base64 of gzip) with {ready: true},
// {ask: question, number} with {answer, number}, and whatever goes wrong with {failed: reason, number}. find.js makes a
// worker of it and of module.js's bridge or, where the browser refuses workers, runs it in the page.
tankside.parcel("find-worker", (port, bridge) => {
  "use strict";
  const { unpack, begin } = bridge;
  let module; // once it is open

  const give = data => module.write(module.exports.input(data.length), data);
  const take = size => module.read(module.exports.output(), size);

  const open = async ({ wasm, segments }) => {
    const [begun, ...index] = await Promise.all([begin(wasm), ...segments.map(unpack)]);
    module = begun;
    for (const piece of index) {
      give(piece);
      module.exports.add();
    }
    const wrong = take(module.exports.open());
    if (wrong) throw new Error(wrong);
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
      port.postMessage({ failed: String(problem && problem.message || problem), number: data.number });
    }
  };
});
