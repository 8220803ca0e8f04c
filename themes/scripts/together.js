// Readings of several devices in one record: what was entered on this one goes to the host, what others have entered comes from there, and the page shows the
// chart that everybody sees. Only where the page comes from a host that takes readings: it says so in a header of each answer. Needs readings.js.
//
// Nothing is lost on the way: a reading counts as sent when the host has said that it keeps it, and the host keeps each id once. This device is known by a key
// that it got for a code on the host's own screen; the browser keeps it for this address alone.
(() => {
  "use strict";
  const section = document.querySelector(".together"), tankside = window.tankside, readings = tankside?.readings;
  if (!section || !readings || !location.protocol.startsWith("http")) return;
  const say = section.dataset, tank = say.tank, root = document.documentElement.dataset.root;
  const says = section.querySelector(".together-says"), form = section.querySelector("form");
  const name = section.querySelector("#together-name"), code = section.querySelector("#together-code"), button = form.querySelector("button");
  const place = "tankside.host", most = 200, every = 30_000;

  let inWindow = null;
  const pairing = () => {
    try { return JSON.parse(localStorage.getItem(place)) ?? inWindow; } catch { return inWindow; }
  };
  const keep = paired => {
    inWindow = paired;
    try {
      if (paired) localStorage.setItem(place, JSON.stringify(paired)); else localStorage.removeItem(place);
    } catch { /* then it is paired in this window alone */ }
  };
  const fill = (text, values) => text.replace(/\{(\w+)\}/g, (_, word) => values[word]);
  const ask = (path, options = {}) => fetch(root + path, { credentials: "omit", redirect: "error", cache: "no-cache", ...options });

  const show = (text, asking) => {
    section.hidden = false;
    says.textContent = text;
    form.hidden = !asking;
  };
  const waiting = n => n === 0 ? say.sayAll : n === 1 ? say.sayOne : fill(say.saySome, { n });

  // groups parts rows into tables in which each quantity stands in one unit.
  const groups = rows => {
    const byHeads = new Map();
    for (const row of rows) {
      const heads = Object.keys(row).filter(h => tankside.rows.isNumber(h)).sort().join("\n");
      if (!byHeads.has(heads)) byHeads.set(heads, []);
      byHeads.get(heads).push(row);
    }
    return [...byHeads.values()].flatMap(all => Array.from({ length: Math.ceil(all.length / most) }, (_, i) => all.slice(i * most, (i + 1) * most)));
  };

  class Unknown extends Error {}

  const refused = new Map(); // id → why, of rows that the host does not take
  const send = async key => {
    const byTank = new Map();
    for (const { tank, row } of await readings.unsent()) if (!refused.has(row.id)) byTank.set(tank, [...byTank.get(tank) ?? [], row]);
    let some = false;
    for (const [tank, rows] of byTank) {
      for (const group of groups(rows)) {
        const answer = await ask("records/" + encodeURIComponent(tank), { method: "POST", headers: { "Content-Type": "text/csv", Authorization: "Bearer " + key }, body: tankside.rows.write(group) });
        if (answer.status === 401) throw new Unknown();
        if ([400, 404, 409, 413].includes(answer.status)) { // sent again it would be no better
          const why = (await answer.json()).error;
          for (const row of group) refused.set(row.id, why);
          continue;
        }
        if (!answer.ok) throw new Error("the host answers " + answer.status);
        const told = await answer.json();
        await readings.markSent(tank, told.kept);
        for (const { id, why } of told.refused) refused.set(id, why);
        some ||= told.kept.length > 0;
      }
    }
    return some;
  };

  // fetched takes what others have sent. A row that is here already stays as it was entered: the host may write its time and its unit as its record has them.
  let unread = false, newest = "";
  const fetched = async () => {
    const answer = await ask("records/" + encodeURIComponent(tank) + ".csv");
    if (answer.status === 204) return false; // there is none yet
    if (!answer.ok) throw new Error("the host answers " + answer.status);
    const tag = answer.headers.get("ETag");
    if (tag && tag === newest) return false;
    const { rows } = tankside.rows.read(await answer.text());
    unread = !rows;
    newest = tag;
    if (!rows) return true;
    const here = new Set((await readings.all(tank)).map(row => row.id));
    const others = rows.filter(row => !here.has(row.id));
    if (others.length) await readings.merge(tank, others, true);
    return true;
  };

  // redraw puts what the host makes of the readings into the page: on that of the readings all of it, on a tank's own what was checked last.
  let drawn = "";
  const redraw = async () => {
    const here = location.pathname.split("/").slice(-1 - root.length / 3).join("/");
    const answer = await ask("-/live/" + here);
    if (answer.status !== 200) return; // 204: it is as it was published
    const text = await answer.text();
    if (text === drawn) return;
    drawn = text;
    const coming = new DOMParser().parseFromString(text, "text/html");
    const old = document.querySelector(".record-page"), fresh = coming.querySelector(".record-page");
    if (old && fresh) {
      fresh.querySelector(".together")?.replaceWith(section);
      old.replaceWith(document.adoptNode(fresh));
      return;
    }
    for (const [part, before] of [[".checked-line", ".bench"], [".checked", ".ways"]]) {
      const was = document.querySelector(part), is = coming.querySelector(part);
      if (was && is) was.replaceWith(document.adoptNode(is));
      else if (is) document.querySelector(before)?.before(document.adoptNode(is));
      else was?.remove();
    }
  };

  const tell = async (more = "") => {
    const open = (await readings.unsent()).map(u => u.row.id), taken = open.filter(id => !refused.has(id)).length, not = open.filter(id => refused.has(id));
    const texts = [waiting(taken)];
    if (not.length) texts.push(fill(say.sayRefused, { n: not.length, why: refused.get(not[0]) }));
    if (unread) texts.push(say.sayUnread);
    show([...texts, more].filter(Boolean).join(" "), !pairing());
  };

  let running = null, once = false;
  const sync = () => running ??= (async () => {
    do {
      once = false;
      const paired = pairing();
      try {
        if (!paired) { // it reads along
          await redraw();
          await tell();
          break;
        }
        const sent = await send(paired.key);
        if (await fetched() || sent) await redraw();
        await tell();
      } catch (problem) {
        if (problem instanceof Unknown) {
          keep(null);
          await tell(say.sayUnknown);
        } else {
          console.info("readings were not exchanged:", problem?.message);
          await tell(say.sayAway);
        }
      }
    } while (once);
  })().finally(() => { running = null; });

  form.addEventListener("submit", async event => {
    event.preventDefault();
    const typed = form.querySelector(".together-code"), first = typed.hidden;
    button.disabled = true;
    try {
      const answer = await ask("records/pair", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ name: name.value, code: first ? "" : code.value }) });
      if (answer.status === 202) {
        typed.hidden = false;
        button.textContent = say.sayPair;
        show(fill(say.sayAsked, { n: Math.round((await answer.json()).seconds / 60) }), true);
        code.focus();
      } else if (answer.ok) {
        keep({ key: (await answer.json()).key, name: name.value });
        typed.hidden = true;
        code.value = "";
        button.textContent = say.sayAsk;
        show(say.sayPaired, false);
        refused.clear();
        await sync();
      } else if (answer.status === 403) {
        code.value = "";
        show(say.sayCode, true);
        code.focus();
      } else show(say.sayWait, true);
    } catch (problem) {
      console.info("this device was not paired:", problem?.message);
      show(say.sayAway, true);
    }
    button.disabled = false;
  });

  const soon = () => {
    once = true;
    clearTimeout(soon.timer);
    soon.timer = setTimeout(sync, 500);
  };
  const begin = async () => {
    let taken = false;
    try {
      taken = (await ask("edition.json", { method: "HEAD" })).headers.has("Tankside-Records");
    } catch { // offline: a device that is paired says what waits
      if (!pairing()) return;
      await tell(say.sayAway);
      taken = true;
    }
    if (!taken) return;
    addEventListener("tankside-readings", soon);
    addEventListener("online", sync);
    document.addEventListener("visibilitychange", () => { if (!document.hidden) sync(); });
    setInterval(() => { if (!document.hidden) sync(); }, every);
    await sync();
  };
  tankside.together = { sync };
  begin();
})();
