// Readings of the baths that were entered on this device. They are kept in the browser's database, or where it has none in its simple storage, or where
// neither can be used in this window alone; whoever enters one is told which. Needs rows.js, which says what a row is. From a folder (file://) Chromium gives
// all pages one database, and Firefox each page its own.
//
// What other scripts may use, window.tankside.readings:
//
//   all(tank)            promises every row of a tank that is here, corrected ones too, in the order of time
//   standing(tank)       promises those that nothing replaces
//   add(tank, row)       keeps a new row; what it lacks of id and when it gets. Promises { row, kept }, kept false where it is in this window only
//   correct(tank, id, row)  keeps a row that stands for the one with that id; add({ replaces: id }) without a number takes that one back
//   merge(tank, rows, sent) takes rows from elsewhere, by the rule of rows.js; with sent true they are known to the host. Promises { added, there, unkept }
//   unsent(tank)         promises the rows that no host has said it has; without a tank those of all, as [{ tank, row }]
//   markSent(tank, ids)  notes that the host has them
//   tanks()              promises the ids of the tanks of which there are rows
//   keeps()              promises "database", "simple" or "window"
//   again()              tries once more to keep what could not be kept; promises whether all is kept
//   unkept               the rows that are in this window only, by tank and id
//
// Whatever changes, here or in another window, window hears “tankside-readings” with the tank in detail.tank.
(() => {
  "use strict";
  const tankside = window.tankside, rows = tankside.rows;
  const base = "tankside-readings", prefix = "tankside.reading.", parting = "\x1f";
  const channel = "BroadcastChannel" in window ? new BroadcastChannel(base) : null;
  const key = (tank, id) => tank + parting + id;
  const newId = () => [...crypto.getRandomValues(new Uint8Array(10))].map(b => b.toString(16).padStart(2, "0")).join("");
  const two = n => String(n).padStart(2, "0");
  // now is the shop's clock, as a record has it; with the offset from UTC where the record's times have theirs.
  const now = zoned => {
    const d = new Date(), offset = -d.getTimezoneOffset(), far = Math.abs(offset);
    const text = [d.getFullYear(), two(d.getMonth() + 1), two(d.getDate())].join("-") + "T" + [d.getHours(), d.getMinutes(), d.getSeconds()].map(two).join(":");
    return zoned ? text + (offset < 0 ? "-" : "+") + two(Math.floor(far / 60)) + ":" + two(far % 60) : text;
  };

  // A kept row is { key, tank, row }, with unsent: 1 until the host has it. take gives what is to be written of rows that come, where `there` gives what is kept
  // under a key, and known, if it is told, are the keys of all that is.
  const take = async (tank, coming, sent, there, known) => {
    const writes = new Map();
    let added = 0;
    const put = async (row, counts) => {
      const at = key(tank, row.id), old = writes.get(at) ?? await there(at);
      if (!old) {
        added++;
        return void writes.set(at, { key: at, tank, row, ...((!sent || !counts) && { unsent: 1 }) });
      }
      const [stays, other] = rows.meet(old.row, row);
      const keep = { ...old, row: stays };
      if (sent && counts && rows.content(stays) === rows.content(row)) delete keep.unsent;
      if (stays !== old.row || keep.unsent !== old.unsent) writes.set(old.key, keep);
      if (other) await put(other, false);
    };
    // A row that nobody knows is put at once: to wait for each of 100,000 takes longer than to write them.
    for (const row of coming.map(rows.named)) {
      const at = key(tank, row.id);
      if (known && !known.has(at) && !writes.has(at)) {
        added++;
        writes.set(at, { key: at, tank, row, ...(!sent && { unsent: 1 }) });
      } else await put(row, true);
    }
    return { writes: [...writes.values()], added };
  };

  const asked = request => new Promise((done, failed) => { request.onsuccess = () => done(request.result); request.onerror = () => failed(request.error); });
  const database = async () => {
    const opening = indexedDB.open(base, 1);
    opening.onupgradeneeded = () => {
      const store = opening.result.createObjectStore("rows", { keyPath: "key" });
      store.createIndex("unsent", "unsent");
    };
    const db = await new Promise((done, failed) => {
      opening.onsuccess = () => done(opening.result);
      opening.onerror = () => failed(opening.error);
      opening.onblocked = () => failed(new Error("the database is blocked"));
      setTimeout(() => failed(new Error("the database does not answer")), 5000);
    });
    db.onversionchange = () => db.close();
    const read = () => db.transaction("rows").objectStore("rows");
    const of = tank => IDBKeyRange.bound(tank + parting, tank + parting + "\uffff");
    // change reads and writes in one transaction, so that two windows that write at once do not meet.
    const change = does => new Promise((done, failed) => {
      const t = db.transaction("rows", "readwrite", { durability: "strict" });
      let result;
      t.oncomplete = () => done(result);
      t.onerror = t.onabort = () => failed(t.error ?? new Error("the database gave up"));
      does(t.objectStore("rows")).then(r => { result = r; }, problem => { failed(problem); try { t.abort(); } catch { /* it has ended */ } });
    });
    return {
      where: "database",
      all: tank => asked(tank === undefined ? read().getAll() : read().getAll(of(tank))),
      unsent: () => asked(read().index("unsent").getAll()),
      tanks: async () => {
        const found = [];
        for (let from = ""; ;) {
          const at = await asked(read().openKeyCursor(IDBKeyRange.lowerBound(from)));
          if (!at) return found;
          found.push(at.key.split(parting)[0]);
          from = found.at(-1) + parting + "\uffff";
        }
      },
      take: (tank, coming, sent) => change(async store => {
        const known = new Set(await asked(store.getAllKeys(of(tank)))); // one question instead of one a row
        const { writes, added } = await take(tank, coming, sent, k => known.has(k) ? asked(store.get(k)) : undefined, known);
        for (const w of writes) store.put(w);
        return added;
      }),
      sent: (tank, ids) => change(async store => {
        for (const id of ids) {
          const kept = await asked(store.get(key(tank, id)));
          if (kept?.unsent) { delete kept.unsent; store.put(kept); }
        }
      }),
    };
  };

  // over keeps rows in something that has keys, get, and set.
  const over = (where, { keys, get, set }) => {
    const list = () => keys().map(get);
    return {
      where,
      all: async tank => list().filter(k => tank === undefined || k.tank === tank),
      unsent: async () => list().filter(k => k.unsent),
      tanks: async () => [...new Set(list().map(k => k.tank))],
      take: async (tank, coming, sent) => {
        const { writes, added } = await take(tank, coming, sent, get);
        for (const w of writes) set(w.key, w);
        return added;
      },
      sent: async (tank, ids) => {
        for (const id of ids) {
          const kept = get(key(tank, id));
          if (kept?.unsent) { const { unsent, ...rest } = kept; set(kept.key, rest); }
        }
      },
    };
  };
  const simple = () => {
    localStorage.setItem(prefix + "try", "1");
    localStorage.removeItem(prefix + "try");
    return over("simple", {
      keys: () => Object.keys(localStorage).filter(k => k.startsWith(prefix)).map(k => k.slice(prefix.length)),
      get: k => JSON.parse(localStorage.getItem(prefix + k)) ?? undefined,
      set: (k, kept) => localStorage.setItem(prefix + k, JSON.stringify(kept)),
    });
  };
  const inWindow = () => {
    const kept = new Map();
    return over("window", { keys: () => [...kept.keys()], get: k => kept.get(k), set: (k, v) => kept.set(k, v) });
  };

  const find = async () => {
    for (const way of [database, simple]) {
      try {
        const found = await way();
        await found.tanks();
        return found;
      } catch (problem) { console.info("readings cannot be kept here:", problem?.message); }
    }
    return inWindow();
  };
  let opening;
  const store = () => opening ??= find();

  const unkept = new Map(); // key → { tank, row }
  const tell = (tank, far) => {
    turn++;
    held.delete(tank);
    if (!far) channel?.postMessage(tank);
    dispatchEvent(new CustomEvent("tankside-readings", { detail: { tank } }));
  };
  if (channel) channel.onmessage = event => tell(event.data, true);
  addEventListener("storage", event => { if (event.key?.startsWith(prefix)) tell(event.key.slice(prefix.length).split(parting)[0], true); });

  // What was read of a tank is kept until something changes, here or in another window, so that a page of 100,000 readings is not read twice in a row; where windows
  // cannot tell each other, it is read each time.
  const held = new Map();
  let turn = 0;
  const mine = tank => [...unkept.values()].filter(u => u.tank === tank).map(u => u.row);
  const all = async tank => {
    if (held.has(tank)) return held.get(tank).slice();
    const now = turn, list = rows.merge((await (await store()).all(tank)).map(k => k.row), mine(tank));
    if (now === turn && channel) held.set(tank, list);
    return list.slice();
  };
  const merge = async (tank, coming, sent = false) => {
    let added = 0, lost = 0;
    try {
      added = await (await store()).take(tank, coming, sent);
      for (const row of coming) unkept.delete(key(tank, rows.named(row).id));
      navigator.storage?.persist?.().catch(() => {}); // a wish: the browser may clear what is not persistent when the device is full
    } catch (problem) {
      console.info("readings could not be kept:", problem?.message);
      for (const row of coming.map(rows.named)) unkept.set(key(tank, row.id), { tank, row });
      lost = coming.length;
    }
    tell(tank);
    return { added, there: coming.length - lost - added, unkept: lost };
  };
  const add = async (tank, given, zoned = false) => {
    const row = { when: now(zoned), ...given, id: given.id ?? newId() };
    const { unkept: lost } = await merge(tank, [row]);
    return { row, kept: lost === 0 };
  };

  tankside.readings = {
    all, add, merge, unkept, now,
    standing: async tank => rows.standing(await all(tank)),
    correct: (tank, id, row, zoned) => add(tank, { ...row, replaces: id }, zoned),
    unsent: async tank => {
      const list = [...(await (await store()).unsent()), ...unkept.values()].filter(k => tank === undefined || k.tank === tank);
      return tank === undefined ? list.map(({ tank, row }) => ({ tank, row })) : list.map(k => k.row);
    },
    markSent: async (tank, ids) => { await (await store()).sent(tank, ids); tell(tank); },
    tanks: async () => [...new Set([...await (await store()).tanks(), ...[...unkept.values()].map(u => u.tank)])].sort(),
    keeps: async () => (await store()).where,
    again: async () => {
      for (const tank of new Set([...unkept.values()].map(u => u.tank))) await merge(tank, mine(tank));
      return unkept.size === 0;
    },
  };
})();
