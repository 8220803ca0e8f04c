// What if a tank were hotter, weaker, at another frequency or held another chemistry, and two baths beside each other: asked of the module, which decides as
// the command does. Needs parcel.js and module.js; the facts are the parcel of “may it go in?”, whose address stands in data-admit-table.
(() => {
  "use strict";
  const tankside = window.tankside;
  const forms = [...document.querySelectorAll("form.if-form")];
  if (!forms.length) return;
  const separator = "\x1f";
  let starting;
  const start = async address => {
    const [ask, sheet] = await Promise.all([tankside.answers(), tankside.content("admit-table", address)]);
    if (ask("open", sheet) === null) throw tankside.damaged(address, "the table of this edition cannot be read");
    return (...fields) => ask("admit", ["beside", ...fields].join(separator));
  };
  // What is as it is today is not asked for: it stays.
  const amount = (form, name) => {
    const field = form.elements[name], typed = field?.value.trim() ?? "";
    const unit = form.elements[name + "-unit"];
    if (typed === field?.defaultValue && (unit?.selectedIndex ?? 0) === 0) return "";
    return typed && unit && /^[-+−]?[\d.]+$/.test(typed) ? typed + " " + unit.value : typed;
  };
  for (const form of forms) {
    const answer = form.nextElementSibling, say = answer.nextElementSibling, { admitTable, bath, sayFailed } = form.dataset;
    const root = document.documentElement.dataset.root;
    let turn = 0;
    const work = async () => {
      const mine = ++turn;
      try {
        const ask = await (starting ??= start(admitTable));
        if (mine !== turn) return; // a later question is under way
        const other = form.elements.other?.value ?? bath;
        if (!other) return answer.replaceChildren();
        answer.innerHTML = ask(root, bath, other, form.elements.chemistry?.value ?? "", amount(form, "strength"), amount(form, "temperature"), amount(form, "frequency")); // the module escapes every text
        say.textContent = [...answer.querySelectorAll("tbody tr")].slice(0, 3).map(r => r.innerText.replace(/\s+/g, " ")).join(". ") || answer.innerText;
      } catch (problem) {
        if (mine !== turn) return;
        console.error(problem);
        form.hidden = true;
        answer.textContent = sayFailed + " " + tankside.reason(problem);
      }
    };
    form.hidden = false;
    form.addEventListener("submit", event => { event.preventDefault(); work(); });
    form.addEventListener("change", work);
  }
})();
