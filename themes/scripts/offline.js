// The offline worker. The line above names the edition. It takes an edition whole or not at all: every file of the checksum list is
// fetched and compared before the new edition answers, and until then the old one does.
const kept = "tankside-edition-" + edition.digest;

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
  const files = list.files.filter(f => f.path !== "offline.js");
  try {
    for (let i = 0; i < files.length; i += 8) await Promise.all(files.slice(i, i + 8).map(f => take(cache, f)));
  } catch (problem) {
    await caches.delete(kept);
    throw problem;
  }
}

// The edition before stays too: a page of it may still be open and ask for its parts.
async function activate() {
  const editions = (await caches.keys()).filter(name => name.startsWith("tankside-edition-") && name !== kept);
  for (const name of editions.slice(0, -1)) await caches.delete(name);
  await clients.claim();
}

async function answer(request) {
  const url = new URL(request.url);
  url.search = "";
  url.hash = "";
  if (url.pathname.endsWith("/")) url.pathname += "index.html";
  const cache = await caches.open(kept);
  return (await cache.match(url.href)) || (await caches.match(url.href)) || fetch(request);
}

addEventListener("install", e => e.waitUntil(install().then(() => skipWaiting())));
addEventListener("activate", e => e.waitUntil(activate()));
addEventListener("fetch", e => { if (e.request.method === "GET" && new URL(e.request.url).origin === location.origin) e.respondWith(answer(e.request)); });
