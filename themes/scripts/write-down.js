// “Write it down as a reading”: beside a number that a step of a walk asked for, and beside a sum that has one: a titration's strength with what it took, what was
// found at a tank. It asks of which bath, unless the page is that of one, and keeps a row on this device. Needs rows.js and readings.js.
(() => {
  "use strict";
  const words = document.querySelector(".write-words");
  if (!words) return;
  const { readings } = window.tankside, say = words.dataset;
  const vessels = JSON.parse(say.vessels), titles = JSON.parse(say.titles);
  const root = document.documentElement.dataset.root;
  const own = document.querySelector(".write")?.dataset.tank;
  const filled = (text, values) => text.replace(/\{(\w+)\}/g, (hole, name) => values[name] ?? hole);
  const make = (tag, text = "", name = "") => Object.assign(document.createElement(tag), { textContent: text, className: name });
  const plain = text => text.replace(/\u00a0/g, " ").replace(/\s+/g, " ").trim();

  // cells makes of amounts, { strength: "3.2 % v/v" }, the cells of a row of a bath: the number alone where its unit is that of the head.
  const cells = (vessel, amounts) => Object.fromEntries(Object.entries(amounts).map(([quantity, amount]) => {
    const m = /^([-−]?\d+(?:\.\d+)?) ?(.*)$/.exec(plain(amount)) ?? [];
    const unit = m[2] === "pH" ? "" : m[2];
    return [vessel.heads[quantity], m[1].replace("−", "-") + (!unit || unit === vessel.units[quantity] ? "" : " " + unit)];
  }));
  const told = amounts => Object.entries(amounts).map(([quantity, amount]) => titles[quantity] + " " + plain(amount)).join(", ");
  const number = amount => /^[-−]?\d+(\.\d+)?( |$)/.test(plain(amount));

  // ask opens a line below a button: of which bath, and keep it.
  const ask = (button, get, note) => {
    const amounts = get();
    if (!amounts || !Object.values(amounts).every(number)) return;
    const line = make("form", "", "write-down");
    line.append(make("b", told(amounts)));
    let choice;
    if (!own) {
      const label = make("label", say.sayOf + " ");
      choice = Object.assign(make("select"), { required: true }); // nobody's number goes to a bath that was not chosen
      choice.append(make("option"), ...vessels.map(v => Object.assign(make("option", v.name), { value: v.id })));
      const chosen = document.querySelector("#tank-choice")?.value;
      if (vessels.some(v => v.id === chosen)) choice.value = chosen;
      label.append(choice);
      line.append(label);
    }
    const keep = make("button", say.sayKeep), leave = make("button", say.sayCancel);
    leave.type = "button";
    leave.addEventListener("click", () => { line.remove(); button.focus(); });
    const tools = make("p");
    tools.append(keep, " ", leave);
    line.append(tools);
    line.addEventListener("submit", async event => {
      event.preventDefault();
      const vessel = vessels.find(v => v.id === (own ?? choice.value));
      const row = { ...cells(vessel, amounts), ...(note && { note }) };
      try { const by = localStorage.getItem("tankside.by"); if (by) row.by = by; } catch { /* nobody is named */ }
      const done = await readings.add(vessel.id, row, vessel.zoned);
      const says = make("p", done.kept ? filled(say.sayKept, { what: vessel.name + ": " + told(amounts) }) + " " : say.sayFleeting, "write-said");
      says.setAttribute("role", "status");
      // From a folder some browsers give each page a memory of its own: the way to the bath takes the row along.
      if (!own) says.append(Object.assign(make("a", say.saySee), { href: root + vessel.page + "#kept=" + encodeURIComponent(JSON.stringify(done.row)) }));
      line.replaceWith(says);
    });
    const there = button.parentElement.nextElementSibling;
    if (there?.matches(".write-down, .write-said")) there.remove();
    button.parentElement.after(line);
    (choice ?? keep).focus();
  };
  const offer = (place, text, get, note) => {
    const button = make("button", text, "write-it");
    button.type = "button";
    button.addEventListener("click", () => ask(button, get, note?.()));
    place.append(" ", button);
    return button;
  };

  // ——— in a walk ———

  for (const form of document.querySelectorAll(".walk .reading[data-asks]:not([data-asks=''])")) {
    const field = form.querySelector("input"), place = make("p", "", "reading-tools");
    form.after(place);
    const unit = () => (form.querySelector("select")?.selectedOptions[0] ?? form.querySelector("[data-times]")).textContent;
    offer(place, say.sayShort, () => ({ [form.dataset.asks]: field.value.trim() + " " + unit() }), () => plain(tankside.shown(document.querySelector("h1"))));
    const follow = () => { place.hidden = !number(field.value); };
    field.addEventListener("input", follow);
    follow();
  }

  // ——— from sums ———

  const value = (sum, name) => tankside.shown(sum.querySelector('.sum-answer [data-reading="' + name + '"] .sum-value') ?? make("b")).trim();
  const written = (sum, name) => {
    const f = sum.querySelector('.sum-field[data-input="' + name + '"]'), typed = f?.querySelector("input").value.trim();
    return typed ? typed + " " + (f.querySelector("select")?.value ?? f.querySelector(".sum-unit")?.textContent ?? "") : "";
  };
  const sources = {
    titration: sum => ({ strength: value(sum, "strength"), titrant: written(sum, "titrant-used") }),
    "top-up": sum => ({ strength: written(sum, "strength-now"), level: written(sum, "below-mark").replace(/^(?=\d)/, "-").replace(/^-(0+(\.0+)?)(?= |$)/, "$1") }),
  };
  for (const sum of document.querySelectorAll("section.sum")) {
    const source = sources[sum.dataset.sum], tools = sum.querySelector(".sum-tools");
    if (!source || !tools) continue;
    const get = () => Object.fromEntries(Object.entries(source(sum)).filter(([, amount]) => amount && number(amount)));
    const button = offer(tools, own ? say.sayShort : say.sayWrite, get, () => sum.dataset.sum === "titration" ? say.sayTitration : "");
    const follow = () => { const got = get(); button.hidden = !got.strength; };
    sum.addEventListener("tankside-sum", follow);
    follow();
  }

  // ——— what another page has kept ———

  const handed = async () => {
    if (!own || !location.hash.startsWith("#kept=")) return;
    try {
      const row = JSON.parse(decodeURIComponent(location.hash.slice(6)));
      const { rows, problem } = tankside.rows.read(tankside.rows.write([Object.fromEntries(Object.entries(row).map(([h, c]) => [h, String(c)]))]));
      if (problem) throw new Error(problem);
      await readings.merge(own, rows);
    } catch (problem) {
      console.info("the address holds no reading:", problem.message);
    }
    history.replaceState(history.state, "", location.href.split("#")[0] + "#at.write");
    document.getElementById("at.write")?.scrollIntoView();
  };
  addEventListener("hashchange", handed);
  handed();
})();
