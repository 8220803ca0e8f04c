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
  const follow = registration => {
    const say = () => tell(registration.active ? told && told.dataset.sayKept : told && told.dataset.sayNot);
    const coming = registration.installing;
    if (!coming) return say();
    // An edition that cannot be had whole is given up: the worker that was to bring it becomes redundant.
    coming.addEventListener("statechange", () => { if (coming.state === "activated" || coming.state === "redundant") say(); });
  };
  addEventListener("load", () => {
    navigator.serviceWorker.register(root + "offline.js", { scope: root || "./" })
      .then(follow, () => tell(told && told.dataset.sayNot)); // a private window, or no secure connection: the pages work all the same
  });
})();
