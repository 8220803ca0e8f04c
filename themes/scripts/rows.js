// The rows of a bath's record: read from a table, written as one, and put together from several devices. A row is a plain object of heads and cells,
// as in records/TANK.csv, without its empty cells: {when: "2026-11-27T06:10:05", "strength (% v/v)": "3.4", by: "R. Vale", id: "…"}.
//
// Rows are added and never changed. One that corrects another names its id under “replaces” and stands for it as a whole; one without a number takes it
// back. The rules here are those of builder/record/merge.go, word for word; testdata/merge.json holds cases of both. No clock decides anything.
(() => {
  "use strict";
  const tankside = window.tankside ??= {};
  const maxRows = 100_000, maxBytes = 24 * 2 ** 20, maxColumns = 64, maxText = 2000;
  const texts = ["when", "work", "by", "note", "replaces", "id"];
  const quantities = ["strength", "ph", "temperature", "conductivity", "level", "titrant", "foil", "loads", "added"];

  // ——— heads and cells ———

  const heads = new Map();
  const head = text => { // the parts of a head as the record knows them; a record of 100,000 rows has a dozen
    const known = heads.get(text);
    if (known) return known;
    if (heads.size > 1000) heads.clear();
    const parts = partsOf(text);
    heads.set(text, parts);
    return parts;
  };
  const partsOf = text => {
    const plain = text.replaceAll("\u00a0", " ").trim(), unit = plain.match(/^(.+?)\s*[([](.*)[)\]]$/);
    return { name: (unit ? unit[1] : plain).trim().toLowerCase(), unit: unit ? unit[2].trim() : "" };
  };
  // headOf writes a head as rows have it: known ones in small letters, others as they are.
  const headOf = text => {
    const { name, unit } = head(text);
    if (texts.includes(name)) return name;
    if (quantities.includes(name)) return unit ? name + " (" + unit + ")" : name;
    return text.trim();
  };
  const isNumber = h => quantities.includes(head(h).name);

  // same gives a cell as it is compared: 4.10 is 4.1, and a blank between day and time is a T.
  const same = (h, cell) => {
    if (h === "when") return cell.toUpperCase().replace(" ", "T");
    const m = isNumber(h) && cell.match(/^([-−–+]?)0*(\d+)(?:\.(\d*?)0*)?((?:[ \u00a0].*)?)$/);
    return m ? (/[-−–]/.test(m[1]) ? "-" : "") + m[2] + (m[3] ? "." + m[3] : "") + m[4].replaceAll("\u00a0", " ") : cell;
  };

  // order compares texts by their characters, as UTF-8 bytes are compared; the language's own order goes by halves of characters.
  const order = (a, b) => {
    let i = 0;
    while (i < a.length && i < b.length && a[i] === b[i]) i++;
    const half = c => c >= 0xd800 && c < 0xe000 ? c + 0x2000 : c >= 0xe000 ? c - 0x800 : c;
    return i === a.length || i === b.length ? a.length - b.length : half(a.charCodeAt(i)) - half(b.charCodeAt(i));
  };

  // The heads of a row in order. The rows of a file have the same heads, so that they are put in order once for all.
  const shapes = new Map();
  const cells = row => {
    const heads = [];
    for (const h of Object.keys(row)) if (row[h] !== "") heads.push(h);
    const shape = heads.join("\x1f");
    let known = shapes.get(shape);
    if (!known) {
      if (shapes.size > 1000) shapes.clear();
      shapes.set(shape, known = heads.sort(order));
    }
    return known;
  };
  // content is what a row says, all but its id.
  const content = row => cells(row).filter(h => h !== "id").map(h => h + "\x1f" + same(h, row[h])).join("\x1e");
  const raw = row => cells(row).map(h => h + "\x1f" + row[h]).join("\x1e");
  // digest is FNV-1a with 64 bits, of the text in UTF-8, in 16 letters. The sum is kept in four pieces of 16 bits, lowest first, since numbers are exact to 53 bits and
  // big ones take ten times as long; the prime is 2^40 + 0x1b3.
  const utf8 = new TextEncoder();
  const digest = text => {
    let a = 0x2325, b = 0x8422, c = 0x9ce4, d = 0xcbf2;
    for (const byte of utf8.encode(text)) {
      a ^= byte;
      const a1 = a * 0x1b3, b1 = b * 0x1b3 + (a1 >>> 16), c1 = c * 0x1b3 + a * 0x100 + (b1 >>> 16), d1 = d * 0x1b3 + b * 0x100 + (c1 >>> 16);
      a = a1 & 0xffff; b = b1 & 0xffff; c = c1 & 0xffff; d = d1 & 0xffff;
    }
    return [d, c, b, a].map(piece => piece.toString(16).padStart(4, "0")).join("");
  };
  // named gives a row its id: one that has none is named by what it says, so that it is the same row wherever it comes from.
  const named = row => row.id ? row : { ...row, id: "row-" + digest(content(row)) };

  // aside is a row whose id another row has that says something else: it gets an id of its own and, where it replaces nothing, replaces that one.
  const aside = row => ({ ...row, id: row.id + "." + digest(content(row)), replaces: row.replaces || row.id });

  // meet says which of two rows with one id keeps it, and what becomes of the other; null where both say the same.
  const meet = (a, b) => {
    const byContent = order(content(a), content(b));
    if (byContent === 0) return [order(raw(a), raw(b)) <= 0 ? a : b, null];
    return byContent < 0 ? [a, aside(b)] : [b, aside(a)];
  };

  // merge puts rows of several devices together: each row once, whatever order they come in and however often.
  const merge = (...lists) => {
    const all = new Map(), put = row => {
      const there = all.get(row.id);
      if (!there) return void all.set(row.id, row);
      const [stays, other] = meet(there, row);
      all.set(row.id, stays);
      if (other) put(other);
    };
    for (const list of lists) for (const row of list) put(named(row));
    return inOrder([...all.values()]);
  };

  const inOrder = rows => rows.map(row => ({ row, at: same("when", row.when ?? "") })).sort((a, b) => order(a.at, b.at) || order(a.row.id, b.row.id)).map(o => o.row);

  // standing are the rows that hold: of each row and all that correct it, also by correcting a correction, the one that most corrections lead to; of two
  // that are equal in this, the one with the later id in the alphabet. What was taken back is not among them.
  const bare = row => !cells(row).some(h => h === "work" || isNumber(h));
  const standing = rows => {
    if (!rows.some(row => row.replaces)) return rows.slice();
    const byId = new Map(rows.map(r => [r.id, r])), ends = new Map();
    // The end of a row's chain and how far it is: a row that replaces nothing, an id that is not here, or the first id of a ring.
    const end = row => {
      const way = [], on = new Map();
      let at = row.id;
      for (; !ends.has(at); at = byId.get(at).replaces) {
        if (on.has(at)) {
          const first = way.slice(on.get(at)).reduce((a, b) => order(a, b) <= 0 ? a : b);
          ends.set(first, { id: first, far: 0 });
          return end(row);
        }
        if (!byId.get(at)?.replaces) {
          ends.set(at, { id: at, far: 0 });
          break;
        }
        on.set(at, way.length);
        way.push(at);
      }
      let { id, far } = ends.get(at);
      for (const one of way.reverse()) ends.set(one, { id, far: ++far });
      return ends.get(row.id);
    };
    const holds = new Map();
    for (const row of rows) {
      const { id, far } = end(row), there = holds.get(id);
      if (!there || far > there.far || far === there.far && order(row.id, there.row.id) > 0) holds.set(id, { row, far });
    }
    const kept = new Set([...holds.values()].map(h => h.row));
    return rows.filter(r => kept.has(r) && !(r.replaces && bare(r)));
  };

  // ——— the table (RFC 4180) ———

  const quoted = cell => /[",;\t\r\n]|^\s|\s$/.test(cell) ? '"' + cell.replaceAll('"', '""') + '"' : cell;
  // clear puts a zero behind a number that could be read with the sign for thousands, 1.234.
  const clear = cell => cell.replace(/^(-?[1-9]\d{0,2}\.\d{3})(?!\d)/, "$10");
  // write gives rows as a table; `heads` come first, in their order.
  const write = (rows, heads = []) => {
    const used = new Set(["when", "id"]);
    for (const row of rows) for (const h of cells(row)) used.add(h);
    const rank = h => h === "when" ? 0 : isNumber(h) ? 1 + quantities.indexOf(head(h).name) : texts.includes(h) ? 40 + texts.indexOf(h) : 30;
    const rest = [...used].filter(h => !heads.includes(h)).sort((a, b) => rank(a) - rank(b) || order(a, b));
    const all = [...heads, ...rest];
    return [all, ...rows.map(row => all.map(h => isNumber(h) ? clear(row[h] ?? "") : row[h] ?? ""))].map(line => line.map(quoted).join(",")).join("\r\n") + "\r\n";
  };

  // cut parts a table into lines of cells; null where a quotation mark stands astray.
  const cut = (text, comma) => {
    const lines = [];
    let line = [], i = 0;
    while (i < text.length) {
      let cell = "";
      if (text[i] === '"') {
        for (i++; ;) {
          const close = text.indexOf('"', i);
          if (close < 0) return null;
          cell += text.slice(i, close);
          i = close + 1;
          if (text[i] !== '"') break;
          cell += '"';
          i++;
        }
        if (i < text.length && text[i] !== comma && text[i] !== "\n") return null;
      } else {
        const from = i;
        for (; i < text.length && text[i] !== comma && text[i] !== "\n"; i++) if (text[i] === '"') return null;
        cell = text.slice(from, i);
      }
      line.push(cell);
      if (text[i] === comma) {
        i++;
        if (i === text.length) line.push("");
      } else {
        i++;
        lines.push(line);
        line = [];
      }
    }
    if (line.length) lines.push(line);
    return lines;
  };

  const isoTime = /^\d{4}-\d\d-\d\d(?:[T ]\d\d:\d\d(?::\d\d)?(?:Z|[+-]\d\d(?::?\d\d)?)?)?$/i;
  // read gives the rows of a table, or why it is not taken: { rows } or { problem, line, text }. It takes what cannot be read in two ways; what needs the
  // whole record to be understood is for “tankside record --merge”, which reads every form that FORMAT.md tells.
  const read = text => {
    if (text.length > maxBytes) return { problem: "large" };
    text = text.replace(/^\ufeff/, "").replaceAll("\r\n", "\n").replaceAll("\r", "\n");
    const sep = text.match(/^"?sep=([,;\t])"?\n/i);
    if (sep) text = text.slice(sep[0].length);
    const first = text.slice(0, text.indexOf("\n") < 0 ? text.length : text.indexOf("\n"));
    const known = comma => (cut(first, comma)?.[0] ?? []).filter(h => [...texts, ...quantities].includes(head(h).name)).length;
    const comma = sep?.[1] ?? [",", ";", "\t"].reduce((a, b) => known(b) > known(a) ? b : a);
    const lines = cut(text, comma);
    if (!lines) return { problem: "quotes" };
    const heads = (lines.shift() ?? []).map(headOf);
    if (!heads.includes("when") || heads.length > maxColumns) return { problem: "heads" };
    const twice = heads.find((h, i) => h && (texts.includes(h) || isNumber(h)) && heads.findIndex(o => head(o).name === head(h).name) !== i);
    if (twice) return { problem: "twice", text: twice };
    const bare = heads.find(h => isNumber(h) && !head(h).unit && !["ph", "loads", "foil"].includes(h));
    if (bare) return { problem: "unit", text: bare };
    const rows = [];
    let points = false, commas = false, unclear = null;
    for (const [i, line] of lines.entries()) {
      if (line.every(c => c.trim() === "")) continue;
      if (rows.length === maxRows) return { problem: "large" };
      while (line.length > heads.length && line.at(-1).trim() === "") line.pop();
      if (line.length !== heads.length) return { problem: "cells", line: i + 2 };
      const row = {};
      for (const [j, h] of heads.entries()) {
        const cell = line[j].trim();
        if (!h || !cell || isNumber(h) && /^[-–—]$/.test(cell)) continue;
        if (cell.length > maxText) return { problem: "long", line: i + 2 };
        if (isNumber(h)) {
          const m = cell.match(/^[-−–+]?\d+(?:([.,])(\d+))?(?:[ \u00a0]?[^\d.,].*)?$/);
          if (!m) return { problem: "number", line: i + 2, text: cell };
          if (m[1] && m[2].length === 3 && /^[-−–+]?[1-9]\d{0,2}[.,]/.test(cell)) unclear ??= { problem: "sign", line: i + 2, text: cell, sign: m[1] };
          else if (m[1] === ".") points = true; else if (m[1] === ",") commas = true;
        }
        row[h] = cell;
      }
      if (!isoTime.test(row.when ?? "")) return { problem: "time", line: i + 2, text: row.when ?? "" };
      rows.push(row);
    }
    if (points && commas) return { problem: "sign", line: 0, text: "" };
    if (unclear && !points && !commas) return unclear;
    if (unclear && (commas ? "," : ".") !== unclear.sign) return unclear; // thousands are set apart
    if (commas) for (const row of rows) for (const h of Object.keys(row)) if (isNumber(h)) row[h] = row[h].replace(",", ".");
    return { rows };
  };

  tankside.rows = { merge, meet, named, standing, inOrder, content, read, write, head, isNumber, order, quantities, maxRows, maxBytes };
})();
