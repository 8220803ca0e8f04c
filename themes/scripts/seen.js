// Several things at once: what explains what is ticked is found by the same Go code that the command has. Needs parcel.js and module.js.
//
// The page's address carries the looks: #seen=white-spots-or-rings,…&not=…
(() => {
  "use strict";
  const page = document.querySelector(".seen-page");
  if (!page) return;
  const tankside = window.tankside;
  const say = page.dataset;
  const result = page.querySelector(".seen-result"), answer = result.querySelector(".seen-answer"), hint = result.querySelector(".seen-hint");
  const spoken = result.querySelector(".seen-say"), bar = page.querySelector(".seen-bar");
  const items = [...page.querySelectorAll("[data-observation]")].sort((a, b) => a.dataset.observation - b.dataset.observation);
  const causes = [...page.querySelectorAll(".seen-names a")];
  const make = (tag, text = "", name = "") => Object.assign(document.createElement(tag), { textContent: text, className: name });
  const words = item => tankside.shown(item.querySelector(".seen-words"));

  // ——— the ticks ———

  const choices = [["n", say.sayNotSeen], ["-", say.sayNotLooked], ["s", say.saySeen]];
  for (const item of items) {
    const set = make("fieldset", "", "look-choice");
    set.append(make("legend", words(item), "visually-hidden"));
    for (const [value, text] of [choices[2], choices[0], choices[1]]) {
      const label = make("label"), input = make("input");
      Object.assign(input, { type: "radio", name: item.id, value, checked: value === "-", defaultChecked: value === "-" });
      label.append(input, make("span", text));
      set.append(label);
    }
    item.querySelector(".seen-what").after(set);
  }
  const look = item => item.querySelector("input:checked").value;
  const tick = (item, value) => { item.querySelector(`input[value="${value}"]`).checked = true; };
  const looks = () => items.map(look).join("");
  const taken = value => items.filter(item => look(item) === value).map(item => item.id);

  // ——— the answer ———

  let starting;
  const module = () => starting ??= Promise.all([
    tankside.answers(),
    tankside.content("causes-model", say.model).then(bytes => new TextDecoder().decode(bytes)),
  ]);

  const percent = p => p < 0.01 ? say.sayUnder : Math.round(p * 100) + "\u00a0%";
  const duration = minutes => minutes < 60 ? minutes + "\u00a0" + say.sayMinutes : Math.round(minutes / 60) + "\u00a0" + say.sayHours;

  const together = say.sayTogether.split("|");
  const numbers = text => text ? text.split(",").map(Number) : [];
  const nameOf = cause => causes[cause] ? tankside.shown(causes[cause]) : say.sayElse;
  const names = list => numbers(list).map(nameOf).join(" + ");
  const seenWords = list => list.map(o => words(items[o])).join("; ");
  const causeLink = cause => causes[cause] ? Object.assign(make("a", nameOf(cause)), { href: causes[cause].getAttribute("href") }) : make("b", nameOf(cause));

  // A set of an answer: probability, what is left over, and its causes with what each explains and misses.
  const read = ([, probability, rest, ...parts]) => ({
    probability: +probability, rest: numbers(rest),
    parts: parts.map(p => p.split(":")).map(([cause, explains, missed]) => ({ cause: +cause, explains: numbers(explains), missed: numbers(missed) })),
  });

  // The causes of a set as one sentence: A (explains spots), B (explains foam).
  const sentence = set => set.parts.flatMap(({ cause, explains }, i) =>
    [i ? ", " : "", causeLink(cause), explains.length ? ` (${say.sayExplains} ${seenWords(explains)})` : ""]);
  const opening = set => (set.rest.length ? say.sayPartly : together[looks().includes("s") ? set.parts.length : 0]) + ": ";

  const setNode = (set, first) => {
    const li = make("li", "", "seen-cause"), head = make("p", "", "seen-head"), told = make("span");
    told.append(first ? opening(set) : "", ...sentence(set));
    head.append(told, " ", make("strong", percent(set.probability), "seen-percent"));
    const scale = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    scale.setAttribute("class", "seen-scale");
    scale.setAttribute("viewBox", "0 0 100 1");
    scale.setAttribute("preserveAspectRatio", "none");
    scale.setAttribute("aria-hidden", "true");
    const band = document.createElementNS("http://www.w3.org/2000/svg", "rect");
    band.setAttribute("width", (set.probability * 100).toFixed(2));
    band.setAttribute("height", "1");
    scale.append(band);
    li.append(head, scale);
    for (const { cause, missed } of set.parts) {
      if (causes[cause] && "hurts" in causes[cause].dataset) li.append(make("p", say.sayHurts + ": " + nameOf(cause), "hurts"));
      if (!missed.length) continue;
      const p = make("p", "", "seen-against");
      p.append(make("strong", say.sayAgainst + ": "), missed.map(o => words(items[o]) + " (" + say.sayNotSeenThere + ")").join("; "), set.parts.length > 1 ? " → " + nameOf(cause) : "");
      li.append(p);
    }
    if (set.rest.length) li.append(make("p", say.sayRest + ": " + seenWords(set.rest), "seen-rest"));
    return li;
  };

  const show = (text, model) => {
    const rows = text.trim().split("\n").map(line => line.split("\t"));
    const of = kind => rows.filter(r => r[0] === kind);
    const [best, ...others] = of("s").map(read);
    answer.querySelector(".seen-best").replaceChildren(setNode(best, true));
    answer.querySelector(".seen-causes").replaceChildren(...others.map(set => setNode(set)));
    answer.querySelector(".seen-others").hidden = others.length === 0;
    answer.querySelector(".seen-else strong").textContent = percent(+of("e")[0][1]);
    const apart = numbers(of("a")[0][1]).map(cause => {
      const li = make("li");
      li.append(causeLink(cause));
      return li;
    });
    const hurting = [...of("h").map(read).map(set => setNode(set)), ...apart];
    answer.querySelector(".seen-hurting ul").replaceChildren(...hurting);
    answer.querySelector(".seen-hurting").hidden = hurting.length === 0;
    const minutes = model.split("\n").filter(l => l.startsWith("o\t")).map(l => +l.slice(2));
    const next = of("n");
    answer.querySelector(".seen-next ol").replaceChildren(...next.map(([, o, , ifSeen, ifNot]) => {
      const li = make("li"), a = make("a", words(items[o]));
      a.href = "#" + items[o].id;
      a.addEventListener("click", event => { event.preventDefault(); goTo(items[o]); });
      li.append(a, " ", make("span", tankside.shown(items[o].querySelector(".seen-what .aside")) + ", " + duration(minutes[o]), "aside"));
      for (const [label, list] of [[say.saySeen, ifSeen], [say.sayNotSeen, ifNot]]) {
        const p = make("p", "", "seen-means");
        p.append(make("strong", label + ": "), names(list));
        li.append(p);
      }
      return li;
    }));
    answer.querySelector(".seen-next").hidden = next.length === 0;
    const told = best.parts.map(p => nameOf(p.cause)).join(" + ");
    spoken.textContent = say.sayRanked + ": " + told + ", " + percent(best.probability);
    bar.firstElementChild.textContent = say.sayToCauses + ": " + nameOf(best.parts[0].cause) + (best.parts.length > 1 ? " + " + (best.parts.length - 1) : "");
    page.dataset.ranking = text; // what was shown, for whoever wants to compare
  };

  const goTo = item => {
    item.closest("details").open = true;
    item.hidden = item.closest("details").hidden = false;
    item.scrollIntoView({ block: "center" });
    item.querySelector("input:checked").focus({ preventScroll: true });
  };

  const fail = problem => {
    console.error(problem);
    document.documentElement.classList.add("seen-unranked");
    result.hidden = bar.hidden = true;
    for (const set of page.querySelectorAll(".look-choice")) set.hidden = true;
    if (page.querySelector(".seen-failed")) return;
    const told = make("p", say.sayFailed + " " + tankside.reason(problem), "seen-failed");
    told.setAttribute("role", "alert");
    page.prepend(told);
  };

  let turn = 0;
  const work = async () => {
    const mine = ++turn, now = looks();
    const nothing = !/[sn]/.test(now);
    hint.hidden = !nothing;
    answer.hidden = bar.hidden = nothing;
    for (const group of page.querySelectorAll(".seen-group")) {
      const n = group.querySelectorAll('input:checked:not([value="-"])').length;
      group.querySelector(".seen-count").textContent = n ? n + " " + say.sayCount : "";
    }
    if (nothing) return;
    try {
      const [ask, model] = await module();
      if (mine !== turn) return; // something else has been ticked since
      const text = ask("rank", model + "\n" + now);
      if (text === null) throw new Error("the model of this edition cannot be read");
      show(text, model);
    } catch (problem) {
      if (mine === turn) fail(problem);
    }
  };

  // ——— the page ———

  const address = () => {
    const parts = [["seen", taken("s")], ["not", taken("n")]].filter(([, ids]) => ids.length).map(([key, ids]) => key + "=" + ids.join(","));
    return location.href.split("#")[0] + (parts.length ? "#" + parts.join("&") : "");
  };
  const recall = () => {
    const hash = window.tankside.unescaped(location.hash.slice(1));
    if (!/^(seen|not)=/.test(hash)) return;
    const asked = new URLSearchParams(hash);
    const ids = key => (asked.get(key) ?? "").split(",");
    for (const item of items) tick(item, ids("seen").includes(item.id) ? "s" : ids("not").includes(item.id) ? "n" : "-");
    for (const group of page.querySelectorAll(".seen-group")) if (group.querySelector('input:checked:not([value="-"])')) group.open = true;
    return work();
  };
  const filter = page.querySelector("#seen-filter");
  const shorten = () => {
    const wanted = filter.value.toLowerCase().split(/\s+/).filter(Boolean);
    for (const group of page.querySelectorAll(".seen-group")) {
      let shown = 0;
      const title = group.querySelector("summary").textContent.toLowerCase();
      for (const item of group.querySelectorAll("[data-observation]")) {
        const text = title + " " + words(item).toLowerCase();
        item.hidden = look(item) === "-" && !wanted.every(w => text.includes(w)); // what is ticked stays in sight
        if (!item.hidden) shown++;
      }
      group.hidden = shown === 0;
      if (wanted.length) group.open = shown > 0;
    }
  };

  page.querySelector(".seen-filter").hidden = result.hidden = false;
  filter.addEventListener("input", shorten);
  page.querySelector(".seen-looks").addEventListener("change", event => {
    if (event.target === filter) return;
    history.replaceState(history.state, "", address());
    work();
  });
  page.querySelector(".seen-reset").addEventListener("click", () => {
    for (const item of items) tick(item, "-");
    filter.value = "";
    shorten();
    history.replaceState(history.state, "", address());
    work();
    filter.focus();
  });
  bar.addEventListener("click", event => {
    event.preventDefault();
    result.querySelector("h2").focus({ preventScroll: true });
    result.scrollIntoView();
  });
  addEventListener("hashchange", recall);
  addEventListener("tankside-units", work);
  work();
  recall();

  // What the visit report takes down of this page: what was looked for, and the likeliest sets of causes.
  page.noteText = () => {
    const list = value => taken(value).map(id => words(document.getElementById(id))).join("; ");
    const lines = [[say.saySeen, list("s")], [say.sayNotSeen, list("n")]].filter(([, text]) => text).map(([label, text]) => label + ": " + text + ".");
    for (const li of [...answer.querySelectorAll(".seen-cause .seen-head")].slice(0, 3)) lines.push(tankside.shown(li) + ".");
    return lines.join("\n");
  };
})();
