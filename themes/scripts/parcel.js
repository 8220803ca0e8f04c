// Parcels: what other scripts of a page load on demand. A page opened from a USB stick may not fetch its neighbours, but it may
// add a script; so a parcel is a classic script that hands over its content as text,
//
//   tankside.parcel("answers-wasm", "<base64 of gzip>");
//
// and the same works from a server. This script runs in the head; it also tells the styles that scripts run and which units the reader
// has chosen.
(() => {
  "use strict";
  const page = document.documentElement;
  page.classList.add("scripted");
  try { // the reader's units, before anything is drawn; without storage the shop's own stay
    const chosen = localStorage.getItem("tankside.units");
    if (chosen === "SI" || chosen === "US") page.dataset.units = chosen;
  } catch { /* a private window */ }
  const tankside = window.tankside ??= {};
  const parcels = tankside.parcels ??= {}; // name → content, once it has come
  const coming = {}; // name → promise of the content

  // parcel hands a content over; parcels call it.
  tankside.parcel = (name, content) => { parcels[name] = content; };

  // load adds the script at an address, once, and promises the content it hands over under a name.
  tankside.load = (name, address) => coming[name] ??= new Promise((done, failed) => {
    if (parcels[name] !== undefined) return done(parcels[name]);
    const fail = (why, fault) => { delete coming[name]; failed(Object.assign(new Error(address + " " + why), { fault, file: address })); };
    if (!address) return fail("is not part of this page");
    const script = document.createElement("script");
    script.src = address;
    script.onload = () => {
      script.remove();
      if (parcels[name] === undefined) fail("hands over no " + name, "damaged"); else done(parcels[name]);
    };
    script.onerror = () => { script.remove(); fail("cannot be read", "missing"); };
    document.head.append(script);
  });

  // damaged is an error that blames the file at an address for another: it came, and is not what was published.
  tankside.damaged = (address, problem) => Object.assign(new Error(address + ": " + (problem?.message ?? problem)), { fault: "damaged", file: address });

  // reason is why something cannot be done, for the reader and with what to do: the browser lacks something, a file of this copy is missing or damaged, or nobody
  // knows. The sentences stand in <body>.
  tankside.reason = problem => {
    const say = document.body.dataset, lacking = ["WebAssembly", "DecompressionStream"].filter(name => !(name in window));
    if (lacking.length) return say.sayLacking.replace("{what}", lacking.join(", "));
    const file = (problem?.file ?? "").replace(/[?#].*$/, "").replace(/^(\.\.?\/)+/, "");
    if (problem?.fault === "missing") return say.sayFileMissing.replace("{file}", () => file);
    if (problem?.fault === "damaged") return say.sayFileDamaged.replace("{file}", () => file);
    return say.sayUnforeseen.replace("{problem}", () => problem?.message ?? String(problem));
  };

  // unescaped is a part of an address as it was before it was escaped; one that was cut in the middle of a character stays as it is.
  tankside.unescaped = text => {
    try {
      return decodeURIComponent(text);
    } catch {
      return text;
    }
  };

  // drop lets go of a content that has been used: some are megabytes of text. Asked for again, it is loaded again.
  tankside.drop = name => { delete parcels[name]; delete coming[name]; };
})();
