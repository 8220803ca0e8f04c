// Runs in the head of every page. Says that scripts run, and keeps what other scripts hand over: from a USB stick a page may not fetch
// its neighbours, but it may add a script, so data travels as scripts that call tankside.parcel(name, content).
(() => {
  "use strict";
  document.documentElement.classList.add("scripted");
  const parcels = {};
  window.tankside = {
    parcels,
    parcel(name, content) { parcels[name] = content; },

    // load adds the script that brings a parcel, once, and gives its content.
    load(name, source) {
      return new Promise((done, failed) => {
        if (name in parcels) return done(parcels[name]);
        if (!source) return failed(new Error(name + " is not part of this page"));
        const script = document.createElement("script");
        script.src = source;
        script.onload = () => { script.remove(); name in parcels ? done(parcels[name]) : failed(new Error(source + " brings no " + name)); };
        script.onerror = () => { script.remove(); failed(new Error(source + " cannot be read")); };
        document.head.append(script);
      });
    },

    // unpack gives the bytes of a parcel: base64 of gzip.
    async unpack(text) {
      const packed = Uint8Array.from(atob(text), c => c.charCodeAt(0));
      const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
      return new Uint8Array(await new Response(stream).arrayBuffer());
    },
  };
})();
