// Where visit reports are kept: on this device only, in the browser's database, or where it has none in its simple storage, or where neither
// can be used in this window alone. Whoever uses it is told which, and what could not be kept.
//
// A visit and each of its entries is a record of its own with a version, so that two windows that write at once do not meet. A record is
// written only over the version that was read; where another window was quicker, what was to be written is kept as a record beside it.
// Records are taken out by a mark, which an edit made elsewhere takes away again.
(() => {
  "use strict";
  const tankside = window.tankside;
  const base = "tankside-visits", prefix = "tankside.visit.";
  const channel = "BroadcastChannel" in window ? new BroadcastChannel(base) : null;
  const copy = record => JSON.parse(JSON.stringify(record));

  // settle says what is to be written when a record of version `before` (0 for a new one) was edited and `stored` is there now.
  const settle = (stored, record, before) => {
    const now = stored?.version ?? 0;
    if (now === before || record.gone && stored.gone) return [{ ...record, version: now + 1 }];
    if (record.gone) return []; // somebody went on writing in it: it stays
    if (stored.gone) return [{ ...record, version: now + 1 }];
    return [{ ...record, id: crypto.randomUUID?.() ?? newId(), version: 1, beside: stored.id }];
  };
  const newId = () => [...crypto.getRandomValues(new Uint8Array(16))].map(b => b.toString(16).padStart(2, "0")).join("");

  const database = async () => {
    const promise = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
    const opening = indexedDB.open(base, 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("records", { keyPath: "id" });
    const db = await new Promise((done, failed) => {
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => failed(opening.error);
      opening.onblocked = () => failed(new Error("the database is blocked"));
      setTimeout(() => failed(new Error("the database does not answer")), 5000);
    });
    db.onversionchange = () => db.close();
    return {
      where: "database",
      all: () => promise(db.transaction("records").objectStore("records").getAll()),
      put: (record, before) => new Promise((done, failed) => {
        const t = db.transaction("records", "readwrite", { durability: "strict" });
        const records = t.objectStore("records");
        let written;
        const reading = records.get(record.id);
        reading.onsuccess = () => { written = settle(reading.result, record, before); for (const r of written) records.put(r); };
        t.oncomplete = () => done(written);
        t.onerror = t.onabort = () => failed(t.error ?? new Error("the database gave up"));
      }),
    };
  };

  const simple = () => {
    localStorage.setItem(prefix + "try", "1");
    localStorage.removeItem(prefix + "try");
    return {
      where: "simple",
      all: async () => Object.keys(localStorage).filter(k => k.startsWith(prefix)).map(k => JSON.parse(localStorage.getItem(k))),
      put: async (record, before) => {
        const stored = JSON.parse(localStorage.getItem(prefix + record.id));
        const written = settle(stored, record, before);
        for (const r of written) localStorage.setItem(prefix + r.id, JSON.stringify(r));
        return written;
      },
    };
  };

  const window_ = () => {
    const records = new Map();
    return {
      where: "window",
      all: async () => [...records.values()].map(copy),
      put: async (record, before) => { const written = settle(records.get(record.id), record, before); for (const r of written) records.set(r.id, r); return written; },
    };
  };

  const find = async () => {
    for (const way of [database, simple]) {
      try {
        const found = await way();
        await found.all();
        return found;
      } catch (problem) { console.info("visit reports cannot be kept here:", problem?.message); }
    }
    return window_();
  };

  let opening;
  // visits promises the store. Its `unkept` holds the records that could not be kept: they are in this window only, and part of all().
  tankside.visits = () => opening ??= find().then(kept => {
    const unkept = new Map();
    const store = {
      where: kept.where, unkept, newId,
      changed: () => {}, // called when another window has written
      all: async () => {
        const list = new Map();
        try {
          for (const r of await kept.all()) list.set(r.id, r);
        } catch (problem) { store.unread = problem; }
        for (const r of unkept.values()) list.set(r.id, r);
        return [...list.values()].filter(r => !r.gone);
      },
      // put writes a record that was read at a version, 0 for a new one; it gives what is there then. A record that cannot be kept stays in this window.
      put: async record => {
        const before = record.version ?? 0;
        try {
          const written = await kept.put(copy(record), before);
          unkept.delete(record.id);
          channel?.postMessage("written");
          return written;
        } catch (problem) {
          unkept.set(record.id, copy(record));
          store.problem = problem;
          return [record];
        }
      },
      // again tries once more to keep what could not be kept.
      again: async () => { for (const r of [...unkept.values()]) await store.put(r); return unkept.size === 0; },
      // current is the visit that is under way: the one started last, of those that have not ended.
      current: async () => (await store.all()).filter(r => r.sort === "visit" && !r.ended).sort((a, b) => b.started.localeCompare(a.started))[0],
    };
    const tell = () => store.changed();
    if (channel) channel.onmessage = tell;
    addEventListener("storage", event => { if (event.key === null || event.key.startsWith(prefix)) tell(); });
    addEventListener("visibilitychange", () => { if (!document.hidden) tell(); });
    return store;
  });
})();
