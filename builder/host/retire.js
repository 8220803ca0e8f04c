// Takes the place of the edition's offline worker while the manual is written. One that was kept from this address earlier would
// answer with its old edition; it is retired here, with what it kept. Where there is none, none is installed.
const retire = async () => {
  for (const name of await caches.keys()) if (name.startsWith("tankside-edition " + registration.scope + " ")) await caches.delete(name);
  await registration.unregister();
  for (const page of await clients.matchAll({ type: "window" })) await page.navigate(page.url);
};
addEventListener("install", e => e.waitUntil(registration.active ? skipWaiting() : Promise.reject(new Error("pages are not kept while the manual is written"))));
addEventListener("activate", e => e.waitUntil(clients.claim().then(retire)));
