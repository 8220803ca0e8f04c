// Turns a symptom's tree into a guided walk: one question at a time. The address carries the step, so that the browser's own
// back button, a bookmark and a search result lead to it. Without this script the page reads as a list of steps with links.
(() => {
  "use strict";
  const walk = document.querySelector(".walk");
  const steps = walk ? [...walk.querySelectorAll(":scope > section")] : [];
  if (steps.length === 0) return;
  const say = walk.dataset;
  const byId = new Map(steps.map(s => [s.id, s]));
  const first = steps[0].id;
  let path = []; // ids of the steps gone through, the current one last
  let whole = false;
  const given = new Map(); // the answer that was given at a step

  const trail = document.createElement("ol");
  trail.className = "trail";
  trail.setAttribute("aria-label", say.sayPath);
  const bar = document.createElement("p");
  bar.className = "walk-nav";
  const button = (text, does) => {
    const b = document.createElement("button");
    b.type = "button";
    b.textContent = text;
    b.addEventListener("click", does);
    bar.append(b);
    return b;
  };
  const back = button(say.sayBack, () => { location.hash = path.at(-2); });
  const again = button(say.sayStart, () => { path = []; location.hash = first; });
  const tree = button(say.sayTree, () => { whole = !whole; show(false); });
  walk.before(trail);
  walk.after(bar);

  // The drawn tree shows where the walk is, and the way it took.
  const drawn = document.querySelector(".overview-paper");
  function mark(id) {
    if (!drawn) return;
    for (const a of drawn.querySelectorAll("[data-step]")) {
      if (a.dataset.step !== id) { a.removeAttribute("aria-current"); continue; }
      a.setAttribute("aria-current", "step");
      const box = a.getBoundingClientRect(), paper = drawn.getBoundingClientRect();
      drawn.scrollBy({ left: box.left + box.width / 2 - paper.left - paper.width / 2, top: box.top + box.height / 2 - paper.top - paper.height / 2, behavior: "instant" });
    }
    for (const way of drawn.querySelectorAll(".way")) {
      const at = path.indexOf(way.dataset.from);
      way.classList.toggle("gone", at >= 0 && path[at + 1] === way.dataset.to);
    }
  }

  // current is the step that the address names, or the one that holds the heading it names.
  function current() {
    const id = window.tankside.unescaped(location.hash.slice(1));
    if (byId.has(id)) return id;
    const inside = id && document.getElementById(id);
    const step = inside && inside.closest(".walk > section");
    return step ? step.id : first;
  }

  function show(move) {
    const id = current();
    const was = path.indexOf(id);
    path = was >= 0 ? path.slice(0, was + 1) : [...path, id];
    for (const s of steps) s.hidden = !whole && s.id !== id;
    walk.classList.toggle("walking", !whole);
    walk.parentNode.classList.toggle("under-way", !whole && path.length > 1); // what was said at the start makes room for the question
    trail.replaceChildren(...path.slice(0, -1).map(p => {
      const li = document.createElement("li");
      const a = document.createElement("a");
      a.href = "#" + p;
      a.textContent = byId.get(p).dataset.title;
      li.append(a);
      return li;
    }));
    trail.hidden = whole || path.length < 2;
    back.hidden = whole || path.length < 2;
    again.hidden = whole || path.length < 2;
    mark(id);
    tree.textContent = whole ? say.sayWalk : say.sayTree;
    if (move) {
      const heading = byId.get(id).querySelector("h2");
      heading.tabIndex = -1;
      heading.focus({ preventScroll: true });
      (trail.hidden ? heading : trail).scrollIntoView({ block: "start" });
    }
  }
  walk.addEventListener("click", event => {
    const a = event.target.closest(".answers a");
    if (a) given.set(a.closest("section").id, a.dataset.answer);
  });

  // way is the path so far, as the visit report takes it down.
  walk.way = () => path.map((id, i) => {
    const next = path[i + 1];
    const links = next ? [...byId.get(id).querySelectorAll(".answers a")].filter(a => a.getAttribute("href") === "#" + next) : [];
    const answer = (links.find(a => a.dataset.answer === given.get(id)) ?? links[0])?.dataset.answer;
    return answer ? { step: byId.get(id).dataset.title, answer } : { step: byId.get(id).dataset.title };
  });

  addEventListener("hashchange", () => show(true));
  show(false);
  if (location.hash) byId.get(current()).scrollIntoView({ block: "start" });
})();
