// The visit report: what a technician finds, measures, works out and tries at a tank, kept on this device and printed or saved from it.
// Needs parcel.js and visit-store.js. Other pages hand a note over in the address: visit.html#note=<JSON>.
(() => {
  "use strict";
  const page = document.querySelector(".visit");
  if (!page) return;
  const tankside = window.tankside, say = page.dataset;
  window.name = "tankside-visit"; // notes come to this window where nothing can be kept
  document.documentElement.classList.add("visit-ready");
  page.hidden = false;
  const find = selector => page.querySelector(selector);
  const make = (tag, text = "", name = "") => Object.assign(document.createElement(tag), { textContent: text, className: name });
  const [kept, trouble, again, waiting, now, said, others] = [".visit-kept", ".visit-trouble", ".visit-again", ".visit-waiting", ".visit-now", ".visit-said", ".visit-others"].map(find);
  const kinds = { walk: say.sayWalk, seen: say.saySeen, reading: say.sayReading, sum: say.saySum, tried: say.sayTried, remark: say.sayRemark };
  const outcomes = { open: say.sayOpen, helped: say.sayHelped, "did-not-help": say.sayDidNotHelp };
  const time = (at, full) => new Date(at).toLocaleString(document.documentElement.lang || undefined, full ? { dateStyle: "medium", timeStyle: "short" } : { timeStyle: "short" });
  const day = at => new Date(at).toLocaleDateString(document.documentElement.lang || undefined, { dateStyle: "medium" });

  let store, records = [], open = null; // id of the visit that is shown
  const visits = () => records.filter(r => r.sort === "visit").sort((a, b) => b.started.localeCompare(a.started));
  const entries = id => records.filter(r => r.sort === "entry" && r.visit === id).sort((a, b) => a.at.localeCompare(b.at) || a.id.localeCompare(b.id));
  const shown = () => visits().find(v => v.id === open);

  // ——— showing ———

  const about = visit => [[say.sayTank, visit.tank], [say.sayPlace, visit.place], [say.sayBy, visit.by], [say.sayStarted, time(visit.started, true)], [say.sayEnded, visit.ended && time(visit.ended, true)], [say.sayManual, visit.manual]].filter(([, v]) => v);

  const entryNode = entry => {
    const li = make("li", "", "visit-entry");
    li.dataset.id = entry.id;
    const head = make("p", "", "visit-entry-head");
    head.append(make("strong", kinds[entry.kind] ?? entry.kind), " ", make("span", time(entry.at), "aside"));
    li.append(head);
    if (entry.title) {
      const p = make("p", "", "visit-entry-title");
      if (entry.page) p.append(Object.assign(make("a", entry.title), { href: entry.page })); else p.textContent = entry.title;
      li.append(p);
    }
    if (entry.path?.length) {
      const ol = make("ol", "", "visit-path");
      for (const { step, answer } of entry.path) {
        const step_ = make("li", step);
        if (answer) step_.append(" ", make("strong", "→ " + answer));
        ol.append(step_);
      }
      li.append(ol);
    }
    if (entry.text) li.append(make("p", entry.text, "visit-text"));
    if (entry.outcome) li.append(make("p", say.sayOutcome + ": " + outcomes[entry.outcome]));
    if (entry.beside) li.append(make("p", say.sayBeside, "visit-beside"));
    const tools = make("p", "", "visit-entry-tools");
    const button = (text, does) => { const b = make("button", text); b.type = "button"; b.addEventListener("click", does); tools.append(b, " "); };
    button(say.sayEdit, () => edit(li, entry));
    button(say.sayTakeOut, async () => {
      await write({ ...entry, gone: true });
      said.replaceChildren(say.sayTakenOut + " ");
      const back = make("button", say.sayPutBack);
      back.type = "button";
      back.addEventListener("click", async () => { said.textContent = ""; await write({ ...entry, version: (entry.version ?? 0) + 1 }); });
      said.append(back);
    });
    li.append(tools);
    return li;
  };

  const edit = (li, entry) => {
    const form = make("form", "", "visit-edit"), area = make("textarea");
    Object.assign(area, { value: entry.text, rows: 4, maxLength: 20000 });
    area.setAttribute("aria-label", kinds[entry.kind]);
    form.append(area);
    let outcome;
    if (entry.kind === "tried") {
      outcome = find("#visit-outcome").cloneNode(true);
      outcome.removeAttribute("id");
      outcome.value = entry.outcome ?? "open";
      outcome.setAttribute("aria-label", say.sayOutcome);
      form.append(outcome);
    }
    const keep = make("button", say.sayKeep);
    form.append(keep);
    form.addEventListener("submit", async event => {
      event.preventDefault();
      editing = false;
      await write({ ...entry, text: area.value.trim(), ...(outcome && { outcome: outcome.value }) });
    });
    li.querySelector(".visit-entry-tools").replaceWith(form);
    editing = true; // what another window writes waits
    area.focus();
  };
  let editing = false;

  const draw = () => {
    kept.textContent = store.where === "window" ? say.sayWindow : say.sayDatabase;
    kept.classList.toggle("visit-fleeting", store.where === "window");
    trouble.hidden = store.unkept.size === 0 && !store.unread;
    trouble.textContent = store.unkept.size ? say.sayUnkept : store.unread ? say.sayUnread : "";
    again.hidden = store.unkept.size === 0;
    const visit = shown();
    now.hidden = !visit;
    if (visit) {
      find(".visit-name").textContent = visit.tank + ", " + day(visit.started);
      find(".visit-head").replaceChildren(...about(visit).map(([name, value]) => { const div = make("div"); div.append(make("dt", name), make("dd", value)); return div; }));
      const list = entries(visit.id);
      find(".visit-entries").replaceChildren(...list.length ? list.map(entryNode) : [make("li", say.sayEmpty, "visit-none")]);
      find('[value="end"]').hidden = Boolean(visit.ended);
      find('[value="resume"]').hidden = !visit.ended;
    }
    drawList();
    find(".visit-start").classList.toggle("visit-later", Boolean(visit));
  };

  // The reports of a year are shortened by words, and shown a few at a time.
  const few = 12, filter = find("#visit-filter"), more = find(".visit-more");
  let many = few;
  const drawList = () => {
    const all = visits(), words = filter.value.toLowerCase().split(/\s+/).filter(Boolean);
    const fit = all.filter(v => { const row = [v.tank, v.place, v.by, day(v.started), v.started].join(" ").toLowerCase(); return words.every(w => row.includes(w)); });
    filter.parentElement.hidden = all.length <= few;
    more.hidden = fit.length <= many;
    find(".visit-list").replaceChildren(...fit.slice(0, many).map(v => {
      const li = make("li"), b = make("button", v.tank + ", " + day(v.started) + (v.place ? ", " + v.place : ""));
      b.type = "button";
      if (v.id === open) b.setAttribute("aria-current", "true");
      b.addEventListener("click", () => { open = v.id; editing = false; said.textContent = ""; draw(); find(".visit-name").focus(); });
      li.append(b);
      return li;
    }));
  };
  filter.addEventListener("input", () => { many = few; drawList(); });
  more.firstElementChild.addEventListener("click", () => { many += 4 * few; drawList(); });

  const refresh = async () => {
    records = await store.all();
    if (open && !shown()) open = null;
    if (!open) open = (await store.current())?.id ?? null;
    if (!editing) draw();
  };
  const write = async record => {
    saved = false;
    const written = await store.put(record);
    await refresh();
    return written;
  };

  // ——— notes from other pages ———

  let note = null;
  const clean = value => { // only what the format knows
    const entry = { kind: value.kind in kinds ? value.kind : "remark", at: typeof value.at === "string" && !isNaN(Date.parse(value.at)) ? value.at : new Date().toISOString(), text: String(value.text ?? "").slice(0, 20000) };
    if (typeof value.title === "string" && value.title) entry.title = value.title.slice(0, 300);
    if (typeof value.page === "string" && /^[A-Za-z0-9/._#?=&%+,-]*$/.test(value.page) && !/^\/|\.\.|^[a-z]+:/i.test(value.page)) entry.page = value.page.slice(0, 500);
    if (Array.isArray(value.path)) entry.path = value.path.slice(0, 200).map(({ step, answer }) => ({ step: String(step).slice(0, 500), ...(answer && { answer: String(answer).slice(0, 500) }) }));
    return entry;
  };
  const handed = async () => {
    if (!location.hash.startsWith("#note=")) return;
    try {
      note = clean(JSON.parse(decodeURIComponent(location.hash.slice(6))));
    } catch (problem) {
      console.info("the address holds no note:", problem.message);
    }
    history.replaceState(history.state, "", location.href.split("#")[0]);
    if (note) await takeNote();
  };
  const takeNote = async () => {
    const visit = await store.current();
    waiting.hidden = false;
    if (!visit) {
      waiting.replaceChildren(make("p", say.sayWaiting), make("p", [note.title, ...(note.path ?? []).map(s => s.step + (s.answer ? " → " + s.answer : "")), note.text].filter(Boolean).join("\n"), "visit-text"));
      find("#visit-tank").focus();
      return;
    }
    const entry = { sort: "entry", id: store.newId(), visit: visit.id, ...note };
    note = null;
    open = visit.id;
    await write(entry);
    waiting.replaceChildren(say.sayNoted + " ");
    if (entry.page) waiting.append(Object.assign(make("a", say.sayBack), { href: entry.page }));
  };

  // ——— starting, adding, tools ———

  find(".visit-start form").addEventListener("submit", async event => {
    event.preventDefault();
    const form = event.target, given = new FormData(form);
    const visit = { sort: "visit", id: store.newId(), started: new Date().toISOString(), tank: given.get("tank").trim(), manual: say.manual };
    if (!visit.tank) return find("#visit-tank").focus();
    for (const key of ["place", "by"]) if (given.get(key).trim()) visit[key] = given.get(key).trim();
    open = visit.id;
    await write(visit);
    form.reset();
    navigator.storage?.persist?.().catch(() => {}); // a wish: the browser may clear what is not persistent when the device is full
    if (note) await takeNote();
    find(".visit-name").focus();
  });

  const add = find(".visit-add");
  const outcomeRow = find(".visit-outcome");
  add.elements.kind.addEventListener("change", () => { outcomeRow.hidden = add.elements.kind.value !== "tried"; });
  add.addEventListener("submit", async event => {
    event.preventDefault();
    const { kind, text, outcome } = add.elements;
    if (!text.value.trim()) return text.focus();
    const entry = { sort: "entry", id: store.newId(), visit: open, at: new Date().toISOString(), kind: kind.value, text: text.value.trim() };
    if (entry.kind === "tried") entry.outcome = outcome.value;
    text.value = "";
    await write(entry);
    text.focus();
  });
  again.addEventListener("click", async () => { await store.again(); await refresh(); });

  const tools = {
    print: () => print(),
    markdown: () => save(markdown(shown()), "md", "text/markdown"),
    json: () => save(JSON.stringify(data(shown()), null, 2) + "\n", "json", "application/json"),
    end: () => write({ ...shown(), ended: new Date().toISOString() }),
    resume: () => { const { ended, ...visit } = shown(); return write(visit); },
    remove: async () => {
      if (!confirm(say.saySure)) return;
      const visit = shown();
      for (const e of entries(visit.id)) await store.put({ ...e, gone: true });
      open = null;
      await write({ ...visit, gone: true });
    },
  };
  find(".visit-tools").addEventListener("click", event => tools[event.target.closest("button")?.value]?.());

  // ——— out ———

  const save = (text, extension, type) => {
    const visit = shown();
    const name = ("visit-" + visit.started.slice(0, 10) + "-" + visit.tank).toLowerCase().replace(/[^\p{L}\p{N}]+/gu, "-").replace(/^-|-$/g, "");
    const a = Object.assign(make("a"), { href: URL.createObjectURL(new Blob([text], { type })), download: name + "." + extension });
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 60000);
    saved = true;
  };
  let saved = false;

  const pick = (record, keys) => Object.fromEntries(keys.filter(k => record[k] !== undefined).map(k => [k, record[k]]));
  const visitKeys = ["id", "started", "ended", "tank", "place", "by", "manual"], entryKeys = ["id", "at", "kind", "title", "text", "path", "outcome", "page"];
  const data = visit => ({ visit: 1, ...pick(visit, visitKeys), entries: entries(visit.id).map(e => pick(e, entryKeys)) });

  const escape = text => text.replace(/[\\`*_[\]<>|~]/g, "\\$&").replace(/^(\s*)([#+-]|\d+[.)])(?=\s)/gm, "$1\\$2");
  const markdown = visit => {
    const lines = ["# " + say.sayTitle + ": " + escape(visit.tank), ""];
    for (const [name, value] of about(visit)) lines.push("- " + name + ": " + escape(value));
    for (const e of entries(visit.id)) {
      lines.push("", "## " + time(e.at, true) + " · " + kinds[e.kind] + (e.title ? ": " + escape(e.title) : ""), "");
      (e.path ?? []).forEach((s, i) => lines.push(i + 1 + ". " + escape(s.step) + (s.answer ? " → **" + escape(s.answer) + "**" : "")));
      if (e.path?.length && e.text) lines.push("");
      if (e.text) lines.push(escape(e.text).replace(/\n/g, "  \n"));
      if (e.outcome) lines.push("", say.sayOutcome + ": " + outcomes[e.outcome]);
    }
    return lines.join("\n") + "\n";
  };
  page.report = () => ({ data: data(shown()), markdown: markdown(shown()) }); // what would be saved

  // ——— in ———

  const fill = (sentence, values) => sentence.replace(/\{(\w)\}/g, (_, hole) => values[hole]);
  // wrong says what of a value is not as a schema has it; only what the report's own schema uses is known here.
  const wrong = (value, schema, root, at) => {
    if (schema.$ref) return wrong(value, schema.$ref.split("/").slice(1).reduce((s, key) => s[key], root), root, at);
    const type = Array.isArray(value) ? "array" : value === null ? "null" : typeof value;
    const list = [];
    if (schema.type && type !== schema.type) return [at + ": " + fill(say.sayExpectedNot, { a: schema.type, b: type })];
    const amiss = (sentence, values = {}) => list.push(at + ": " + fill(sentence, values));
    if ("const" in schema && value !== schema.const) amiss(say.sayExpected, { a: JSON.stringify(schema.const) });
    if (schema.enum && !schema.enum.includes(value)) amiss(say.sayOneOf, { a: schema.enum.join(", ") });
    if (type === "string") {
      if ([...value].length > (schema.maxLength ?? Infinity)) amiss(say.sayLonger, { n: schema.maxLength });
      if ([...value].length < (schema.minLength ?? 0)) amiss(say.sayBlank);
      if (schema.pattern && !new RegExp(schema.pattern, "u").test(value)) amiss(say.sayForm, { a: value.slice(0, 40), b: schema.pattern });
    }
    if (type === "array") {
      if (value.length > (schema.maxItems ?? Infinity)) return [at + ": " + fill(say.sayMoreItems, { n: schema.maxItems })];
      if (schema.items) value.forEach((item, i) => list.push(...wrong(item, schema.items, root, `${at}[${i}]`)));
    }
    if (type === "object") {
      for (const key of schema.required ?? []) if (!Object.hasOwn(value, key)) amiss(say.sayMissing, { a: key });
      for (const key of Object.keys(value)) {
        if (Object.hasOwn(schema.properties ?? {}, key)) list.push(...wrong(value[key], schema.properties[key], root, at + "." + key));
        else if (schema.additionalProperties === false) amiss(say.sayUnknown, { a: key.slice(0, 40) });
      }
    }
    return list;
  };

  const readIn = async text => {
    const refuse = problems => {
      find(".visit-read-said").textContent = say.sayNotRead;
      find(".visit-wrong").replaceChildren(...problems.slice(0, 12).map(p => make("li", p)));
    };
    let report;
    try {
      report = JSON.parse(text);
    } catch (problem) {
      return refuse([say.sayNoJson + ": " + problem.message]);
    }
    const schema = JSON.parse(new TextDecoder().decode(await tankside.unpack(await tankside.load("visit-schema", say.schema))));
    const problems = wrong(report, schema, schema, "report");
    if (problems.length) return refuse(problems);
    // What is here already stays; what differs is kept beside it.
    const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);
    let news = 0;
    const take = async (record, keys) => {
      const there = records.find(r => r.id === record.id);
      if (there && same(pick(there, keys), pick(record, keys))) return;
      if (there && record.sort === "visit") return; // its entries are added to the one that is here
      news++;
      await store.put(there ? { ...record, id: store.newId(), beside: there.id } : record);
    };
    await take({ sort: "visit", ...pick(report, visitKeys) }, visitKeys);
    for (const e of report.entries) await take({ sort: "entry", visit: report.id, ...pick(e, entryKeys) }, entryKeys);
    open = report.id;
    await refresh();
    find(".visit-wrong").replaceChildren();
    find(".visit-read-said").textContent = news ? say.sayReadIn : say.sayAllThere;
  };
  page.readIn = readIn;
  find("#visit-file").addEventListener("change", async event => {
    const file = event.target.files[0];
    if (file) await readIn(await file.text());
    event.target.value = "";
  });

  // ——— the page ———

  addEventListener("beforeunload", event => {
    if (store && !saved && (store.unkept.size || store.where === "window" && records.length)) event.preventDefault();
  });
  tankside.visits().then(async found => {
    store = found;
    store.changed = refresh;
    await refresh();
    await handed();
    addEventListener("hashchange", handed);
    page.dataset.ready = "yes";
  });
})();
