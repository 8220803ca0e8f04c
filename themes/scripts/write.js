// Readings are written down on a tank's page: a big key for what was read, the number, and it is kept on this device (readings.js). A number that is not usual here
// is asked about once more; none is changed. What is on the device and not yet in the edition stands below. Needs rows.js, readings.js, chart.js.
(() => {
  "use strict";
  const section = document.querySelector(".write");
  if (!section) return;
  const { readings, rows } = window.tankside;
  const say = section.dataset, tank = say.tank, zoned = "zoned" in say, heads = JSON.parse(say.heads);
  const find = selector => section.querySelector(selector);
  const filled = (text, values) => text.replace(/\{(\w+)\}/g, (hole, name) => values[name] ?? hole);
  const make = (tag, text = "", name = "") => Object.assign(document.createElement(tag), { textContent: text, className: name });
  const [said, trouble, again, here, count, charts, list, older, where, save, read, pad] =
    [".write-said", ".write-trouble", ".write-again", ".write-here", ".write-count", ".write-charts", ".write-list", ".write-older", ".write-where", ".write-save", ".write-read", ".pad"].map(find);
  const form = pad.querySelector("form"), field = find(".pad-number input"), unitOf = find(".pad-unit"), units = find(".pad-number select"), says = find(".pad-says"), keep = find(".pad-keep"), same = find(".pad-same"), back = find(".pad-back");
  const keepIt = keep.textContent, few = 12;
  section.hidden = false;

  // ——— numbers and units ———

  const asks = [...section.querySelectorAll("[data-quantity]")].map(key => ({ key, ...key.dataset, units: JSON.parse(key.dataset.units), whole: "whole" in key.dataset, title: key.dataset.title }));
  const askOf = head => asks.find(a => a.quantity === rows.head(head).name);
  const amount = (n, unit) => n.replace("-", "−") + (unit ? "\u00a0" + unit : "");
  const short = x => String(Number(x.toPrecision(4)));
  // taken apart: a cell's number and unit, and the number in the unit of the key.
  const apart = (ask, cell) => {
    const m = /^([-+−–]?\d+(?:\.\d+)?)[ \u00a0]*(.*)$/.exec(cell) ?? [];
    const unit = m[2] || ask.unit, known = ask.units.find(u => u.symbol === unit) ?? (unit === ask.unit ? { times: 1, plus: 0 } : null);
    const n = m[1] === undefined ? NaN : Number(m[1].replace(/[−–]/, "-"));
    return { n: m[1], unit, value: known ? n * known.times + known.plus : NaN };
  };
  // asRead is a cell in the reader's units: as it was written where it is in those, else in that unit of theirs to as many digits as were written, at least three.
  const asRead = (ask, cell) => {
    const { n, unit, value } = apart(ask, cell);
    if (n === undefined) return cell;
    const u = ask.units.find(one => one.system === document.documentElement.dataset.units);
    const own = ask.units.find(one => one.symbol === unit);
    if (!u || !own || own.system === u.system || isNaN(value)) return amount(n, unit);
    const digits = Math.max(3, n.replace(/^[-+−–]?0*\.?0*/, "").replace(".", "").length);
    return amount(String(Number(((value - u.plus) / u.times).toPrecision(digits))), u.symbol);
  };
  const cellOf = (ask, n, unit) => unit === ask.unit || !unit ? n : n + " " + unit;
  const spoken = (head, cell) => {
    const ask = askOf(head);
    if (!ask) return head + " " + cell;
    return ask.title + " " + asRead(ask, cell);
  };
  const numbers = row => Object.keys(row).filter(rows.isNumber);
  // byQuantity are the cells with a number of a list of rows, in its order, by what was read.
  const byQuantity = list => {
    const by = new Map(asks.map(ask => [ask.quantity, []]));
    for (const row of list) for (const head in row) if (rows.isNumber(head)) by.get(rows.head(head).name)?.push({ row, head });
    return by;
  };
  const work = word => section.querySelector('[data-work="' + CSS.escape(word) + '"]')?.innerText ?? word;
  const told = row => [...numbers(row).map(h => spoken(h, row[h])), ...(row.work ? [work(row.work)] : [])].join(", ");
  const time = row => row.when.replace("T", " ").replace(/^(\S+ \d\d:\d\d):\d\d/, "$1");

  // ——— what is here ———

  let all = [], standing = [], cells = byQuantity([]), published = null;
  // The newest of a quantity: of this device, or of the edition.
  const last = ask => {
    const newest = ask.last === "" ? null : { at: ask.lastAt, cell: ask.last }, here = cells.get(ask.quantity).at(-1);
    return here && (!newest || rows.order(here.row.when, newest.at) >= 0) ? { at: here.row.when, cell: here.row[here.head] } : newest;
  };
  // What is in the edition is loaded only where something is here.
  const edition = async () => published ??= say.parcel ? await tankside.told("record-" + tank, say.parcel) : { ids: [], charts: [], rows: [] };

  // show draws what is here. It is called whenever something changes; what comes while it draws is drawn afterwards, once.
  let showing = null, stale = false;
  const show = () => {
    stale = true;
    return showing ??= (async () => {
      try {
        while (stale) { stale = false; await draw(); }
      } finally { showing = null; }
    })();
  };
  const draw = async () => {
    all = await readings.all(tank);
    standing = rows.standing(all);
    cells = byQuantity(standing);
    for (const ask of asks) {
      const newest = last(ask);
      ask.key.querySelector(".write-last").textContent = newest ? asRead(ask, newest.cell) : "";
    }
    trouble.hidden = again.hidden = readings.unkept.size === 0;
    trouble.textContent = readings.unkept.size ? say.sayUnkept : "";
    here.hidden = all.length === 0;
    where.textContent = await readings.keeps() === "window" ? say.sayWindow : say.sayDevice;
    where.classList.toggle("write-fleeting", await readings.keeps() === "window");
    if (!all.length) {
      if (later?.open) drawPublished();
      section.dataset.shown = 0;
      return;
    }
    let ids = new Set();
    try {
      ids = new Set((await edition()).ids);
    } catch (problem) {
      console.info("what is in the edition cannot be told:", problem.message);
      published = { ids: [], charts: [], rows: [] };
    }
    if (later?.open) drawPublished();
    const fresh = standing.filter(row => !ids.has(row.id)).reverse();
    count.textContent = fresh.length === 0 ? say.sayNone : fresh.length === 1 ? say.sayOne : filled(say.saySome, { n: fresh.length });
    list.replaceChildren(...fresh.slice(0, few).map(item));
    older.hidden = fresh.length <= few;
    older.textContent = filled(say.sayOlder, { n: few });
    charts.replaceChildren(...drawn(fresh));
    section.dataset.shown = fresh.length;
  };
  const item = row => {
    const li = make("li"), b = make("button", say.sayCorrect);
    li.append(make("b", told(row) || row.note || ""), " ", make("span", [time(row), row.by, told(row) && row.note].filter(Boolean).join(" · "), "aside"));
    b.type = "button";
    b.setAttribute("aria-label", say.sayCorrect + ": " + told(row));
    b.addEventListener("click", () => correct(row));
    li.append(" ", b);
    return li;
  };
  // drawn are the charts of what is read here, with what is in the edition beside what is on the device. A reading of the edition that was corrected here is not drawn.
  const drawn = fresh => {
    const mine = byQuantity(fresh.slice().reverse()), corrected = byQuantity((published.rows ?? []).filter(row => replaced().has(row.id)));
    return asks.flatMap(ask => {
      const of = published.charts.find(c => c.quantity === ask.quantity);
      const here = mine.get(ask.quantity).slice(-120).map(({ row, head }) => ({ at: row.when, value: apart(ask, row[head]).value, here: true })).filter(p => isFinite(p.value));
      const gone = corrected.get(ask.quantity).map(({ row, head }) => row.when.slice(0, 16) + " " + Number(row[head]).toPrecision(9));
      const before = (of && (!of.unit || of.unit === ask.unit) ? of.points : []).filter(p => !gone.includes(p.at.slice(0, 16) + " " + p.value.toPrecision(9)));
      const points = [...before, ...here];
      if (!here.length || points.length < 2 || ["loads", "added"].includes(ask.quantity)) return [];
      const figure = make("figure");
      figure.append(make("figcaption", ask.title), tankside.chart({ unit: ask.unit, low: of?.low, high: of?.high, points: points.slice(-120) }, filled(say.sayChart, { what: ask.title })));
      return [figure];
    });
  };

  // ——— what is in the edition ———

  // A reading that came with the edition is corrected as one of this device: by a row that names it. Those that were are not offered again; their corrections are,
  // above.
  const later = find(".write-published"), earlier = find(".write-earlier");
  let many = few;
  const replaced = () => new Set(all.map(row => row.replaces).filter(Boolean));
  const drawPublished = () => {
    const gone = replaced(), offered = (published?.rows ?? []).filter(row => !gone.has(row.id)).reverse();
    later.querySelector("ul").replaceChildren(...offered.slice(0, many).map(row => {
      const li = make("li");
      li.append(make("b", told(row) || row.note || ""), " ", make("span", [time(row), row.by, told(row) && row.note].filter(Boolean).join(" · "), "aside"));
      const heads = numbers(row).filter(askOf);
      for (const head of heads.length ? heads : [undefined]) {
        const b = make("button", say.sayCorrect + (heads.length > 1 ? ": " + spoken(head, row[head]) : ""));
        b.type = "button";
        b.setAttribute("aria-label", say.sayCorrect + ": " + (head ? spoken(head, row[head]) : told(row)) + ", " + time(row));
        b.addEventListener("click", () => open({ ask: head && askOf(head), work: row.work, instead: row, head }));
        li.append(" ", b);
      }
      return li;
    }));
    earlier.hidden = offered.length <= many;
    later.dataset.shown = offered.length;
  };
  later?.addEventListener("toggle", async () => {
    if (!later.open) return;
    try {
      await edition();
      drawPublished();
    } catch (problem) { console.info("what is in the edition cannot be told:", problem.message); }
  });
  earlier?.addEventListener("click", () => { many += 2 * few; drawPublished(); });

  // ——— the pad ———

  let at = null; // { ask, work, instead, head } that is written
  const unit = () => units.hidden ? at.ask?.unit ?? "" : units.value;
  const open = what => {
    at = what;
    const { ask, instead } = at;
    form.reset();
    field.value = says.textContent = "";
    keep.textContent = keepIt;
    at.sure = null;
    find(".pad-title").textContent = (ask?.title ?? work(at.work)) + " · " + say.name;
    const choice = ask?.units ?? [];
    units.hidden = choice.length < 2;
    units.replaceChildren(...choice.map(u => make("option", u.symbol)));
    const mine = document.documentElement.dataset.units;
    if (choice.length > 1) units.value = (choice.find(u => u.system === mine) ?? choice.find(u => u.first) ?? choice[0]).symbol;
    unitOf.textContent = units.hidden ? ask?.unit ?? "" : "";
    for (const part of [".pad-number", ".pad-keys"]) find(part).hidden = !ask;
    find(".pad-signs").hidden = !ask || !(Number(ask.least) < 0);
    find('.pad-keys [value="."]').disabled = Boolean(ask?.whole);
    const newest = ask && last(ask), a = newest && asRead(ask, newest.cell);
    find(".pad-last").textContent = instead ? filled(say.sayCorrecting, { n: told(instead), when: time(instead) }) : !ask ? "" : a ? filled(say.sayLast, { n: a, when: time({ when: newest.at }) }) : say.sayNever;
    same.hidden = !a || Boolean(instead);
    same.textContent = a ? filled(say.saySame, { n: a }) : "";
    same.onclick = () => keepRow({ [ask.head]: newest.cell });
    back.hidden = !instead;
    back.textContent = say.sayBack;
    try { form.elements.by.value = localStorage.getItem("tankside.by") ?? ""; } catch { /* nothing is kept here */ }
    if (instead) form.elements.note.value = instead.note ?? "";
    find(".pad-note").open = !ask;
    pad.showModal();
    if (ask) field.focus();
  };
  for (const ask of asks) ask.key.addEventListener("click", () => open({ ask }));
  for (const key of section.querySelectorAll("[data-work]")) key.addEventListener("click", () => open({ work: key.dataset.work }));
  const correct = row => {
    const head = numbers(row)[0];
    open({ ask: head && askOf(head), work: row.work, instead: row, head });
  };
  const typed = () => { at.sure = null; keep.textContent = keepIt; says.textContent = ""; };
  field.addEventListener("input", typed);
  units.addEventListener("change", typed);
  find(".pad-keys").addEventListener("click", event => {
    const value = event.target.closest("button")?.value;
    if (value === undefined) return;
    field.value = value === "back" ? field.value.slice(0, -1) : field.value + value;
    typed();
  });
  find(".pad-minus").addEventListener("click", () => { field.value = field.value.startsWith("-") ? field.value.slice(1) : "-" + field.value; typed(); });
  find(".pad-close").addEventListener("click", () => pad.close());
  back.addEventListener("click", () => keepRow({ note: say.sayTakenBack }, true));

  // judge says what speaks against a number, or nothing: it is no number, cannot be, or is not usual here and was not confirmed yet.
  const judge = text => {
    const { ask } = at;
    if (!/^-?\d+([.,]\d+)?$/.test(text) || /^-?[1-9]\d{0,2},\d{3}$/.test(text)) return say.sayNumber;
    if (ask.whole && !/^\d+$/.test(text)) return say.sayWhole;
    const u = ask.units.find(one => one.symbol === unit()) ?? { times: 1, plus: 0 };
    const v = Number(text.replace(",", ".")) * u.times + u.plus, slack = 1e-9 * Math.max(1, Math.abs(v));
    const bound = x => amount(short((Number(x) - u.plus) / u.times), unit());
    const n = amount(text, unit());
    if (v < Number(ask.least) - slack || v > Number(ask.most) + slack) return filled(say.sayCannot, { n, what: ask.title, a: bound(ask.least), b: bound(ask.most) });
    if (ask.low !== "" && (v < Number(ask.low) - slack || v > Number(ask.high) + slack) && at.sure !== n) {
      at.sure = n;
      keep.textContent = filled(say.sayYes, { n });
      return filled(say.sayUnlikely, { n, a: bound(ask.low), b: bound(ask.high) });
    }
    return "";
  };
  form.addEventListener("submit", event => {
    event.preventDefault();
    const text = field.value.trim().replace("−", "-");
    if (!at.ask) return keepRow({});
    says.textContent = judge(text);
    if (says.textContent) return field.focus();
    keepRow({ [at.head ?? at.ask.head]: cellOf(at.ask, text.replace(",", "."), unit()) });
  });

  // keepRow keeps what was written; a correction says the whole row anew, with the time at which it was read.
  const keepRow = async (cells, taken = false) => {
    const { instead } = at, given = form.elements, row = { ...cells };
    if (instead && !taken) for (const head of Object.keys(instead)) if (!["id", "replaces", ...Object.keys(row)].includes(head)) row[head] = instead[head];
    if (instead) row.when = instead.when;
    if (at.work && !taken) row.work = at.work;
    const note = given.note.value.trim(), by = given.by.value.trim(), when = given.when.value;
    if (!taken) { if (note) row.note = note; else delete row.note; }
    if (by) row.by = by;
    if (when && !instead) row.when = zoned ? when + readings.now(true).slice(19) : when;
    try { localStorage.setItem("tankside.by", by); } catch { /* it is asked for again */ }
    pad.close();
    const { kept } = instead ? await readings.correct(tank, instead.id, row, zoned) : await readings.add(tank, row, zoned);
    said.textContent = kept ? filled(say.sayKept, { what: (taken ? say.sayTakenBack + ": " + told(instead) : told(row)) + ", " + time(instead ?? { when: row.when ?? readings.now(zoned) }) }) : "";
    await showing; // what has changed was heard below
  };

  // ——— out and in ———

  const table = () => rows.write(all, heads);
  section.table = table; // what would be saved
  save.addEventListener("click", () => {
    const a = Object.assign(make("a"), { href: URL.createObjectURL(new Blob([table()], { type: "text/csv" })), download: tank + ".csv" });
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 60000);
  });
  const problems = { large: say.sayLarge, heads: say.sayHeads, twice: say.sayTwice, unit: say.sayUnit, cells: say.sayCells, long: say.sayLong, number: say.sayCell, sign: say.saySign, time: say.sayTime, quotes: say.sayQuotes };
  const readIn = async text => {
    const { rows: came, problem, line, text: what } = rows.read(text);
    if (problem) {
      const why = filled(problems[problem], { what: (what ?? "").slice(0, 40) });
      read.textContent = say.sayRefused + " " + (line ? filled(say.sayLine, { n: line, what: why }) : why);
      return;
    }
    const { added, there, unkept } = await readings.merge(tank, came);
    read.textContent = unkept ? "" : filled(say.sayAdded, { n: added, m: there });
    await showing; // what has changed was heard below
  };
  section.readIn = readIn;
  find(".write-file input").addEventListener("change", async event => {
    const file = event.target.files[0];
    if (file) if (file.size > rows.maxBytes) read.textContent = say.sayLarge; else await readIn(await file.text());
    event.target.value = "";
  });
  again.firstElementChild.addEventListener("click", async () => { await readings.again(); await show(); });

  addEventListener("beforeunload", event => { if (readings.unkept.size) event.preventDefault(); });
  addEventListener("tankside-readings", event => { if (event.detail.tank === tank) show(); });
  addEventListener("tankside-units", show);
  show().then(() => { section.dataset.ready = "yes"; });
})();
