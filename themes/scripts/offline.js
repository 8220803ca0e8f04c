// The offline worker. The lines above name the edition and what is said of a damaged one. It takes an edition whole or not at all: every file of the
// checksum list that is read here is fetched and compared before the new edition answers, and until then the old one does. A new one answers when a
// page asks for it, or when no page of the old one is open any more. What is kept is compared again each time that it answers. It asks no clock.

// One server may have several manuals, each in a folder of its own: what is kept is named by the folder, and none touches another's.
const mine = "tankside-edition " + registration.scope + " ";
const kept = mine + edition.digest;
const listName = "edition.json";

const hex = buffer => [...new Uint8Array(buffer)].map(b => b.toString(16).padStart(2, "0")).join("");
const sumOf = async data => hex(await crypto.subtle.digest("SHA-256", data));

// Where a file of the edition is, whatever letters its name has; and the file of an address, or null where it lies elsewhere.
const addressOf = path => new URL(path.split("/").map(encodeURIComponent).join("/"), registration.scope).href;
const fileOf = address => {
  const url = new URL(address);
  url.search = url.hash = "";
  if (!url.href.startsWith(registration.scope)) return null;
  try {
    const path = decodeURIComponent(url.href.slice(registration.scope.length));
    return path === "" || path.endsWith("/") ? path + "index.html" : path;
  } catch {
    return null;
  }
};

// fetched promises a file as the checksum list has it.
async function fetched(path, sum) {
  const response = await fetch(addressOf(path), { cache: "no-cache" });
  if (!response.ok) throw new Error(path + ": " + response.status);
  if (await sumOf(await response.clone().arrayBuffer()) !== sum) throw new Error(path + " is not what the checksum list says");
  return response;
}

// readHere tells files that pages use from those by which editions are compared, and from what says which edition is served, which is asked for anew.
const readHere = file => file.path !== "offline.js" && file.path !== "current.svg" && !file.path.startsWith("content/");

// install keeps the edition. Its list is kept last: what has no list is not whole.
async function install() {
  const response = await fetch(addressOf(listName), { cache: "no-cache" });
  const list = await response.clone().json();
  const files = list.files.filter(f => f.path !== "offline.js").map(f => f.sha256 + " " + f.path + "\n").join("");
  if (list.digest !== edition.digest || await sumOf(new TextEncoder().encode(files)) !== edition.digest) throw new Error("the server is between two editions");
  const before = await listOf(kept); // another worker's, of the same files
  if (!before) await caches.delete(kept); // what an attempt that broke off left
  if (!registration.active) await forget(name => name !== kept);
  try {
    const cache = await caches.open(kept), all = list.files.filter(readHere);
    for (let i = 0; i < all.length; i += 8) await Promise.all(all.slice(i, i + 8).map(async f => put(cache, f.path, await fetched(f.path, f.sha256))));
    await cache.put(addressOf(listName), response);
  } catch (problem) {
    if (!before) await caches.delete(kept);
    lists.delete(kept);
    await tell({ not: problem?.name === "QuotaExceededError" ? "room" : "whole" });
    throw problem;
  }
  lists.delete(kept);
}

// put keeps a file. Where no edition is kept whole, one has just made room for this, and a browser counts that room as taken for a while after: then it waits.
async function put(cache, path, response) {
  for (let tries = 5; ; tries--) {
    try {
      return await cache.put(addressOf(path), response.clone());
    } catch (problem) {
      if (problem?.name !== "QuotaExceededError" || tries === 1 || (await editions()).length > 0) throw problem;
      await new Promise(done => setTimeout(done, 2000));
    }
  }
}

// tell has every page of this manual know.
async function tell(what) {
  for (const page of await clients.matchAll({ type: "window", includeUncontrolled: true })) {
    if (page.url.startsWith(registration.scope)) page.postMessage({ tankside: what });
  }
}

const names = async () => (await caches.keys()).filter(name => name.startsWith(mine));

// there promises a file as it is kept under a name, or nothing. A cache that is asked for by opening it is made anew where it has just been given up, and
// would then stand behind a newer one.
const there = (name, path) => caches.match(addressOf(path), { cacheName: name });

// forget gives up what is kept under the names that a function picks. Each file is taken out by itself: of what is still being read somewhere, a browser
// would go on to count the room.
async function forget(which) {
  for (const name of await names()) {
    if (!which(name)) continue;
    lists.delete(name);
    const cache = await caches.open(name);
    await cache.delete(addressOf(listName)); // from here on it is not whole
    for (const file of await cache.keys()) await cache.delete(file);
    await caches.delete(name);
  }
}

// listOf promises the list of an edition that is kept whole: its code, and its files with their checksums; or null.
const lists = new Map();
function listOf(name) {
  if (!lists.has(name)) {
    lists.set(name, (async () => {
      const found = await there(name, listName);
      if (!found) return null;
      const { code, files } = await found.json();
      return { code, sums: new Map(files.filter(readHere).map(f => [f.path, f.sha256])) };
    })().catch(() => null));
  }
  return lists.get(name);
}

// editions are this one and the others that are kept whole, the latest first.
async function editions() {
  const now = await names(), all = [];
  for (const name of lists.keys()) if (!now.includes(name)) lists.delete(name);
  for (const name of [kept, ...now.filter(name => name !== kept).reverse()]) {
    const list = await listOf(name);
    if (list) all.push({ name, ...list }); else lists.delete(name);
  }
  return all;
}

// The edition before stays too: a page of it may still be open and ask for its parts.
async function activate() {
  const stay = (await editions()).slice(0, 2).map(one => one.name);
  await forget(name => !stay.includes(name) && !(registration.installing || registration.waiting)); // a newer one that is on its way
  await clients.claim();
}

// from promises a file of a kept edition as its list has it, or nothing where it has none. One that is damaged or missing here is fetched anew, where
// the server still has it.
async function from(one, path) {
  const sum = one.sums.get(path);
  if (!sum) return undefined;
  const found = await there(one.name, path);
  if (found && await sumOf(await found.clone().arrayBuffer()) === sum) return found;
  const again = await fetched(path, sum), copy = again.clone();
  if (await there(one.name, listName)) { // meanwhile it may have been given up
    await caches.open(one.name).then(cache => cache.put(addressOf(path), copy)).catch(problem => console.info("a mended file is not kept:", problem?.message));
  }
  return again;
}

// giveUp lets go of this edition and of those before it, but not of the one with a digest that the server is known to have. Pages then have the one that is
// kept next answer at once: nobody waits with one that is not whole.
async function giveUp(served) {
  const all = await names(), old = all.slice(0, all.indexOf(kept) + 1);
  await forget(name => old.includes(name) && name !== mine + served);
}

// lost answers in place of a page that is not here as it should be: with the page of the server's edition, which is then kept in place of this one; or,
// where there is no server, or its edition is the same and damaged too, with a sentence.
let again = null; // a promise of this edition, while it is kept anew
async function lost(event, problem) {
  try {
    const { digest } = await (await fetch(addressOf(listName), { cache: "no-cache" })).json(), same = digest === edition.digest;
    if (!digest || problem && same) throw new Error("the server has no other edition");
    const answer = await fetch(event.request);
    if (!same) await giveUp(digest); // the browser looks for the newer worker by itself
    if (same) event.waitUntil(again ??= install().catch(problem => console.error(problem)).finally(() => { again = null; }));
    return answer;
  } catch {
    return new Response(sayDamaged, { status: 503, headers: { "Content-Type": "text/plain; charset=utf-8" } });
  }
}

async function answer(event) {
  const { request } = event;
  const path = fileOf(request.url);
  if (path === null) return fetch(request);
  const all = await editions();
  const page = request.mode === "navigate";
  if (all[0]?.name !== kept && page) return lost(event); // somebody emptied the browser's storage
  // A page is of this edition or of none: one that has been taken out of the manual is not shown from the edition before. What a page loads is told by
  // the digest in its name, or by the code of the edition that it asks for.
  const code = new URL(request.url).searchParams.get("edition");
  const asked = page ? all.slice(0, 1) : all.filter(one => one.code === code || !code || all.every(other => other.code !== code));
  for (const one of asked) {
    try {
      const found = path === listName ? await there(one.name, listName) : await from(one, path);
      if (found) return found;
    } catch (problem) {
      console.error(problem);
      return page ? lost(event, problem) : Response.error();
    }
  }
  return fetch(request);
}

// state says whether all of this edition is here.
async function state() {
  const [here] = await editions();
  let whole = here?.name === kept;
  for (const path of whole ? here.sums.keys() : []) {
    try {
      await from(here, path);
    } catch {
      whole = false;
      break;
    }
  }
  return { whole };
}

addEventListener("install", e => e.waitUntil(install()));
addEventListener("activate", e => e.waitUntil(activate()));
addEventListener("message", e => {
  if (e.data === "take") e.waitUntil(skipWaiting());
  if (e.data === "instead") e.waitUntil(giveUp().then(() => e.ports[0].postMessage({})));
  if (e.data === "which") e.waitUntil(listOf(kept).then(list => e.ports[0].postMessage({ edition: list?.code ?? "" })));
  if (e.data === "whole") e.waitUntil(state().then(told => e.ports[0].postMessage(told)));
});
addEventListener("fetch", e => { if (e.request.method === "GET" && new URL(e.request.url).origin === location.origin) e.respondWith(answer(e)); });
