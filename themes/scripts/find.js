// The search field: results while typing, in a list below the field (WAI-ARIA combobox with a listbox). Needs parcel.js
// and module.js.
//
// In the page, once:
//
//   <form class="find" role="search"
//         data-find-wasm="…" data-find-index="…" data-find-worker="…"     the parcels, relative to the page; find-index hands over where
//                                                                         the index is, relative to the edition's root
//         data-root="../"                                                 to the edition's root, if <html> has no data-root
//         data-index="../a-z.html">                                       the alphabetical index
//     <label for="find-words">…</label>
//     <input type="search" id="find-words" name="q" autocomplete="off">
//     <button type="submit">…</button>
//   </form>
//
// This script adds to the form:
//
//   <div class="find-results" hidden>
//     <p class="find-say" role="status">…</p>               how many, or what is wrong; buttons .find-near, a link .find-index
//     <div class="find-worked">…</div>                      what is worked out of the words: .find-answer for each way to read them, .find-asks
//     <div class="find-list" role="listbox">
//       <a class="find-hit" role="option" aria-selected="false" href="…">
//         <span class="find-kind">…</span> <strong class="find-title">…</strong> <span class="find-section">…</span>
//         <span class="find-snippet">…<mark>…</mark>…</span>
//       </a>…  <button class="find-more" role="option">…</button>  or, before anything is typed, <button class="find-recent" role="option">…</button>
//     </div>
//     <div class="find-filters"><button class="find-filter" aria-pressed="false">symptom <span>8</span></button>…</div>
//     <button class="find-forget">…</button>
//   </div>
//
// Every sentence stands in an attribute of the form: data-say-many="…", data-say-kind-soil="…".
// Nothing is loaded before the field is touched. Hits are built as nodes with text, never from markup.
(() => {
  "use strict";
  const shownAtMost = 8, moreAtOnce = 16, keptAtMost = 8, kept = "tankside.find.recent";

  const form = document.querySelector("form.find");
  const field = form && form.querySelector("input");
  if (!field) return;
  const given = form.dataset;
  const root = given.root ?? document.documentElement.dataset.root ?? "";
  const key = name => "say" + name.split("-").map(part => part.slice(0, 1).toUpperCase() + part.slice(1)).join("");
  const say = (name, numbers = {}) =>
    (given[key(name)] ?? "").replace(/\{(\w)\}/g, (_, n) => numbers[n]);
  const nameOf = (what, name) => (name && given[key(what + "-" + name)]) || name;

  const make = (tag, className, text, attributes = {}) => {
    const node = document.createElement(tag);
    node.className = className;
    if (text) node.textContent = text;
    for (const [name, value] of Object.entries(attributes)) node.setAttribute(name, value);
    return node;
  };

  const results = make("div", "find-results");
  const worked = make("div", "find-worked", "", { role: "group", "aria-label": say("worked") });
  const told = make("p", "find-say", "", { role: "status" });
  const filters = make("div", "find-filters", "", { role: "group", "aria-label": say("narrow") });
  const list = make("div", "find-list", "", { role: "listbox", id: "find-list", "aria-label": say("list") });
  const forget = make("button", "find-forget", say("forget"), { type: "button" });
  results.append(told, worked, list, filters, forget); // hits first: on a phone the filters would push them out of sight
  results.hidden = worked.hidden = filters.hidden = forget.hidden = true;
  form.append(results);
  for (const [name, value] of Object.entries({
    role: "combobox", "aria-expanded": "false", "aria-controls": "find-list", "aria-autocomplete": "list",
    autocapitalize: "off", spellcheck: "false", enterkeyhint: "search",
  })) field.setAttribute(name, value);

  // ——— the search beside the page ———

  // A worker keeps the page free while it works. Where none is to be had the same code runs in the page; that is slower to
  // the eye, and right.
  const beside = async () => {
    const search = await tankside.load("find-worker", given.findWorker);
    const source = "(" + search + ")(self, (" + tankside.bridge + ")())";
    const address = URL.createObjectURL(new Blob([source], { type: "text/javascript" }));
    try {
      const worker = new Worker(address);
      await new Promise((done, failed) => {
        worker.onerror = () => failed(new Error("the worker does not start"));
        worker.onmessage = done;
        worker.postMessage({ hello: true });
      });
      worker.onerror = null;
      return worker;
    } catch {
      const { port1, port2 } = new MessageChannel();
      search(port1, tankside.bridge());
      return port2;
    } finally {
      URL.revokeObjectURL(address);
    }
  };

  // The index of a large manual comes in several pieces.
  const piece = i => i ? "search-segment-" + (i + 1) : "search-segment";
  const pieces = files => Promise.all(files.split(" ").map((file, i) => tankside.load(piece(i), root + file)));

  // The index says of which edition it is: a server, or a half-copied folder, may have another by now, and a page does not mix two.
  const own = document.querySelector(".newer[data-edition]")?.dataset.edition ?? "";
  const findIndex = given.findIndex + (own && location.protocol !== "file:" ? "?edition=" + encodeURIComponent(own) : "");
  const index = async () => {
    const files = await tankside.load("find-index", findIndex), there = tankside.parcels["find-edition"];
    if (own && there !== undefined && there !== own) throw Object.assign(new Error("the index is of edition " + there), { other: true });
    return files;
  };

  let opening; // a promise of the port, once the field has been touched
  const open = () => opening ??= (async () => {
    const listed = index();
    const [port, wasm, segments, files] = await Promise.all([
      beside(), tankside.load("search-wasm", given.findWasm), listed.then(pieces), listed]);
    const read = [given.findWasm, ...files.split(" ").map(file => root + file)]; // the module first
    await new Promise((done, failed) => {
      port.onmessage = ({ data }) => data.ready ? done() : failed(data.of === undefined ? new Error(data.failed) : tankside.damaged(read[data.of], data.failed));
      port.postMessage({ open: { wasm, segments } });
    });
    for (const used of ["search-wasm", ...segments.map((_, i) => piece(i))]) tankside.drop(used);
    port.onmessage = ({ data }) => {
      const { done, failed } = waiting.get(data.number);
      waiting.delete(data.number);
      if (data.answer) done(data.answer); else failed(new Error(data.failed));
    };
    return port;
  })();
  const waiting = new Map();
  let numbers = 0;
  const ask = async question => {
    const port = await open();
    return new Promise((done, failed) => {
      const number = ++numbers;
      waiting.set(number, { done, failed });
      port.postMessage({ ask: question, number });
    });
  };
  tankside.ask = ask; // for other scripts of the page: a question of the package search, a promise of its answer

  // ——— what can be worked out: the module of the answers reads the words and answers what it has read ———

  const separator = "\x1f", part = "\x1e";
  let telling; // a promise of the module's functions, once there is something to read
  const teller = () => telling ??= (async () => {
    await index(); // hands over where the rest is, too
    const all = JSON.parse(await tankside.load("find-asked", findIndex));
    const files = all[document.documentElement.lang] ?? Object.values(all)[0];
    document.body.dataset.answers ??= root + files.answers;
    const data = (name, file) => file && tankside.content(name, root + file);
    const [ask, names, sheet, words] = await Promise.all([
      tankside.answers(), data("asked-names", files.names), data("admit-table", files.sheet), data("calculators-words", files.words)]);
    if (words) ask("speak", words);
    if (sheet) ask("open", sheet);
    ask("know", names);
    const text = new TextDecoder().decode(names);
    const line = name => { // of the names: a place, or a sentence
      const at = text.indexOf("\n" + name + separator);
      return at < 0 ? "" : text.slice(at + name.length + 2, text.indexOf("\n", at + 1));
    };
    return { ask: (what, ...fields) => ask(what, fields.join(separator)) ?? "", line };
  })();

  // answerNode shows one way to read the words: its title leads to the page that answers at length, what is inside is picked from that page's answer.
  const answerNode = (title, path, picked) => {
    const node = make("div", "find-answer");
    const head = make("p", "find-answer-title");
    head.append(path ? make("a", "", title, { href: root + path }) : title);
    node.append(head, ...picked);
    return node;
  };
  const inside = html => {
    const holder = document.createElement("template");
    holder.innerHTML = html; // the module escapes every text
    for (const a of holder.content.querySelectorAll("a[href]")) a.setAttribute("href", root + a.getAttribute("href"));
    return holder.content;
  };
  // The gravest safety message; one that stands above already with its signal word alone.
  const safety = (content, before) => {
    const first = ["danger", "warning", "caution", "notice"].map(word => content.querySelector(".safety." + word)).find(x => x);
    if (!first) return [];
    if (before.has(first.textContent)) first.replaceChildren(first.firstElementChild);
    else before.add(first.textContent);
    return [first];
  };
  const readSum = ({ ask, line }, [like, name, ...inputs], units, before) => {
    const [html, , plain, ...wrong] = ask("calculate", name, units, ...inputs).split(separator);
    const content = inside(html), query = new URLSearchParams();
    for (let i = 0; i < inputs.length; i += 2) query.set(inputs[i], inputs[i + 1]);
    const path = line("=" + name), told = ["volume", "strength", "start", "target", "heater"].map(one => query.get(one)).filter(one => one);
    const title = [plain.split("\n")[0] || name, ...told].join(" · ") + (like && " (" + like + ")");
    const short = [...content.querySelectorAll(".sum-reading")].slice(0, 1).map(x => tankside.shown(x)).join();
    for (const more of [...content.querySelectorAll(".sum-reading")].slice(4)) more.remove();
    const picked = wrong.length ? [make("p", "", wrong.filter((_, i) => i % 2).join(" "))]
      : [...safety(content, before), ...content.querySelectorAll(".sum-verdict, .sum-readings")];
    return [answerNode(title, path && path + "?" + query, picked), title + ": " + short];
  };
  const readLoad = ({ ask, line }, [soil, bath, ...materials], units, before) => {
    const content = inside(ask("admit", units, soil, bath, ...materials).split(separator)[0]);
    const query = new URLSearchParams();
    for (const m of materials) query.append("material", m);
    if (soil) query.set("soil", soil);
    query.set("bath", bath);
    const verdict = content.querySelector(".verdict"), asked = content.querySelector(".asked");
    let care = safety(content, before);
    if (!care.length && verdict.classList.contains("no")) {
      care = [make("div", "safety notice")];
      care[0].append(make("p", "signal", line("?notice")));
    }
    const why = verdict.classList.contains("yes") ? [] : [...content.querySelectorAll(".why")].slice(0, 1);
    return [answerNode(asked.textContent, line("=admit") + "#" + query, [verdict, ...care, ...why]), verdict.textContent + ": " + asked.textContent];
  };
  // What was found is text of the index: amounts in it get the other family's before them, as in the pages, where the reader has chosen another
  // than the shop's.
  const inUnits = async nodes => {
    const page = document.documentElement.dataset;
    const left = nodes.filter(node => !("both" in node.dataset) && /\d/.test(node.textContent));
    if (page.units === page.shopUnits || left.length === 0) return;
    const { ask } = await teller();
    for (const node of left) {
      node.dataset.both = "";
      node.innerHTML = ask("both", node.innerHTML); // what a browser has escaped, with marks
    }
  };
  const foundInUnits = () => inUnits([...list.querySelectorAll(".find-title, .find-section, .find-snippet")]).catch(problem => console.error(problem));
  addEventListener("tankside-units", foundInUnits);

  const workOut = async text => {
    if (!/\d|\S\s+\S/.test(text)) return; // nothing that can be worked out has one word and no figure
    const module = await teller(), before = new Set(), nodes = [], spoken = [], asks = [];
    const units = document.documentElement.dataset.units ?? "";
    for (const one of module.ask("read", text).split(part)) {
      const [what, ...fields] = one.split(separator);
      if (what === "ask") asks.push(module.line("?" + fields[0]));
      if (what === "says") asks.push(fields[0]);
      if (what === "same") nodes.push([answerNode(fields[0] + " = " + fields[1], "", []), fields.join(" = ")]);
      if (what === "sum") nodes.push(readSum(module, fields, units, before));
      if (what === "load") nodes.push(readLoad(module, fields, units, before));
    }
    for (const [, short] of nodes) spoken.push(short);
    return { nodes: [...nodes.map(([node]) => node), ...asks.map(text => make("p", "find-asks", text))], spoken: [...spoken, ...asks].join(" ") };
  };
  // What is worked out comes after the first results, which do not wait for its module.
  const showWorked = async text => {
    let out;
    try {
      out = await workOut(text);
    } catch (problem) {
      console.error(problem); // the search itself works all the same
    }
    if (field.value !== text) return;
    worked.hidden = !out?.nodes.length;
    worked.replaceChildren(...(out?.nodes ?? []));
    if (out?.nodes.length) told.querySelector(".find-unknown")?.remove(); // they were understood
    if (out?.spoken) told.prepend(make("span", "visually-hidden", out.spoken + " "));
  };

  // ——— what was searched before, on this device only; without storage there is just none ———

  const recent = () => {
    try {
      const list = JSON.parse(localStorage.getItem(kept));
      return Array.isArray(list) ? list.filter(x => typeof x === "string" && x).slice(0, keptAtMost) : [];
    } catch { return []; }
  };
  const keep = list => {
    try {
      if (list.length) localStorage.setItem(kept, JSON.stringify(list)); else localStorage.removeItem(kept);
    } catch { /* a private window or a full disk: the search works all the same */ }
  };
  const remember = () => {
    const text = field.value.trim();
    if (text) keep([text, ...recent().filter(x => x !== text)].slice(0, keptAtMost));
  };

  // ——— showing ———

  const spoken = document.documentElement.lang;
  let options = [], active = -1;
  let kind = "", station = "";
  const expand = open => {
    results.hidden = !open;
    field.setAttribute("aria-expanded", String(open && options.length > 0));
    if (!open) choose(-1);
  };
  const choose = n => {
    options[active]?.setAttribute("aria-selected", "false");
    active = n;
    const chosen = options[active];
    if (!chosen) return field.removeAttribute("aria-activedescendant");
    chosen.setAttribute("aria-selected", "true");
    field.setAttribute("aria-activedescendant", chosen.id);
    chosen.scrollIntoView({ block: "nearest" });
  };
  const fill = (nodes, label) => {
    choose(-1);
    nodes.forEach((node, i) => { node.id = "find-option-" + i; });
    options = nodes;
    list.setAttribute("aria-label", label);
    list.replaceChildren(...nodes);
  };
  const tell = (text, ...more) => {
    if (told.textContent !== text || more.length) told.replaceChildren(text, ...more);
  };
  const indexLink = () => make("a", "find-index", say("index"), { href: given.index ?? root + "a-z.html" });

  const hitNode = hit => {
    const a = make("a", "find-hit", "", { role: "option", "aria-selected": "false", tabindex: "-1", href: root + hit.path });
    const other = hit.language && hit.language !== spoken ? { lang: hit.language } : {}; // the article's language, where it is not the page's
    if (other.lang) a.hreflang = other.lang;
    a.append(make("span", "find-kind", nameOf("kind", hit.kind)), " ", make("strong", "find-title", hit.title, other), " ");
    if (hit.section) a.append(make("span", "find-section", hit.section, other), " ");
    const snippet = make("span", "find-snippet", "", other);
    for (const run of hit.snippet ?? []) snippet.append(run.marked ? make("mark", "", run.text) : run.text);
    a.append(snippet);
    a.addEventListener("click", remember);
    return a;
  };
  const filterNodes = (counts, what, chosen, choice) => {
    counts = counts ?? [];
    if (chosen && !counts.some(c => c.name === chosen)) counts = [...counts, { name: chosen, articles: 0 }]; // to be let go of
    if (counts.length < 2 && !chosen) return [];
    return counts.map(({ name, articles }) => {
      const b = make("button", "find-filter", nameOf(what, name) + " ", { type: "button", "aria-pressed": String(name === chosen) });
      b.append(make("span", "", String(articles)));
      b.addEventListener("click", () => { choice(name === chosen ? "" : name); search(); field.focus(); });
      return b;
    });
  };

  const narrow = nodes => {
    filters.replaceChildren(...nodes);
    filters.hidden = nodes.length === 0;
  };

  // The rest of what was found, as much at once as one looks through.
  let shown = []; // hits of the answer that stands there
  const moreNode = question => {
    const b = make("button", "find-more", say("more"), { type: "button", role: "option", "aria-selected": "false", tabindex: "-1" });
    b.addEventListener("click", async () => {
      const first = shown.length;
      try {
        const answer = await ask({ ...question, from: first, limit: moreAtOnce });
        if (JSON.stringify([question.words, question.kind ?? "", question.station ?? ""]) !== answered) return; // something else stands there by now
        putHits(answer, question);
        choose(Math.min(first, options.length - 1));
        field.focus();
      } catch (problem) {
        fail(problem);
      }
    });
    return b;
  };
  const putHits = (answer, question) => {
    shown = [...shown, ...(answer.hits ?? []).map(hitNode)];
    fill(answer.total > shown.length ? [...shown, moreNode(question)] : shown, say("list"));
    foundInUnits();
    const unknown = (answer.unknown ?? []).length ? [make("span", "find-unknown", " " + say("unknown", { w: answer.unknown.map(w => "“" + w + "”").join(", ") }))] : [];
    if (shown.length) {
      tell(answer.total === 1 ? say("one") : say(answer.total > shown.length ? "best" : "many", { n: answer.total, m: shown.length }), ...unknown);
    }
  };

  const show = (answer, question) => {
    shown = [];
    worked.hidden = true;
    putHits(answer, question);
    const hits = shown;
    narrow([
      ...filterNodes(answer.kinds, "kind", kind, name => { kind = name; }),
      ...filterNodes(answer.stations, "station", station, name => { station = name; })]);
    forget.hidden = true;
    if (hits.length === 0) {
      const near = (answer.nearest ?? []).map(word => {
        const b = make("button", "find-near", word, { type: "button" });
        b.addEventListener("click", () => { field.value = word; search(); field.focus(); });
        return b;
      });
      tell(say("none") + " ", ...(answer.unknown ?? []).length ? [say("unknown", { w: answer.unknown.map(w => "“" + w + "”").join(", ") }) + " "] : [], ...(near.length ? [say("nearest") + " ", ...near.flatMap(b => [b, " "])] : []), indexLink());
    }
    expand(true);
  };
  const showRecent = () => {
    const before = recent();
    worked.hidden = true;
    narrow([]);
    forget.hidden = before.length === 0;
    fill(before.map(text => {
      const b = make("button", "find-recent", text, { type: "button", role: "option", "aria-selected": "false", tabindex: "-1" });
      b.addEventListener("click", () => { field.value = text; search(); field.focus(); });
      return b;
    }), say("recent"));
    tell(before.length ? say("recent") : "");
    expand(before.length > 0);
  };
  const fail = problem => {
    console.error(problem);
    fill([], say("list"));
    narrow([]);
    forget.hidden = true;
    if (problem?.other) tankside.otherEdition?.();
    tell((problem?.other ? say("other") : say("failed") + " " + tankside.reason(problem)) + " ", indexLink());
    expand(true);
  };

  // One question is under way at a time; when its answer comes the field's newest words are asked.
  let asking = false, newest = "", answered = "", openFirst = false;
  const asNow = () => JSON.stringify([field.value, kind, station]);
  const search = async () => {
    if (!field.value.trim()) {
      kind = station = newest = answered = "";
      openFirst = false;
      return showRecent();
    }
    newest = asNow();
    if (asking) return;
    asking = true;
    const patience = setTimeout(() => { tell(say("getting")); expand(true); }, 150);
    try {
      while (newest && newest !== answered) {
        const now = newest;
        const question = { words: field.value.slice(0, 1000), kind, station, limit: shownAtMost, language: spoken };
        const answer = await ask(question);
        answered = now;
        clearTimeout(patience);
        if (now !== newest || !field.value.trim()) continue;
        show(answer, question);
        showWorked(field.value);
        if (openFirst && options[0]) options[0].click();
        openFirst = false;
      }
    } catch (problem) {
      fail(problem);
    } finally {
      clearTimeout(patience);
      asking = false;
    }
  };

  field.addEventListener("focus", () => {
    open().catch(() => {}); // said when something is asked
    if (field.value.trim()) { if (options.length) expand(true); } else showRecent();
  });
  field.addEventListener("input", () => { openFirst = false; search(); });
  field.addEventListener("keydown", event => {
    const move = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (move && options.length) {
      event.preventDefault();
      if (results.hidden) expand(true);
      const n = active + move;
      choose(n < -1 ? options.length - 1 : n >= options.length ? -1 : n);
    } else if (event.key === "Escape" && !results.hidden) {
      event.preventDefault();
      expand(false);
    }
  });
  form.addEventListener("submit", event => {
    event.preventDefault();
    if (options[active]) return options[active].click();
    if (!field.value.trim()) return field.focus();
    if (answered === asNow() && shown[0]) return shown[0].click();
    openFirst = true;
    search();
  });
  form.addEventListener("focusout", event => {
    if (!form.contains(event.relatedTarget)) expand(false);
  });
  // A press on a result must not take the focus from the field before the click comes.
  results.addEventListener("mousedown", event => { if (!event.target.closest("a")) event.preventDefault(); });
  forget.addEventListener("click", () => { keep([]); showRecent(); field.focus(); });
})();
