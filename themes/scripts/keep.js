// Keeps the edition on this device for use without a network, where it comes from a server, and says when a newer one is there. From a folder
// everything is here already.
(() => {
  "use strict";
  const tankside = window.tankside;
  const root = document.documentElement.dataset.root;
  const told = document.querySelector(".offline");
  const tell = text => { if (told) told.textContent = text; };
  if (location.protocol === "file:") {
    tell(told && told.dataset.sayFile);
    return;
  }
  document.head.append(Object.assign(document.createElement("link"), { rel: "manifest", href: root + "manual.webmanifest" })); // from a folder a browser would complain of it

  // A newer edition waits until somebody takes it: until then everything on the page, its search and its links are of one edition.
  const newer = document.querySelector(".newer");
  const minutes = 60000;
  const patience = 5000; // ms
  let registration = null;
  let seen = ""; // digest of the files, as they were when this page first looked: readings of baths change it and no code
  const load = () => location.reload();
  // What a press does is decided when it is pressed: by then the newer edition may be kept that the page had only heard of.
  const show = () => registered().then(got => take(got?.waiting));
  const offer = (act = show, text = newer?.dataset.sayNewer) => {
    if (!newer || newer.querySelector("button") || document.querySelector("script[data-shown]")) return; // a page that follows its manual by itself
    const button = Object.assign(document.createElement("button"), { type: "button", textContent: newer.dataset.sayShow });
    button.addEventListener("click", act);
    newer.replaceChildren(text + " ", button);
  };
  tankside.otherEdition = () => offer(); // a script of the page met a part of another edition
  // registered promises what is registered, also of a page whose own registering takes its time, or nothing.
  const registered = async () => {
    if (!registration && "serviceWorker" in navigator) registration = await navigator.serviceWorker.getRegistration(root || "./").catch(() => null);
    return registration;
  };
  // Where there is no room for a second edition, the one that is kept makes room for the newer one.
  const takeInstead = async () => {
    await inquire(navigator.serviceWorker.controller, "instead");
    load();
  };
  // urge tells a worker to answer from now on. A browser may end one while it waits for the one before: then it is told again.
  const urge = worker => {
    const post = () => worker.postMessage("take");
    post();
    setInterval(() => { if (worker.state === "installed") post(); }, patience);
  };
  // take has the worker that keeps the newer edition answer, and shows it. A page that nobody takes over learns of no other controller, so the worker's own state counts
  // too; one that is taken no more asks what is there now.
  const take = worker => {
    if (worker?.state !== "installed") return load();
    navigator.serviceWorker.addEventListener("controllerchange", load);
    worker.addEventListener("statechange", () => { if (["activated", "redundant"].includes(worker.state)) load(); });
    urge(worker);
  };
  // An edition that is not whole any more is not waited with: the newer one takes its place.
  const ready = worker => {
    const installed = async () => {
      if (worker.state !== "installed" || !registration.active) return;
      if ((await inquire(registration.active, "which")).edition === "") urge(worker); else offer();
    };
    worker.addEventListener("statechange", installed);
    installed();
  };
  const look = async () => {
    if (document.hidden || !navigator.onLine) return;
    try {
      const got = await registered();
      if (got?.active) return void await got.update(); // it says so when the newer edition is there whole
      const head = await (await fetch(root + "offline.js", { cache: "no-cache" })).text();
      const found = /^const edition = (\{[^}]*\});/.exec(head);
      if (!found || !newer.dataset.edition) return;
      const there = JSON.parse(found[1]);
      seen = seen || there.digest;
      if (there.edition !== newer.dataset.edition || there.digest !== seen) offer();
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
  // inquire asks the worker a question and promises its answer, or of one that knows no questions that it has none.
  const inquire = (worker, question, most = minutes) => new Promise(done => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = e => done(e.data);
    worker.postMessage(question, [port2]);
    setTimeout(done, most, {});
  });
  const controlled = navigator.serviceWorker.controller;
  // Another page took the newer edition; this one is still the one before.
  const compare = async worker => {
    const { edition } = await inquire(worker, "which");
    if (newer?.dataset.edition && edition && edition !== newer.dataset.edition) offer();
  };
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (controlled) compare(navigator.serviceWorker.controller);
    if (registration) say();
  });
  // say tells whether all of the edition is kept, where the page has a place for it. Workers answer when they can: what the one before says late is not told.
  let asked = 0;
  const say = async () => {
    if (!told) return;
    const mine = ++asked;
    const { whole } = registration.active ? await inquire(registration.active, "whole", 10 * minutes) : {}; // it reads every file
    if (mine === asked) tell(whole ? told.dataset.sayKept : told.dataset.sayNot);
  };
  // A newer edition could not be kept: the one before goes on to answer.
  navigator.serviceWorker.addEventListener("message", ({ data }) => {
    const not = data?.tankside?.not;
    if (!newer || !not || !controlled) return;
    if (not === "room") offer(takeInstead, newer.dataset.sayRoom);
    else if (!newer.childElementCount) newer.textContent = newer.dataset.sayWhole;
  });
  const follow = got => {
    registration = got;
    if (got.active && controlled) compare(got.active);
    if (got.waiting) ready(got.waiting);
    if (got.active) got.addEventListener("updatefound", () => { if (got.installing) ready(got.installing); });
    const coming = got.installing;
    if (!coming) return say();
    if (got.active) {
      ready(coming);
      say();
    }
    // An edition that cannot be had whole is given up: the worker that was to bring it becomes redundant.
    coming.addEventListener("statechange", () => {
      if (coming.state === "activated") compare(coming); // the server may have gone on between this page and its worker
      if (coming.state === "activated" || coming.state === "redundant") say();
    });
  };
  addEventListener("load", () => {
    navigator.serviceWorker.register(root + "offline.js", { scope: root || "./" })
      .then(follow, () => tell(told && told.dataset.sayNot)); // a private window, or no secure connection: the pages work all the same
  });
})();
