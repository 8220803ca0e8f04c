// Where visit reports are kept: on this device only, in the browser's database, or where it has none in its simple storage, or where neither
// can be used in this window alone. Whoever uses it is told which, and what could not be kept.
//
// A visit and each of its entries is a record of its own with a version, so that two windows that write at once do not meet. A record is
// written only over the version that was read; where another window was quicker, what was to be written is kept as a record beside it.
// Pictures lie apart, by the id of their entry, and so does of each visit what a list of a thousand needs and what is searched of it: its summary, written
// with every record of the visit in one transaction. A database without summaries gets them when it is opened first, and keeps all that it has.
// Records are taken out by a mark, which an edit made elsewhere takes away again.
(() => {
  "use strict";
  const tankside = window.tankside;
  const base = "tankside-visits", prefix = "tankside.visit.", pictured = "tankside.picture.";
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
  // What is searched of an entry, and a visit as a list has it.
  const wordsOf = entry => [entry.title, entry.text].filter(Boolean).join(" ").toLowerCase();
  const listed = ["id", "sort", "started", "ended", "tank", "customer", "serial", "place", "by"];
  const summaryOf = (visit, entries) => ({
    ...Object.fromEntries(listed.filter(key => visit[key] !== undefined).map(key => [key, visit[key]])), words: entries.filter(e => e.sort === "entry" && !e.gone).map(wordsOf).filter(Boolean).join(" "),
  });
  // summariesOf makes those of all records, where they are not kept.
  const summariesOf = records => {
    const entries = new Map();
    for (const r of records) if (r.sort === "entry") { if (entries.has(r.visit)) entries.get(r.visit).push(r); else entries.set(r.visit, [r]); }
    return records.filter(r => r.sort === "visit" && !r.gone).map(v => summaryOf(v, entries.get(v.id) ?? []));
  };
  // sound tells a record, or a summary, that can be shown from one that was damaged or that somebody else has put there: it has what it is sorted and shown by, as the
  // report's schema has it. What is not sound is left where it is, and the page says so.
  const text = value => value === undefined || value === null || typeof value === "string";
  const dated = value => typeof value === "string" && !isNaN(Date.parse(value));
  const all = (list, fits) => list === undefined || list === null || Array.isArray(list) && list.every(fits);
  const parts = {
    __proto__: null,
    visit: r => dated(r.started) && (!r.ended || dated(r.ended)) && [r.tank, r.customer, r.serial, r.place, r.by, r.manual].every(text)
      && (!r.signature || text(r.signature.name) && dated(r.signature.at) && /^(M\d{1,3} \d{1,3}(L\d{1,3} \d{1,3})*)+$/.test(r.signature.strokes)),
    entry: r => typeof r.visit === "string" && dated(r.at) && [r.kind, r.title, r.text, r.outcome, r.beside].every(text) && (text(r.page) && /^([A-Za-z0-9][A-Za-z0-9/._#?=&%+,-]*)?$/.test(r.page ?? ""))
      && all(r.path, p => p && typeof p.step === "string" && text(p.answer)) && (!r.chart || text(r.chart.unit) && Array.isArray(r.chart.points) && r.chart.points.every(p => p && typeof p.at === "string" && typeof p.value === "number")),
  };
  const sound = r => r !== null && typeof r === "object" && typeof r.id === "string" && (Boolean(r.gone) || (parts[r.sort]?.(r) ?? true));
  const newId = () => [...crypto.getRandomValues(new Uint8Array(16))].map(b => b.toString(16).padStart(2, "0")).join("");

  const database = async () => {
    const promise = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
    // connect opens the database, and changes one that an older edition made. Where another window has it open in that older form, it is told to close it; one that
    // does not within five seconds keeps it from being used. The change itself takes its time: of a thousand visits on a slow device, more than that.
    const connect = async () => {
      const opening = indexedDB.open(base, 3);
      let patience = 0;
      opening.onupgradeneeded = event => {
        clearTimeout(patience); // nobody else has it open
        const db = opening.result, old = opening.transaction;
        const records = event.oldVersion < 1 ? db.createObjectStore("records", { keyPath: "id" }) : old.objectStore("records");
        if (event.oldVersion < 2) db.createObjectStore("pictures");
        records.createIndex("visit", "visit");
        const summaries = db.createObjectStore("summaries", { keyPath: "id" });
        if (event.oldVersion >= 1) records.getAll().onsuccess = got => { for (const s of summariesOf(got.target.result)) summaries.put(s); };
      };
      const db = await new Promise((done, failed) => {
        let late = false;
        opening.onsuccess = () => { if (late) opening.result.close(); else done(opening.result); };
        opening.onerror = () => failed(opening.error);
        opening.onblocked = () => console.info("visit reports wait for another window to close them");
        patience = setTimeout(() => { late = true; failed(new Error("the database does not answer")); }, 5000);
      });
      const leave = () => { if (open === db) open = null; };
      db.onversionchange = () => { db.close(); leave(); };
      db.onclose = leave;
      return db;
    };
    let open = await connect(), reopening = null;
    // Another window that closes it, or the browser, leaves none; then it is opened anew.
    const begin = async (stores, mode) => {
      open ??= await (reopening ??= connect().finally(() => { reopening = null; }));
      return open.transaction(stores, mode, mode && { durability: "strict" });
    };
    const read = async (name, ask) => promise(ask((await begin(name)).objectStore(name)));
    const ended = t => new Promise((done, failed) => { t.oncomplete = () => done(); t.onerror = t.onabort = () => failed(t.error ?? new Error("the database gave up")); });
    return {
      where: "database",
      all: () => read("records", s => s.getAll()),
      get: id => read("records", s => s.get(id)),
      entries: visit => read("records", s => s.index("visit").getAll(visit)),
      summaries: () => read("summaries", s => s.getAll()),
      picture: id => read("pictures", s => s.get(id)),
      keepPicture: async (id, data) => {
        const t = await begin("pictures", "readwrite"), pictures = t.objectStore("pictures");
        if (data === null) pictures.delete(id); else pictures.put(data, id);
        await ended(t);
      },
      put: async (record, before) => {
        const t = await begin(["records", "summaries"], "readwrite"), records = t.objectStore("records"), summaries = t.objectStore("summaries");
        let written;
        records.get(record.id).onsuccess = event => {
          written = settle(event.target.result, record, before);
          for (const r of written) records.put(r);
          for (const id of new Set(written.map(r => r.sort === "entry" ? r.visit : r.id).filter(Boolean))) {
            records.get(id).onsuccess = ({ target: { result: visit } }) => {
              if (!visit || visit.sort !== "visit") return; // an entry whose visit is not here
              if (visit.gone) return summaries.delete(id);
              records.index("visit").getAll(id).onsuccess = got => summaries.put(summaryOf(visit, got.target.result));
            };
          }
        };
        await ended(t);
        return written;
      },
    };
  };

  const simple = () => {
    localStorage.setItem(prefix + "try", "1");
    localStorage.removeItem(prefix + "try");
    return {
      where: "simple",
      picture: async id => localStorage.getItem(pictured + id) ?? undefined,
      keepPicture: async (id, data) => { if (data === null) localStorage.removeItem(pictured + id); else localStorage.setItem(pictured + id, data); },
      get: async id => JSON.parse(localStorage.getItem(prefix + id)) ?? undefined,
      all: async () => Object.keys(localStorage).filter(k => k.startsWith(prefix) && k !== prefix + "try").map(k => {
        try { return JSON.parse(localStorage.getItem(k)); } catch { return null; } // damaged
      }),
      put: async (record, before) => {
        const stored = JSON.parse(localStorage.getItem(prefix + record.id));
        const written = settle(stored, record, before);
        for (const r of written) localStorage.setItem(prefix + r.id, JSON.stringify(r));
        return written;
      },
    };
  };

  const window_ = () => {
    const records = new Map(), pictures = new Map();
    return {
      where: "window",
      picture: async id => pictures.get(id),
      keepPicture: async (id, data) => { if (data === null) pictures.delete(id); else pictures.set(id, data); },
      get: async id => records.has(id) ? copy(records.get(id)) : undefined,
      all: async () => [...records.values()].map(copy),
      put: async (record, before) => { const written = settle(records.get(record.id), record, before); for (const r of written) records.set(r.id, r); return written; },
    };
  };

  // fetchSimple takes what had to be kept in the simple storage, while another window held the database, into the database.
  const fetchSimple = async found => {
    let keys = [];
    try { keys = Object.keys(localStorage); } catch { return; /* there is no simple storage */ }
    for (const key of keys) {
      try {
        if (key.startsWith(pictured)) await found.keepPicture(key.slice(pictured.length), localStorage.getItem(key));
        else if (key.startsWith(prefix)) await found.put(JSON.parse(localStorage.getItem(key)), 0);
        else continue;
        localStorage.removeItem(key);
      } catch (problem) { console.info("a visit report stays in the simple storage:", problem?.message); }
    }
  };

  const find = async () => {
    for (const way of [database, simple]) {
      try {
        const found = await way();
        if (found.summaries) await found.summaries(); else await found.all();
        if (way === database) await fetchSimple(found);
        return found;
      } catch (problem) { console.info("visit reports cannot be kept here:", problem?.message); }
    }
    return window_();
  };

  let opening;
  // visits promises the store. Its `unkept` holds the records that could not be kept: they are in this window only, and part of all().
  tankside.visits = () => opening ??= find().then(kept => {
    const unkept = new Map();
    // attempt reads, and notes what cannot be read, so that the page can say so.
    const attempt = async (reads, otherwise) => {
      try { return await reads(); } catch (problem) { store.unread = problem; return otherwise; }
    };
    const sounds = list => {
      const found = list.filter(sound);
      if (found.length < list.length) store.damaged = true;
      return found;
    };
    const store = {
      where: kept.where, unkept, newId,
      changed: () => {}, // called when another window has written
      all: async () => {
        const list = new Map();
        try {
          for (const r of sounds(await kept.all())) list.set(r.id, r);
        } catch (problem) { store.unread = problem; }
        for (const r of unkept.values()) if (r.sort !== "picture") list.set(r.id, r);
        return [...list.values()].filter(r => !r.gone);
      },
      // get promises a record, and entries those of a visit, without what was taken out.
      get: async id => {
        const record = unkept.get(id) ?? await attempt(() => kept.get(id), undefined);
        return record && !record.gone && sounds([record]).length ? record : undefined;
      },
      entries: async visit => {
        const found = await attempt(async () => kept.entries ? kept.entries(visit) : sounds(await kept.all()).filter(r => r.sort === "entry" && r.visit === visit), []);
        const list = new Map(sounds(found).map(r => [r.id, r]));
        for (const r of unkept.values()) if (r.sort === "entry" && r.visit === visit) list.set(r.id, r);
        return [...list.values()].filter(r => r.sort === "entry" && !r.gone);
      },
      // summaries promises of each visit what a list of them needs, and in words what is searched of its entries, in small letters.
      summaries: async () => {
        const lost = [...unkept.values()].filter(r => r.sort !== "picture");
        if (!kept.summaries || lost.length) return summariesOf(await store.all()); // what is in this window only is part of them
        return sounds(await attempt(() => kept.summaries(), []));
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
      // picture promises that of an entry; keepPicture keeps it, or in this window where it cannot be kept. null takes it away.
      picture: async id => {
        const data = unkept.get("picture " + id)?.data ?? await kept.picture(id);
        if (data === undefined || /^data:image\/(jpeg|png);base64,[A-Za-z0-9+/]*={0,2}$/.test(data)) return data;
        store.damaged = true;
        return undefined;
      },
      keepPicture: async (id, data) => {
        try {
          await kept.keepPicture(id, data);
          unkept.delete("picture " + id);
        } catch (problem) {
          unkept.set("picture " + id, { sort: "picture", id, data });
          store.problem = problem;
        }
      },
      // again tries once more to keep what could not be kept.
      again: async () => {
        for (const r of [...unkept.values()]) if (r.sort === "picture") await store.keepPicture(r.id, r.data); else await store.put(r);
        return unkept.size === 0;
      },
      // current is the visit that is under way: the one started last, of those that have not ended.
      current: async () => (await store.summaries()).filter(v => !v.ended).sort((a, b) => b.started.localeCompare(a.started))[0],
    };
    const tell = () => store.changed();
    if (channel) channel.onmessage = tell;
    addEventListener("storage", event => { if (event.key === null || event.key.startsWith(prefix)) tell(); });
    addEventListener("visibilitychange", () => { if (!document.hidden) tell(); });
    return store;
  });
})();
