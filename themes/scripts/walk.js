// Turns a symptom's tree into a guided walk: one question at a time, with big answers; all else folds (fold.js, which comes first). The address carries the step, so that the
// browser's own back button, a bookmark and a search result lead to it; the way so far is kept for as long as the window is open. Without this
// script the page reads as a list of steps with links.
(() => {
  "use strict";
  const walk = document.querySelector(".walk");
  const steps = walk ? [...walk.querySelectorAll(":scope > section")] : [];
  if (steps.length === 0) return;
  const article = walk.closest("article"), head = article.querySelector(".walk-head");
  const say = walk.dataset;
  const byId = new Map(steps.map(s => [s.id, s]));
  const first = steps[0].id;

  // What a step asks, in the reader's units, without its number.
  const shown = window.tankside.shown;
  const title = id => {
    const heading = byId.get(id).querySelector("h2").cloneNode(true);
    heading.querySelector(".number")?.remove();
    return shown(heading).trim();
  };

  // The way: ids of the steps gone through, the current one last; the answer given at each, and what was measured there.
  const kept = "walk:" + location.pathname;
  let path = [], given = {}, measured = {};
  const remember = () => { try { sessionStorage.setItem(kept, JSON.stringify({ path, given, measured })); } catch { /* the way lasts as long as the page */ } };
  const before = (() => {
    try {
      const was = JSON.parse(sessionStorage.getItem(kept));
      return was && Array.isArray(was.path) && was.path.every(id => byId.has(id)) ? was : null;
    } catch { return null; }
  })();
  if (before) ({ given = {}, measured = {} } = before);

  const trail = Object.assign(document.createElement("details"), { className: "trail" });
  const trailed = trail.appendChild(document.createElement("summary"));
  const way = trail.appendChild(document.createElement("ol"));
  way.setAttribute("aria-label", say.sayPath);
  head.querySelector(".walk-title").append(trail);
  const bar = Object.assign(document.createElement("p"), { className: "walk-nav" });
  const button = (text, does) => {
    const b = Object.assign(document.createElement("button"), { type: "button", textContent: text });
    b.addEventListener("click", does);
    bar.append(b);
    return b;
  };
  const back = button(say.sayBack, () => { location.hash = path.at(-2); });
  const again = button(say.sayStart, () => { path = []; given = {}; measured = {}; location.hash = first; if (current() === first) show(true); });
  const trees = [...article.querySelectorAll(".overview, .drawn")]; // in words, and drawn where there is room
  if (trees.length) button(say.sayTree, () => {
    for (const t of trees) t.open = true;
    const tree = trees.findLast(t => t.checkVisibility());
    tree.scrollIntoView({ block: "start" });
    tree.querySelector("summary").focus({ preventScroll: true });
    mark(current());
  }).className = "walk-tree";
  walk.after(bar);

  // Where one was before one left by another page.
  if (before && before.path.length > 1 && !location.hash) {
    const on = Object.assign(document.createElement("a"), { className: "walk-on", href: "#" + before.path.at(-1), textContent: say.sayOn + ": " + title(before.path.at(-1)) });
    on.addEventListener("click", () => { path = before.path; on.remove(); });
    walk.before(on);
  } else if (before) path = before.path;

  // The drawn tree shows where the walk is, and the way it took.
  const drawn = document.querySelector(".overview-paper");
  function mark(id) {
    for (const a of article.querySelectorAll(".outline [data-step]")) a.toggleAttribute("aria-current", a.dataset.step === id);
    if (!drawn) return;
    for (const a of drawn.querySelectorAll("[data-step]")) {
      if (a.dataset.step !== id) { a.removeAttribute("aria-current"); continue; }
      a.setAttribute("aria-current", "step");
      const box = a.getBoundingClientRect(), paper = drawn.getBoundingClientRect();
      drawn.scrollBy({ left: box.left + box.width / 2 - paper.left - paper.width / 2, top: box.top + box.height / 2 - paper.top - paper.height / 2, behavior: "instant" });
    }
    for (const line of drawn.querySelectorAll(".way")) {
      const at = path.indexOf(line.dataset.from);
      line.classList.toggle("gone", at >= 0 && path[at + 1] === line.dataset.to);
    }
  }

  // current is the step that the address names, or the one that holds the heading it names.
  function current() {
    const id = window.tankside.unescaped(location.hash.slice(1));
    if (byId.has(id)) return id;
    const inside = id && document.getElementById(id);
    const step = inside && inside.closest(".walk > section");
    return step ? step.id : path.at(-1) && inside ? path.at(-1) : first;
  }

  // answerAt is what was answered at a step of the way, with what was measured.
  function answerAt(i) {
    const id = path[i], next = path[i + 1];
    const links = next ? [...byId.get(id).querySelectorAll(".answers a")].filter(a => a.getAttribute("href") === "#" + next) : [];
    const link = links.find(a => a.dataset.answer === given[id]) ?? links[0];
    return link && shown(link.querySelector(".answer"));
  }
  const told = i => [measured[path[i]], answerAt(i)].filter(Boolean).join(" – ");

  function show(move) {
    const id = current();
    const was = path.indexOf(id);
    path = was >= 0 ? path.slice(0, was + 1) : [...path, id];
    for (const s of steps) s.hidden = s.id !== id;
    walk.classList.add("walking");
    article.classList.toggle("under-way", path.length > 1);
    trailed.textContent = say.sayStep.replace("{n}", path.length) + (path.length > 1 ? " · " + (told(path.length - 2) || title(path.at(-2))) : "");
    trail.open = false;
    trail.hidden = path.length < 2;
    way.replaceChildren(...path.slice(0, -1).map((p, i) => {
      const li = document.createElement("li");
      li.append(Object.assign(document.createElement("a"), { href: "#" + p, textContent: title(p) }), told(i) ? " " + told(i) : "");
      return li;
    }));
    back.hidden = again.hidden = path.length < 2;
    mark(id);
    remember();
    if (move) {
      const heading = byId.get(id).querySelector("h2");
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
      scrollTo({ top: 0, behavior: "instant" }); // one step, one screen
    }
  }
  walk.addEventListener("click", event => {
    const a = event.target.closest(".answers a");
    if (!a) return;
    given[a.closest("section").id] = a.dataset.answer;
    remember();
  });

  // A number that was measured picks the answer that states it, and none where none does.
  const number = (a, name) => a.dataset[name] === "" ? null : Number(a.dataset[name]);
  const states = (a, v) => {
    const low = number(a, "low"), high = number(a, "high");
    return (low === null || v > low || "lowIn" in a.dataset && v === low) && (high === null || v < high || "highIn" in a.dataset && v === high);
  };
  for (const form of walk.querySelectorAll(".reading")) {
    const field = form.querySelector("input"), says = form.querySelector(".reading-says"), step = form.closest("section");
    const unit = () => form.querySelector("select")?.selectedOptions[0] ?? form.querySelector("[data-times]");
    const system = document.documentElement.dataset.units;
    for (const o of form.querySelectorAll("option")) if (o.dataset.system === system) o.selected = true;
    form.hidden = false;
    form.addEventListener("submit", event => {
      event.preventDefault();
      const text = field.value.trim();
      for (const a of step.querySelectorAll(".answers a")) a.classList.remove("picked");
      if (!/^[-−]?\d+(\.\d+)?$/.test(text)) { says.textContent = form.dataset.sayNumber; field.focus(); return; }
      const written = text + " " + unit().textContent + (form.querySelector(".reading-of") ? " " + form.querySelector(".reading-of").textContent : "");
      const v = Math.round((Number(text.replace("−", "-")) * unit().dataset.times + Number(unit().dataset.plus)) * 1e9) / 1e9;
      measured[step.id] = written.trim();
      remember();
      const pick = [...step.querySelectorAll(".answers a[data-low]")].find(a => states(a, v));
      if (!pick) { says.textContent = form.dataset.sayNone.replace("{n}", measured[step.id]); return; }
      if ("alone" in pick.dataset) { says.textContent = ""; pick.click(); return; }
      says.textContent = form.dataset.sayAlso.replace("{n}", measured[step.id]);
      pick.classList.add("picked");
      pick.focus();
    });
  }

  // way is the path so far, as the visit report takes it down.
  walk.way = () => path.map((id, i) => {
    const answer = told(i) || measured[id];
    return answer ? { step: title(id), answer } : { step: title(id) };
  });

  addEventListener("hashchange", () => show(true));
  addEventListener("tankside-units", () => show(false));
  show(false);
  if (location.hash && !byId.has(window.tankside.unescaped(location.hash.slice(1)))) document.getElementById(window.tankside.unescaped(location.hash.slice(1)))?.scrollIntoView({ block: "start" });
})();
