// “Note it in the visit report”: on a walk the way so far, on a calculator its answer, on the page of several observations the ticks.
// Where a visit is under way on this device the note goes into it at once. Otherwise the page of the visit report is opened with the
// note in its address. Needs visit-store.js.
(() => {
  "use strict";
  const tankside = window.tankside;
  const say = document.querySelector(".note-words").dataset;
  const root = document.documentElement.dataset.root;
  const report = say.report; // the page of the visit report, in the language of this one
  const here = () => location.pathname.split("/").slice(-1 - root.length / 3).join("/") + location.hash.replace(/\?.*/, "");
  const plain = text => text.replace(/\u00a0/g, " ").replace(/[ \t]+/g, " ").trim();

  const stamp = note => ({ ...note, at: new Date().toISOString(), page: /^[A-Za-z0-9/._#?=&%+,-]*$/.test(here()) ? here() : here().split("#")[0] });
  const take = async (note, button, text = say.sayNote) => {
    const store = await tankside.visits();
    const visit = await store.current();
    if (visit) {
      const entry = { sort: "entry", id: store.newId(), visit: visit.id, ...stamp(note) };
      await store.put(entry);
      if (!store.unkept.has(entry.id)) {
        button.textContent = say.sayNoted;
        button.classList.add("noted");
        told.replaceChildren(say.sayNoted + " ", Object.assign(document.createElement("a"), { href: report, textContent: say.sayReport }));
        button.after(told);
        setTimeout(() => { button.textContent = text; button.classList.remove("noted"); }, 2500);
        return;
      }
    }
    const address = report + "#note=" + encodeURIComponent(JSON.stringify(stamp(note)));
    // A report that lives in a window only must not lose it: it has a window of its own.
    if (store.where === "window" || store.unkept.size) window.open(address, "tankside-visit"); else location.href = address;
  };
  const told = Object.assign(document.createElement("span"), { className: "note-told" });
  told.setAttribute("role", "status");

  const offer = (place, note, text = say.sayNote) => {
    const button = Object.assign(document.createElement("button"), { type: "button", className: "note-it", textContent: text });
    if (text !== say.sayNote) button.setAttribute("aria-label", say.sayNote);
    button.addEventListener("click", () => take(note(), button, text));
    place.append(button);
  };

  const walk = document.querySelector(".walk"), bar = document.querySelector(".walk-nav");
  if (walk && bar && walk.way) offer(bar, () => ({ kind: "walk", title: plain(tankside.shown(document.querySelector("h1"))), text: "", path: walk.way() }), say.sayShort);

  for (const sum of document.querySelectorAll("section.sum")) {
    const tools = sum.querySelector(".sum-tools"), answer = sum.querySelector(".sum-answer");
    if (!tools || !answer) continue;
    offer(tools, () => {
      const inputs = [...sum.querySelectorAll(".sum-field")].filter(f => f.querySelector("input, select").value).map(f => {
        const [value, unit] = f.querySelectorAll("input, select");
        return plain(tankside.shown(f.querySelector("label"))) + ": " + plain(value.value + " " + (unit?.value ?? f.querySelector(".sum-unit")?.textContent ?? ""));
      });
      const readings = [...answer.querySelectorAll(".sum-reading")].map(r => [r.querySelector("dt"), r.querySelector("dd")].map(part => plain((part?.innerText ?? "").replace(/\n+/g, " "))).filter(Boolean).join(": "));
      const cautions = [...answer.querySelectorAll(".sum-caution, .safety")].map(c => plain(c.innerText.replace(/\n+/g, " ")));
      return { kind: "sum", title: plain(tankside.shown(sum.querySelector(".sum-title"))), text: [...(readings.length ? readings : [plain(answer.innerText)]), ...cautions, "", ...inputs].join("\n").trim() };
    });
  }

  const seen = document.querySelector(".seen-page"), button = document.querySelector("[data-note-link]");
  if (seen && button) button.addEventListener("click", () => take({ kind: "seen", title: plain(tankside.shown(document.querySelector("h1"))), text: plain(seen.noteText()) }, button));
})();
