// Keeps the edition on this device for use without a network, where it comes from a server. From a folder everything is here already.
(() => {
  "use strict";
  const root = document.documentElement.dataset.root;
  const told = document.querySelector(".offline");
  const tell = text => { if (told) told.textContent = text; };
  if (location.protocol === "file:") {
    tell(told && told.dataset.sayFile);
    return;
  }
  if (!("serviceWorker" in navigator)) {
    tell(told && told.dataset.sayNot);
    return;
  }
  addEventListener("load", () => {
    navigator.serviceWorker.register(root + "offline.js", { scope: root || "./" }).then(
      () => navigator.serviceWorker.ready.then(() => tell(told && told.dataset.sayKept)),
      () => tell(told && told.dataset.sayNot)); // a private window, or no secure connection: the pages work all the same
  });
})();
