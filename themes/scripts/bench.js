// The bench of a tank's page: what was found today becomes what to pour, a time of the clock becomes when the bath is hot, and both become lines for the
// whiteboard. Every amount and time is read from the answers of the page's own sums, which the module has worked out (sums.js); here they are only put
// into words and on the clock. Needs sums.js.
(() => {
  "use strict";
  const page = document.querySelector(".tank-page"), bench = page?.querySelector(".bench");
  if (!bench) return;
  const say = bench.dataset;
  const filled = (text, values) => text.replace(/\{(\w+)\}/g, (hole, name) => values[name] ?? hole);
  const plain = text => text.replace(/\s+/g, " ").trim();
  const seen = node => plain(node ? tankside.shown(node) : ""); // in the reader's units alone
  const element = (tag, className, ...content) => { const e = document.createElement(tag); e.className = className; e.append(...content); return e; };
  // A sentence with one amount in it, which stands out.
  const strong = (text, values) => {
    const parts = text.split(/\{(\w+)\}/);
    return parts.map((part, i) => i % 2 ? element("b", "", values[part] ?? "") : part).filter(Boolean);
  };

  const sum = name => page.querySelector("#sum-" + name);
  const reading = (section, name) => section?.querySelector('.sum-answer [data-reading="' + name + '"]');
  const amount = (section, name) => seen(reading(section, name)?.querySelector(".sum-value"));
  const nothing = text => !text || /^0(?![.\d])/.test(text);
  const written = field => {
    const typed = field.querySelector("input").value.trim(), unit = field.querySelector("select")?.value ?? field.querySelector(".sum-unit")?.textContent ?? "";
    return unit === "1:N" ? "1:" + typed : plain(typed + " " + unit);
  };
  const wrong = section => plain([...section.querySelectorAll(".sum-error")].map(e => e.textContent).join(" "));
  const board = { found: [], on: [] };
  const lines = page.querySelector(".board-text"), copy = page.querySelector(".board-tools button"), spoken = page.querySelector(".bench-say");
  const first = lines.cloneNode(true);
  let waiting;

  // ——— what was found ———

  const topUp = sum("top-up");
  if (topUp) {
    const answer = topUp.querySelector(".sum-answer"), pour = element("ol", "pour"), after = element("p", "pour-after");
    answer.before(pour, after);
    const wear = bench.querySelector(".found > .wear");
    if (wear) after.after(wear);
    const field = name => topUp.querySelector('.sum-field[data-input="' + name + '"]');
    const show = () => {
      const ready = reading(topUp, "volume-after") !== null;
      topUp.classList.toggle("waiting", !ready);
      pour.replaceChildren();
      board.found = [];
      if (!ready) {
        after.textContent = wrong(topUp) ? "" : say.sayBoth;
        return write();
      }
      for (const [name, sentence] of [["drain-volume", say.sayOut], ["concentrate-volume", say.sayConcentrate], ["water-volume", say.sayWater]]) {
        const n = amount(topUp, name);
        if (nothing(n)) continue;
        const line = element("li", "", ...strong(sentence, { n }));
        if (name === "concentrate-volume") line.append(element("span", "aside", " (" + amount(topUp, "concentrate-mass") + ")"));
        pour.append(line);
      }
      const then = filled(say.sayAfter, { n: amount(topUp, "volume-after"), strength: written(field("strength")) });
      after.textContent = pour.children.length ? then : say.sayNothing;
      const level = field("below-mark").querySelector("input").value.trim() && written(field("below-mark"));
      if (level) board.found.push(filled(say.sayFound, { strength: written(field("strength-now")), level }));
      board.found.push(...[...pour.children].map(li => plain(li.textContent)), plain(after.textContent));
      write();
    };
    topUp.addEventListener("tankside-sum", show);
    addEventListener("tankside-units", show);
    show();
  }

  // ——— the clock ———

  const heatUp = sum("heat-up"), on = bench.querySelector(".on");
  if (heatUp && on) {
    const form = on.querySelector(".clock"), at = form.querySelector("#on-at"), from = form.querySelector("#on-from"), unit = form.querySelector("select");
    const says = on.querySelector(".clock-answer"), band = on.querySelector(".clock-band"), degas = sum("degas");
    const start = heatUp.querySelector('.sum-field[data-input="start"]');
    const minutes = 5;
    const now = new Date();
    const rounded = Math.round((now.getHours() * 60 + now.getMinutes()) / minutes) * minutes % 1440;
    const two = n => String(n).padStart(2, "0");
    at.value = two(Math.floor(rounded / 60)) + ":" + two(rounded % 60);

    const clock = (begin, seconds) => {
      const all = begin + Math.round(seconds / 60), days = Math.floor(all / 1440), minute = all % 1440;
      const t = Math.floor(minute / 60) + ":" + two(minute % 60);
      return days === 0 ? t : days === 1 ? filled(say.sayTomorrow, { t }) : filled(say.sayDays, { t, n: days });
    };
    // The low end, what is likely and the high end of a time that a sum has worked out, in seconds; the last may be Infinity.
    const seconds = section => reading(section, "time")?.dataset.seconds.split(" ").map(t => t === "never" ? Infinity : Number(t));
    const between = (begin, low, high) => clock(begin, low) === clock(begin, high) ? clock(begin, low) : high === Infinity ? filled(say.sayNever, { a: clock(begin, low) }) : filled(say.sayBand, { a: clock(begin, low), b: clock(begin, high) });
    const show = () => {
      board.on = [];
      band.textContent = "";
      const [, h, m] = at.value.match(/^(\d\d?):(\d\d)$/) ?? [];
      const hot = seconds(heatUp);
      if (h === undefined) {
        says.textContent = say.sayTime;
        return write();
      }
      if (!hot) { // it never gets there, or something is wrong with what was typed
        says.textContent = wrong(heatUp) || seen(heatUp.querySelector(".sum-verdict, .sum-wanting"));
        return write();
      }
      const begin = Number(h) * 60 + Number(m);
      const bands = [between(begin, hot[0], hot[2])];
      const sound = degas && seconds(degas);
      says.replaceChildren(...strong(say.sayHot, { t: clock(begin, hot[1]) }));
      if (sound) {
        const ready = hot.map((t, i) => t + sound[i]);
        says.append(", ", ...strong(say.sayDegassed, { t: clock(begin, ready[1]) }));
        bands.push(between(begin, ready[0], ready[2]));
      }
      band.textContent = bands.join(" · ");
      board.on.push(filled(say.sayOn, { t: Number(h) + ":" + m, start: written(start) }), plain(says.textContent), plain(band.textContent));
      write();
    };
    // The field here and that of the sum are one.
    const mirror = () => {
      if (document.activeElement !== from) from.value = start.querySelector("input").value;
      unit.value = start.querySelector("select").value;
      show();
    };
    heatUp.addEventListener("tankside-sum", mirror);
    degas?.addEventListener("tankside-sum", show);
    addEventListener("tankside-units", show);
    at.addEventListener("input", show);
    const warm = () => heatUp.fill(new Map([["start", from.value.trim() && from.value.trim() + " " + unit.value]]));
    from.addEventListener("input", warm);
    unit.addEventListener("change", warm);
    form.addEventListener("submit", event => event.preventDefault());
    mirror();
  }

  // ——— the whiteboard ———

  function write() {
    const text = [seen(first), board.found.join(" · "), board.on.join(" · ")].filter(Boolean).join("\n");
    if (lines.textContent === text) return;
    lines.textContent = text;
    clearTimeout(waiting);
    waiting = setTimeout(() => { spoken.textContent = [...board.found, ...board.on].join(" "); }, 900);
  }
  copy.hidden = false;
  copy.addEventListener("click", async () => {
    const label = copy.textContent;
    let done = true;
    try {
      await navigator.clipboard.writeText(lines.textContent + "\n");
    } catch {
      getSelection().selectAllChildren(lines);
      done = document.execCommand("copy");
      if (done) getSelection().removeAllRanges(); // otherwise the lines stay marked, to be copied by hand
    }
    spoken.textContent = copy.textContent = done ? say.sayCopied : say.sayUncopied;
    copy.disabled = true;
    setTimeout(() => { copy.textContent = label; copy.disabled = false; }, 2000);
  });
})();
