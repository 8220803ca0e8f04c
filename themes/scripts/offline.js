// The offline worker. The line above names the edition. It takes an edition whole or not at all: every file of the checksum list that is read here is
// fetched and compared before the new edition answers, and until then the old one does. A new one answers when a page asks for it, or when no
// page of the old one is open any more.

// One server may have several manuals, each in a folder of its own: what is kept is named by the folder, and none touches another's.
const mine = "tankside-edition " + registration.scope + " ";
const kept = mine + edition.digest;

const hex = buffer => [...new Uint8Array(buffer)].map(b => b.toString(16).padStart(2, "0")).join("");

async function take(cache, file) {
  const response = await fetch(file.path, { cache: "no-cache" });
  if (!response.ok) throw new Error(file.path + ": " + response.status);
  const body = await response.clone().arrayBuffer();
  if (hex(await crypto.subtle.digest("SHA-256", body)) !== file.sha256) throw new Error(file.path + " is not what the checksum list says");
  await cache.put(file.path, response);
}

async function install() {
  const list = await (await fetch("edition.json", { cache: "no-cache" })).json();
  if (list.digest !== edition.digest) throw new Error("the server is between two editions");
  await caches.delete(kept); // what an attempt that broke off left
  const cache = await caches.open(kept);
  const files = list.files.filter(f => f.path !== "offline.js" && !f.path.startsWith("content/")); // what editions are compared by, nobody reads here
  try {
    for (let i = 0; i < files.length; i += 8) await Promise.all(files.slice(i, i + 8).map(f => take(cache, f)));
  } catch (problem) {
    await caches.delete(kept);
    throw problem;
  }
}

// This edition and those kept before it, the latest first.
async function editions() {
  const names = (await caches.keys()).filter(name => name.startsWith(mine));
  return names.slice(0, names.indexOf(kept) + 1).reverse();
}

// The edition before stays too: a page of it may still be open and ask for its parts.
async function activate() {
  for (const name of (await editions()).slice(2)) await caches.delete(name);
  await clients.claim();
}

async function answer(request) {
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  // A page is of this edition or of none: one that has been taken out of the manual is not shown from the edition before.
  for (const name of request.mode === "navigate" ? [kept] : await editions()) {
    const found = await (await caches.open(name)).match(url.href);
    if (found) return found;
  }
  return fetch(request);
}

addEventListener("install", e => e.waitUntil(install()));
addEventListener("activate", e => e.waitUntil(activate()));
addEventListener("message", e => { if (e.data === "take") skipWaiting(); });
addEventListener("fetch", e => { if (e.request.method === "GET" && new URL(e.request.url).origin === location.origin) e.respondWith(answer(e.request)); });
