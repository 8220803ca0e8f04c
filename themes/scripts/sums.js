// Calculators in a page: they answer while one types, with the same Go code that wrote the published answer.
//
// The markup is that of package calculators/markup; parcel.js and module.js come before this script. The addresses of the module's parcel
// and, where the page is not English, of the parcel "calculators-words", relative to the page, stand in data-answers and
// data-sums-words on <body>; they are loaded when the first field is touched, or when the page's address carries inputs:
//
//   #sum-heat-up?volume=120+L&target=62+%C2%B0C
//
// Errors stand in .sum-error beside their field, which then is aria-invalid; the answer is read out from .sum-say once typing
// pauses. Where the module cannot be loaded the published answer stays, and .sum-failed says so.
(() => {
  "use strict";
  const tankside = window.tankside;
  const separator = "\x1f";
  const pause = 700; // ms without a key before the answer is read out and the page's address follows
  const sentences = document.body.dataset; // the sentences stand in data-say-sum-… of <body>

  // ——— the module ———

  // The page hands over its language, if it is not English, before it asks.
  const start = async ({ sumsWords }) => {
    const [ask, words] = await Promise.all([
      tankside.answers(),
      sumsWords && tankside.content("calculators-words", sumsWords),
    ]);
    if (words) ask("speak", words);
    const call = what => (...fields) => ask(what, fields.map(f => f.replaceAll(separator, " ")).join(separator));
    return { calculate: call("calculate"), convert: call("convert") };
  };
  let starting;
  const module = () => starting ??= start(document.body.dataset);

  // ——— one calculator ———

  const number = /^[-+−]?[\d\s.,]*\d(e[-+]?\d+)?$/i;
  const ratio = "1:N";

  const set = section => {
    const form = section.querySelector(".sum-inputs"), answer = section.querySelector(".sum-answer");
    const say = section.querySelector(".sum-say"), tools = section.querySelector(".sum-tools");
    const fields = [...form.querySelectorAll(".sum-field")].map(node => ({
      name: node.dataset.input,
      input: node.querySelector("input, select"),
      unit: node.querySelector(".sum-amount select"),
      fixed: node.querySelector(".sum-unit")?.textContent ?? "",
      error: node.querySelector(".sum-error"),
    }));
    let calculators, text = "", waiting;

    // What a field says, as people write it: its number with its unit, or what else was typed.
    const written = ({ input, unit, fixed }, symbol = unit ? unit.value : fixed) => {
      const typed = input.value.trim();
      if (!symbol || !number.test(typed)) return typed;
      return symbol === ratio ? "1:" + typed : typed + " " + symbol;
    };
    // The other way round: puts an amount into a field.
    const write = (field, amount) => {
      const { input, unit, fixed } = field;
      const symbols = unit ? [...unit.options].map(o => o.value).sort((a, b) => b.length - a.length) : [fixed];
      const parts = amount.match(/^1:(.+)$/);
      if (unit && parts && number.test(parts[1]) && symbols.includes(ratio)) {
        input.value = parts[1];
        unit.value = ratio;
      } else {
        const symbol = symbols.find(s => s && amount.endsWith(" " + s) && number.test(amount.slice(0, -s.length).trim()));
        input.value = symbol ? amount.slice(0, -symbol.length).trim() : amount;
        if (unit && symbol) unit.value = symbol;
      }
      if (unit) field.before = unit.value;
    };
    // The inputs that are given: not those that say what the calculator takes anyway.
    const given = () => fields.filter(f => written(f) && written(f) !== f.input.dataset.default);
    const state = () => fields.map(f => ({ field: f, value: f.input.value, unit: f.unit?.value }));
    const restore = kept => kept.forEach(({ field, value, unit }) => {
      field.input.value = value;
      if (field.unit) field.unit.value = field.before = unit;
    });

    const link = () => {
      const inputs = new URLSearchParams();
      for (const f of given()) inputs.set(f.name, written(f));
      return location.href.split("#")[0] + "#" + section.id + "?" + inputs;
    };

    const show = html => {
      const open = [...answer.querySelectorAll("details[open]")].map(d => d.className);
      answer.innerHTML = html; // the module escapes every text
      for (const d of answer.querySelectorAll("details")) d.open = open.includes(d.className);
    };

    const work = () => {
      const inputs = given().flatMap(f => [f.name, written(f)]);
      const [html, spoken, plain, ...wrong] = calculators.calculate(section.dataset.sum, section.dataset.system, ...inputs).split(separator);
      const problems = {};
      for (let i = 0; i < wrong.length; i += 2) problems[wrong[i]] = wrong[i + 1];
      for (const f of fields) {
        const problem = problems[f.name] ?? "";
        // A field that is merely still empty is not called wrong; the answer's place names it.
        const shown = f.input.value.trim() ? problem : "";
        if (f.error.textContent !== shown) f.error.textContent = shown;
        if (shown) f.input.setAttribute("aria-invalid", "true"); else f.input.removeAttribute("aria-invalid");
        const more = shown && f.input.closest("details");
        if (more) more.open = true; // an error is not left behind a closed disclosure
      }
      show(html);
      text = plain;
      section.dispatchEvent(new CustomEvent("tankside-sum"));
      clearTimeout(waiting);
      waiting = setTimeout(() => {
        say.textContent = spoken || Object.values(problems)[0] || tankside.shown(answer).trim();
        history.replaceState(history.state, "", link());
      }, pause);
    };

    // One failure hides the fields for good: without the module they would only mislead.
    const fail = problem => {
      console.error(problem);
      restore(published);
      show(publishedAnswer);
      section.dispatchEvent(new CustomEvent("tankside-sum"));
      form.hidden = tools.hidden = true;
      if (section.querySelector(".sum-failed")) return;
      const told = document.createElement("p");
      told.className = "sum-failed";
      told.setAttribute("role", "alert");
      told.textContent = sentences.saySumFailed + " " + tankside.reason(problem);
      answer.before(told);
    };
    // Does something with the module, which is loaded first where it is not there yet.
    const use = async doing => {
      try {
        calculators ??= await module();
        await doing();
      } catch (problem) {
        fail(problem);
      }
    };

    const published = state(), publishedAnswer = answer.innerHTML;
    for (const f of fields) if (f.unit) f.before = f.unit.value;
    form.hidden = tools.hidden = false;

    form.addEventListener("focusin", () => use(() => {}), { once: true });
    const changed = event => {
      const field = fields.find(f => f.unit === event.target);
      use(() => {
        if (field) {
          const converted = field.before === field.unit.value ? "" :
            calculators.convert(section.dataset.sum, field.name, written(field, field.before), field.unit.value);
          if (converted && number.test(field.input.value.trim())) field.input.value = converted;
          field.before = field.unit.value;
        }
        work();
      });
    };
    form.addEventListener("input", changed);
    form.addEventListener("change", event => { if (event.target.matches("select")) changed(event); }); // some browsers send only this
    form.addEventListener("submit", event => { event.preventDefault(); use(work); });

    const copy = async (content, button) => {
      let done = true;
      try {
        await navigator.clipboard.writeText(content);
      } catch {
        const area = document.createElement("textarea");
        area.value = content;
        section.append(area);
        area.select();
        done = document.execCommand("copy");
        area.remove();
        button.focus();
      }
      say.textContent = done ? sentences.saySumCopied : sentences.saySumUncopied;
      const label = button.textContent;
      button.textContent = say.textContent;
      button.disabled = true;
      setTimeout(() => { button.textContent = label; button.disabled = false; }, 2000);
    };
    tools.addEventListener("click", event => {
      const button = event.target.closest("button");
      if (!button) return;
      if (button.matches(".sum-copy")) use(async () => { work(); await copy((text || tankside.shown(answer).trim() + "\n") + sentences.saySumLink + " " + link() + "\n", button); });
      if (button.matches(".sum-link")) copy(link(), button);
      if (button.matches(".sum-reset")) {
        restore(published);
        if (calculators) use(work);
        else {
          show(publishedAnswer);
          section.dispatchEvent(new CustomEvent("tankside-sum"));
        }
      }
    });

    // The reader's units: fields that stand in the usual unit of one family change to that of the other, and so does the answer.
    section.follow = () => {
      const before = section.dataset.system, now = document.documentElement.dataset.units ?? before;
      if (before === now) return;
      use(() => {
        section.dataset.system = now;
        for (const f of fields) {
          if (!f.unit || f.unit.value !== f.unit.dataset[before.toLowerCase()]) continue;
          const unit = f.unit.dataset[now.toLowerCase()];
          if (unit === f.unit.value) continue;
          const empty = !f.input.value.trim(); // what will be typed is meant in the reader's unit
          const converted = empty ? "" : calculators.convert(section.dataset.sum, f.name, written(f), unit);
          if (!converted && !empty) continue;
          const untouched = written(f) === f.input.dataset.default;
          if (number.test(f.input.value.trim())) f.input.value = converted;
          f.unit.value = f.before = unit;
          if (untouched) f.input.dataset.default = written(f);
        }
        work();
      });
    };

    // Puts amounts into fields, by the names of inputs; "" empties one, or puts back what the calculator takes anyway.
    section.fill = amounts => {
      for (const f of fields) if (amounts.has(f.name)) write(f, amounts.get(f.name) || (f.input.dataset.default ?? ""));
      use(work);
    };

    // The page's address asks for this sum: its inputs, and no others.
    section.recall = inputs => {
      for (const f of fields) write(f, inputs.get(f.name) ?? f.input.dataset.default ?? "");
      section.scrollIntoView();
      use(work);
    };
  };

  // ——— the page ———

  const sections = [...document.querySelectorAll("section.sum")];
  sections.forEach(set);

  const recall = () => {
    const [id, inputs] = location.hash.slice(1).split("?", 2);
    if (inputs === undefined) return;
    sections.find(s => s.id === id)?.recall(new URLSearchParams(inputs));
  };
  addEventListener("hashchange", recall);
  addEventListener("tankside-units", () => { for (const s of sections) s.follow(); });
  for (const s of sections) s.follow();
  recall();

  // On paper the working is open, whatever the screen shows.
  let closed = [];
  addEventListener("beforeprint", () => {
    closed = [...document.querySelectorAll(".sum-working:not([open])")];
    for (const d of closed) d.open = true;
  });
  addEventListener("afterprint", () => { for (const d of closed) d.open = false; });
})();
