// The visit report: what a technician finds, measures, works out and tries at a tank, kept on this device and printed or saved from it.
// Needs parcel.js, visit-store.js and visit-things.js. Other pages hand a note over in the address: visit.html#note=<JSON>.
(() => {
  "use strict";
  const page = document.querySelector(".visit");
  if (!page) return;
  const tankside = window.tankside, say = page.dataset;
  window.name = "tankside-visit"; // notes come to this window where nothing can be kept
  document.documentElement.classList.add("visit-ready");
  const find = selector => page.querySelector(selector);
  const make = (tag, text = "", name = "") => Object.assign(document.createElement(tag), { textContent: text, className: name });
  const [kept, trouble, again, waiting, now, said, others] = [".visit-kept", ".visit-trouble", ".visit-again", ".visit-waiting", ".visit-now", ".visit-said", ".visit-others"].map(find);
  const kinds = { walk: say.sayWalk, seen: say.saySeen, reading: say.sayReading, sum: say.saySum, tried: say.sayTried, remark: say.sayRemark, photo: say.sayPhoto, chart: say.sayChart };
  const mostFile = 24 * 2 ** 20, mostPhotos = 24; // what a report may have, so that it can be read in again
  const outcomes = { open: say.sayOpen, helped: say.sayHelped, "did-not-help": say.sayDidNotHelp };
  const time = (at, full) => new Date(at).toLocaleString(document.documentElement.lang || undefined, full ? { dateStyle: "medium", timeStyle: "short" } : { timeStyle: "short" });
  const days = new Intl.DateTimeFormat(document.documentElement.lang || undefined, { dateStyle: "medium" });
  const day = at => days.format(new Date(at));

  let store, open = null, visit = null; // id of the visit that is shown, and its record
  let newest = [], parts = new Map(), pictures = new Map(); // summaries of the visits, the newest first; entries of those that are shown, by visit; their pictures, by entry
  const compare = (a, b) => a < b ? -1 : a > b ? 1 : 0;
  const visits = () => newest;
  const entries = id => (parts.get(id) ?? []).toSorted((a, b) => compare(a.at, b.at) || compare(a.id, b.id));
  // load has what a visit is made of ready, with its pictures.
  const load = async id => {
    parts.set(id, await store.entries(id));
    for (const e of entries(id)) if (e.kind === "photo" && !pictures.has(e.id)) pictures.set(e.id, await store.picture(e.id));
  };
  const show = async id => {
    open = id;
    if (id) await load(id);
    const record = id ? await store.get(id) ?? null : null;
    if (open !== id) return; // another was chosen meanwhile
    visit = record;
    open = record && id;
  };
  const shown = () => visit;

  // busily has a handler say that the page is at work until it is done: what comes then may move what is on the page, and the focus.
  let working = 0;
  const busily = does => async event => {
    working++;
    page.setAttribute("aria-busy", "true");
    try {
      await does(event);
    } finally {
      if (--working === 0) page.removeAttribute("aria-busy");
    }
  };

  // ——— showing ———

  const about = visit => [[say.sayTank, visit.tank], [say.sayCustomer, visit.customer], [say.saySerial, visit.serial], [say.sayPlace, visit.place], [say.sayBy, visit.by], [say.sayStarted, time(visit.started, true)], [say.sayEnded, visit.ended && time(visit.ended, true)], [say.sayManual, visit.manual]].filter(([, v]) => v);

  const filledIn = (sentence, values) => sentence.replace(/\{(\w+)\}/g, (hole, name) => values[name] ?? hole);
  const entryNode = (entry, still = false) => {
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
    if (pictures.get(entry.id)) li.append(Object.assign(make("img", "", "visit-photo"), { src: pictures.get(entry.id), alt: entry.text || say.sayPhoto }));
    if (entry.chart) li.append(tankside.chart(entry.chart, filledIn(say.sayChartSays, { what: entry.title ?? "", n: entry.chart.points.length })));
    if (entry.text) li.append(make("p", entry.text, "visit-text"));
    if (entry.outcome) li.append(make("p", say.sayOutcome + ": " + outcomes[entry.outcome]));
    if (entry.beside) li.append(make("p", say.sayBeside, "visit-beside"));
    if (still) return li;
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

  const draw = async () => {
    kept.textContent = store.where === "window" ? say.sayWindow : say.sayDatabase;
    kept.classList.toggle("visit-fleeting", store.where === "window");
    trouble.textContent = [store.unkept.size && say.sayUnkept, store.unread && say.sayUnread, store.damaged && say.sayDamaged].filter(Boolean).join(" ");
    trouble.hidden = trouble.textContent === "";
    again.hidden = store.unkept.size === 0;
    const visit = shown();
    now.hidden = !visit;
    if (visit) {
      find(".visit-name").textContent = visit.tank + ", " + day(visit.started);
      find(".visit-head").replaceChildren(...about(visit).map(([name, value]) => { const div = make("div"); div.append(make("dt", name), make("dd", value)); return div; }));
      const list = entries(visit.id);
      find(".visit-entries").replaceChildren(...list.length ? list.map(e => entryNode(e)) : [make("li", say.sayEmpty, "visit-none")]);
      drawSigned(visit, list);
      find('[value="end"]').hidden = Boolean(visit.ended);
      find('[value="resume"]').hidden = !visit.ended;
    }
    const before = drawBefore(visit);
    drawList();
    find(".visit-start").classList.toggle("visit-later", Boolean(visit));
    await before;
  };

  // What the customer signed, and what came after.
  const drawSigned = (visit, list) => {
    const place = find(".visit-signed"), s = visit.signature;
    place.hidden = !s;
    find(".visit-sign").hidden = Boolean(s);
    if (!s) return;
    const later = list.filter(e => e.at > s.at).length;
    place.replaceChildren(make("h3", say.saySigned), tankside.things.signed(s.strokes, say.saySigned + ": " + s.name), make("p", s.name + ", " + time(s.at, true)));
    if (later) place.append(make("p", filledIn(say.saySignedBefore, { n: later }), "visit-beside"));
  };

  // The last visit stands beside this one: to the same equipment, or where no serial number says which, to the same tank of the same customer, at the same place.
  const before = visit => visit && newest.find(v => v.id !== visit.id && v.started < visit.started && (visit.serial ? v.serial === visit.serial :
    v.tank === visit.tank && (v.customer ?? "") === (visit.customer ?? "") && (v.place ?? "") === (visit.place ?? "")));
  const drawBefore = async visit => {
    const last = before(visit), place = find(".visit-before");
    if (!last) { place.hidden = true; return; }
    const whole = await store.get(last.id);
    await load(last.id);
    if (shown()?.id !== visit.id) return; // another is shown by now
    place.hidden = !whole;
    if (!whole) return;
    find(".visit-before-name").textContent = last.tank + ", " + day(last.started);
    find(".visit-before-head").replaceChildren(...about(whole).map(([name, value]) => { const div = make("div"); div.append(make("dt", name), make("dd", value)); return div; }));
    find(".visit-before-entries").replaceChildren(...entries(last.id).map(e => entryNode(e, true)));
  };

  // The reports of years are shortened by words, by tank and by what is under way, and shown a few at a time.
  const few = 12, filter = find("#visit-filter"), more = find(".visit-more"), ofTank = find("#visit-of-tank"), ofState = find("#visit-state");
  let many = few, spoken = new WeakMap(); // what is searched of a visit
  const wordsOf = v => {
    if (!spoken.has(v)) spoken.set(v, [v.tank, v.customer, v.serial, v.place, v.by, day(v.started), v.started].filter(Boolean).join(" ").toLowerCase() + " " + v.words);
    return spoken.get(v);
  };
  const drawList = () => {
    const all = visits(), words = filter.value.toLowerCase().split(/\s+/).filter(Boolean), tank = ofTank.value, state = ofState.value;
    const fit = all.filter(v => (!tank || v.tank === tank) && (!state || (state === "open") === !v.ended) && words.every(w => wordsOf(v).includes(w)));
    filter.closest(".visit-filters").hidden = all.length <= few;
    const tanks = [...new Set(all.map(v => v.tank))].sort();
    if (ofTank.options.length !== tanks.length + 1) {
      ofTank.replaceChildren(ofTank.options[0], ...tanks.map(t => make("option", t)));
      ofTank.value = tanks.includes(tank) ? tank : "";
    }
    find(".visit-fit").textContent = all.length > few ? filledIn(say.sayFit, { n: fit.length, m: all.length }) : "";
    more.hidden = fit.length <= many;
    find(".visit-list").replaceChildren(...fit.slice(0, many).map(v => {
      const li = make("li"), b = make("button", v.tank + ", " + day(v.started) + (v.place ? ", " + v.place : ""));
      b.type = "button";
      if (v.id === open) b.setAttribute("aria-current", "true");
      b.addEventListener("click", busily(async () => { editing = false; said.textContent = ""; await show(v.id); await draw(); find(".visit-name").focus(); }));
      li.append(b);
      return li;
    }));
  };
  for (const one of [filter, ofTank, ofState]) one.addEventListener("input", () => { many = few; drawList(); });
  more.firstElementChild.addEventListener("click", () => { many += 4 * few; drawList(); });

  let refreshing = Promise.resolve();
  const refresh = () => refreshing = refreshing.then(refreshNow, refreshNow); // one after another: two at once would show what the slower has read
  const refreshNow = async () => {
    const list = await store.summaries();
    newest = list.sort((a, b) => compare(b.started, a.started) || compare(a.id, b.id));
    await show(open);
    if (!open) await show(newest.find(v => !v.ended)?.id ?? null);
    if (!editing) await draw();
  };
  // write keeps a record and shows what is kept now; another visit than before from when it can be read: what is being shown meanwhile would not find it.
  const write = async (record, showing) => {
    saved = false;
    const written = await store.put(record);
    if (showing) open = showing;
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

  find(".visit-start form").addEventListener("submit", busily(async event => {
    event.preventDefault();
    const form = event.target, given = new FormData(form);
    const visit = { sort: "visit", id: store.newId(), started: new Date().toISOString(), tank: given.get("tank").trim(), manual: say.manual };
    if (!visit.tank) return find("#visit-tank").focus();
    for (const key of ["customer", "serial", "place", "by"]) if (given.get(key).trim()) visit[key] = given.get(key).trim();
    await write(visit, visit.id);
    form.reset();
    navigator.storage?.persist?.().catch(() => {}); // a wish: the browser may clear what is not persistent when the device is full
    if (note) await takeNote();
    find(".visit-name").focus();
  }));

  const add = find(".visit-add");
  const outcomeRow = find(".visit-outcome");
  add.elements.kind.addEventListener("change", () => { outcomeRow.hidden = add.elements.kind.value !== "tried"; });
  add.addEventListener("submit", busily(async event => {
    event.preventDefault();
    const { kind, text, outcome } = add.elements;
    if (!text.value.trim()) return text.focus();
    const entry = { sort: "entry", id: store.newId(), visit: open, at: new Date().toISOString(), kind: kind.value, text: text.value.trim() };
    if (entry.kind === "tried") entry.outcome = outcome.value;
    text.value = "";
    await write(entry);
    text.focus();
  }));

  // ——— photograph, chart, signature ———

  const addEntry = async (kind, more, picture) => {
    const entry = { sort: "entry", id: store.newId(), visit: open, at: new Date().toISOString(), kind, text: "", ...more };
    if (picture) {
      pictures.set(entry.id, picture);
      await store.keepPicture(entry.id, picture);
    }
    await write(entry);
  };
  find("#visit-photo").addEventListener("change", busily(async event => {
    const file = event.target.files[0], told = find(".visit-photo-said");
    event.target.value = "";
    if (!file) return;
    if (entries(open).filter(e => e.kind === "photo").length >= mostPhotos) { told.textContent = filledIn(say.sayMorePhotos, { n: mostPhotos }); return; }
    told.textContent = say.sayWorking;
    try {
      await addEntry("photo", {}, await tankside.things.photo(file));
      told.textContent = "";
    } catch (problem) {
      console.info("the picture was not taken:", problem.message);
      told.textContent = say.sayNoPicture;
    }
  }));
  const charting = find(".visit-chart");
  charting?.addEventListener("submit", busily(async event => {
    event.preventDefault();
    const { tank, quantity } = charting.elements, bath = tank.selectedOptions[0], told = find(".visit-chart-said");
    const name = "record-" + bath.value;
    const record = bath.dataset.parcel ? await tankside.told(name, bath.dataset.parcel) : { ids: [], charts: [] };
    const chart = await tankside.things.chartOf(bath.value, quantity.value, record);
    told.textContent = chart ? "" : say.sayNoChart;
    if (chart) await addEntry("chart", { title: quantity.selectedOptions[0].text + ", " + bath.text, chart });
  }));
  const signature = tankside.things.signing(find(".visit-sign svg")), sign = find(".visit-sign");
  find(".visit-sign-clear").addEventListener("click", () => signature.clear());
  sign.addEventListener("submit", busily(async event => {
    event.preventDefault();
    const name = sign.elements.name.value.trim();
    find(".visit-sign-said").textContent = !name ? say.saySignName : !signature.strokes() ? say.saySignFirst : "";
    if (!name || !signature.strokes()) return;
    await write({ ...shown(), signature: { name, at: new Date().toISOString(), strokes: signature.strokes() } });
    signature.clear();
    sign.reset();
    sign.closest("details").open = false;
  }));

  again.addEventListener("click", busily(async () => { await store.again(); await refresh(); }));

  const tools = {
    print: () => print(),
    markdown: () => save(markdown(shown()), "md", "text/markdown"),
    json: () => save(JSON.stringify(data(shown()), null, 2) + "\n", "json", "application/json"),
    end: () => write({ ...shown(), ended: new Date().toISOString() }),
    resume: () => { const { ended, ...visit } = shown(); return write(visit); },
    remove: async () => {
      if (!confirm(say.saySure)) return;
      const visit = shown();
      for (const e of entries(visit.id)) {
        if (e.kind === "photo") await store.keepPicture(e.id, null);
        await store.put({ ...e, gone: true });
      }
      open = null;
      await write({ ...visit, gone: true });
    },
  };
  find(".visit-tools").addEventListener("click", busily(event => tools[event.target.closest("button")?.value]?.()));

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
  const visitKeys = ["id", "started", "ended", "tank", "customer", "serial", "place", "by", "manual", "signature"], entryKeys = ["id", "at", "kind", "title", "text", "path", "outcome", "page", "chart", "photo"];
  const whole = e => pictures.get(e.id) ? { ...e, photo: pictures.get(e.id) } : e; // with its picture
  const data = visit => ({ visit: 1, ...pick(visit, visitKeys), entries: entries(visit.id).map(e => pick(whole(e), entryKeys)) });

  const escape = text => text.replace(/[\\`*_[\]<>|~]/g, "\\$&").replace(/^(\s*)([#+-]|\d+[.)])(?=\s)/gm, "$1\\$2");
  const markdown = visit => {
    const lines = ["# " + say.sayTitle + ": " + escape(visit.tank), ""];
    for (const [name, value] of about(visit)) lines.push("- " + name + ": " + escape(value));
    for (const e of entries(visit.id)) {
      lines.push("", "## " + time(e.at, true) + " · " + kinds[e.kind] + (e.title ? ": " + escape(e.title) : ""), "");
      (e.path ?? []).forEach((s, i) => lines.push(i + 1 + ". " + escape(s.step) + (s.answer ? " → **" + escape(s.answer) + "**" : "")));
      if (e.path?.length && e.text) lines.push("");
      if (pictures.get(e.id)) lines.push("![" + escape(e.text || say.sayPhoto) + "](" + pictures.get(e.id) + ")", "");
      if (e.chart) lines.push(...e.chart.points.slice(-20).map(({ at, value }) => "- " + at.replace("T", " ") + ": " + value + (e.chart.unit ? " " + e.chart.unit : "")), "");
      if (e.text) lines.push(escape(e.text).replace(/\n/g, "  \n"));
      if (e.outcome) lines.push("", say.sayOutcome + ": " + outcomes[e.outcome]);
    }
    if (visit.signature) lines.push("", say.saySigned + ": " + escape(visit.signature.name) + ", " + time(visit.signature.at, true));
    return lines.join("\n") + "\n";
  };
  page.report = () => ({ data: data(shown()), markdown: markdown(shown()) }); // what would be saved

  // ——— in ———

  const fill = filledIn;
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
      if (value.length > (schema.maxLength ?? Infinity) && [...value.slice(0, 2 * schema.maxLength + 2)].length > schema.maxLength) return [at + ": " + fill(say.sayLonger, { n: schema.maxLength })];
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
    if (text.length > mostFile) return refuse([tooLarge()]);
    let report;
    try {
      report = JSON.parse(text);
    } catch (problem) {
      return refuse([say.sayNoJson + ": " + problem.message]);
    }
    const schema = await tankside.told("visit-schema", say.schema);
    const problems = wrong(report, schema, schema, "report");
    if (problems.length) return refuse(problems);
    const photos = report.entries.filter(e => e.photo !== undefined);
    const bad = photos.map(e => [e, tankside.things.amiss(e.photo)]).filter(([, why]) => why);
    if (bad.length) return refuse(bad.map(([e, why]) => `report.entries[${report.entries.indexOf(e)}].photo: ` + { form: say.sayNoPicture, carries: say.sayCarries, pixels: say.sayPixels }[why]));
    if (photos.length > mostPhotos) return refuse([fill(say.sayMorePhotos, { n: mostPhotos })]);
    await load(report.id);
    // What is here already stays; what differs is kept beside it.
    const same = (a, b) => JSON.stringify(a) === JSON.stringify(b);
    let news = 0;
    const takeIn = async (record, keys) => {
      const there = await store.get(record.id);
      if (there && same(pick(whole(there), keys), pick(record, keys))) return;
      if (there && record.sort === "visit") return; // its entries are added to the one that is here
      news++;
      const { photo, ...bare } = there ? { ...record, id: store.newId(), beside: there.id } : record;
      if (photo) await store.keepPicture(bare.id, photo);
      await store.put(bare);
    };
    await takeIn({ sort: "visit", ...pick(report, visitKeys) }, visitKeys);
    for (const e of report.entries) await takeIn({ sort: "entry", visit: report.id, ...pick(e, entryKeys) }, entryKeys);
    open = report.id;
    await refresh();
    find(".visit-wrong").replaceChildren();
    find(".visit-read-said").textContent = news ? say.sayReadIn : say.sayAllThere;
  };
  const tooLarge = () => fill(say.sayLarge, { n: mostFile / 2 ** 20 });
  page.readIn = readIn;
  page.again = () => refresh(); // reads all anew, for those who measure it
  find("#visit-file").addEventListener("change", busily(async event => {
    const file = event.target.files[0];
    if (file && file.size > mostFile) { // it is not even opened
      find(".visit-read-said").textContent = say.sayNotRead;
      find(".visit-wrong").replaceChildren(make("li", tooLarge()));
    } else if (file) await readIn(await file.text());
    event.target.value = "";
  }));

  // ——— the page ———

  addEventListener("beforeunload", event => {
    if (store && !saved && (store.unkept.size || store.where === "window" && newest.length)) event.preventDefault();
  });
  tankside.visits().then(async found => {
    store = found;
    store.changed = refresh;
    await refresh();
    await handed();
    addEventListener("hashchange", handed);
    page.hidden = false; // not before: what is touched while nothing can be kept yet would be lost
    page.dataset.ready = "yes";
  });
})();
