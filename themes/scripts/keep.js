// Keeps the edition on this device for use without a network, where it comes from a server, and says when a newer one is there. From a folder
// everything is here already.
(() => {
  "use strict";
  const root = document.documentElement.dataset.root;
  const told = document.querySelector(".offline");
  const tell = text => { if (told) told.textContent = text; };
  if (location.protocol === "file:") {
    tell(told && told.dataset.sayFile);
    return;
  }

  // A newer edition waits until somebody takes it: until then everything on the page, its search and its links are of one edition.
  const newer = document.querySelector(".newer");
  const minutes = 60000;
  let registration = null;
  let seen = ""; // digest of the files, as they were when this page first looked: readings of baths change it and no code
  const offer = take => {
    if (!newer || newer.childElementCount || document.querySelector("script[data-shown]")) return; // a page that follows its manual by itself
    const button = Object.assign(document.createElement("button"), { type: "button", textContent: newer.dataset.sayShow });
    button.addEventListener("click", take);
    newer.append(newer.dataset.sayNewer + " ", button);
  };
  const load = () => location.reload();
  const takeKept = () => {
    navigator.serviceWorker.addEventListener("controllerchange", load);
    if (registration.waiting) registration.waiting.postMessage("take"); else load();
  };
  const ready = worker => {
    if (worker.state === "installed" && registration.active) offer(takeKept);
    else worker.addEventListener("statechange", () => { if (worker.state === "installed" && registration.active) offer(takeKept); });
  };
  const look = async () => {
    if (document.hidden || !navigator.onLine) return;
    try {
      if (registration) return void await registration.update(); // it says so when the newer edition is there whole
      const head = await (await fetch(root + "offline.js", { cache: "no-cache" })).text();
      const found = /^const edition = (\{[^}]*\});/.exec(head);
      if (!found || !newer.dataset.edition) return;
      const there = JSON.parse(found[1]);
      seen = seen || there.digest;
      if (there.edition !== newer.dataset.edition || there.digest !== seen) offer(load);
    } catch {
      // no network: what is here goes on to serve
    }
  };
  if (newer) {
    addEventListener("load", () => setTimeout(look, 2000));
    document.addEventListener("visibilitychange", look);
    setInterval(look, 5 * minutes);
  }

  if (!("serviceWorker" in navigator)) {
    tell(told && told.dataset.sayNot);
    return;
  }
  const controlled = navigator.serviceWorker.controller;
  // Another page took the newer edition; this one is still the one before.
  navigator.serviceWorker.addEventListener("controllerchange", () => { if (controlled) offer(load); });
  const follow = got => {
    registration = got;
    const say = () => tell(got.active ? told && told.dataset.sayKept : told && told.dataset.sayNot);
    if (got.waiting) ready(got.waiting);
    if (got.active) got.addEventListener("updatefound", () => { if (got.installing) ready(got.installing); });
    const coming = got.installing;
    if (!coming) return say();
    if (got.active) {
      ready(coming);
      say();
    }
    // An edition that cannot be had whole is given up: the worker that was to bring it becomes redundant.
    coming.addEventListener("statechange", () => { if (coming.state === "activated" || coming.state === "redundant") say(); });
  };
  addEventListener("load", () => {
    navigator.serviceWorker.register(root + "offline.js", { scope: root || "./" })
      .then(follow, () => tell(told && told.dataset.sayNot)); // a private window, or no secure connection: the pages work all the same
  });
})();
