// “May it go in?”: answers while one picks, with the same Go code that wrote the tables of the edition. Needs parcel.js and
// module.js.
//
// The markup is the template may-it-go-in.html; the answer's HTML comes from the module, which escapes every text. The page's address
// carries the question, and asks it when it is opened:
//
//   #material=carbon-steel&material=glass&soil=straight-cutting-oil&bath=wash-1
//
// Where the module cannot be loaded, the list that the page was published with is shown instead, and .admit-failed says so.
(() => {
  "use strict";
  const tankside = window.tankside;
  const form = document.querySelector(".admit-form");
  if (!form) return;
  const separator = "\x1f";
  const pause = 700; // ms without a change before the answer is read out
  const page = form.closest(".admit-page"), result = page.querySelector(".admit-result"), answer = page.querySelector(".admit-answer");
  const say = page.querySelector(".admit-say"), all = page.querySelector(".admit-all"), heading = result.querySelector("h2");
  const filter = form.querySelector("#admit-filter"), none = form.querySelector(".admit-none");
  const materials = [...form.querySelectorAll("input[name=material]")];
  const { soil, bath } = form.elements;

  // ——— the module ———

  const start = async () => {
    const [ask, sheet] = await Promise.all([
      tankside.answers(),
      tankside.content("admit-table", form.dataset.admitTable),
    ]);
    if (ask("open", sheet) === null) throw tankside.damaged(form.dataset.admitTable, "the table of this edition cannot be read");
    return (...fields) => ask("admit", fields.join(separator)).split(separator);
  };
  let starting;
  const module = () => starting ??= start();

  // ——— the question ———

  const picked = () => materials.filter(m => m.checked).map(m => m.value);
  const question = () => {
    const q = new URLSearchParams();
    for (const m of picked()) q.append("material", m);
    if (soil.value) q.set("soil", soil.value);
    if (bath.value) q.set("bath", bath.value);
    return q.toString();
  };
  const address = () => location.href.split("#")[0] + (question() && "#" + question());

  const fail = problem => {
    console.error(problem);
    form.hidden = result.hidden = true;
    all.hidden = false;
    const told = document.createElement("p");
    told.className = "admit-failed";
    told.setAttribute("role", "alert");
    told.textContent = form.dataset.sayFailed + " " + tankside.reason(problem);
    form.before(told);
  };

  let waiting, turn = 0;
  const work = async () => {
    const mine = ++turn;
    try {
      const ask = await module();
      if (mine !== turn) return; // a later question is under way
      const [html, spoken] = ask(document.documentElement.dataset.units ?? "", soil.value, bath.value, ...picked());
      answer.innerHTML = html;
      result.hidden = false;
      clearTimeout(waiting);
      waiting = setTimeout(() => { say.textContent = spoken; }, pause);
    } catch (problem) {
      if (mine === turn) fail(problem);
    }
  };

  const changed = () => {
    history.replaceState(history.state, "", address());
    return work();
  };

  // The page's address asks.
  const recall = () => {
    const q = new URLSearchParams(location.hash.slice(1));
    const asked = q.getAll("material");
    if (!asked.length && !q.has("soil") && !q.has("bath")) return;
    for (const m of materials) m.checked = asked.includes(m.value);
    soil.value = q.get("soil") ?? "";
    bath.value = q.get("bath") ?? "";
    if (soil.selectedIndex < 0) soil.value = "";
    if (bath.selectedIndex < 0) bath.value = "";
    shorten();
    const first = materials.find(m => m.checked)?.closest("li");
    if (first) first.parentElement.scrollTop = first.offsetTop - first.parentElement.offsetTop - first.offsetHeight;
    return work().then(() => asked.length && result.scrollIntoView());
  };

  // ——— the list of materials ———

  const fold = text => text.normalize("NFD").replace(/\p{Mn}/gu, "").toLowerCase().trim();
  const shorten = () => {
    const words = fold(filter.value).split(/\s+/);
    let shown = 0;
    for (const m of materials) {
      const item = m.closest("li");
      item.hidden = !m.checked && !words.every(w => item.dataset.words.includes(w)); // what is picked stays in sight
      if (words.every(w => item.dataset.words.includes(w))) shown++;
    }
    none.textContent = shown ? "" : form.dataset.sayNone;
  };

  // ——— the page ———

  form.hidden = false;
  all.hidden = true;
  filter.addEventListener("input", event => { event.stopPropagation(); shorten(); });
  filter.addEventListener("keydown", event => { if (event.key === "Enter") event.preventDefault(); }); // it shortens; it does not ask
  form.addEventListener("focusin", () => module().catch(fail), { once: true });
  form.addEventListener("change", event => { if (event.target !== filter) changed(); });
  form.addEventListener("submit", event => {
    event.preventDefault();
    changed().then(() => { if (!result.hidden) { heading.focus(); heading.scrollIntoView(); } });
  });
  form.addEventListener("reset", () => setTimeout(() => { // after the fields have been reset
    turn++;
    clearTimeout(waiting);
    shorten();
    result.hidden = true;
    say.textContent = answer.textContent = "";
    history.replaceState(history.state, "", location.href.split("#")[0]);
    filter.focus();
  }));
  form.querySelector(".admit-link").addEventListener("click", async event => {
    const button = event.target, label = button.textContent;
    let done = true;
    try {
      await navigator.clipboard.writeText(address());
    } catch {
      const area = document.createElement("textarea");
      area.value = address();
      form.append(area);
      area.select();
      done = document.execCommand("copy");
      area.remove();
      button.focus();
    }
    say.textContent = button.textContent = done ? form.dataset.sayCopied : form.dataset.sayUncopied;
    button.disabled = true;
    setTimeout(() => { button.textContent = label; button.disabled = false; }, 2000);
  });
  addEventListener("hashchange", recall);
  addEventListener("tankside-units", () => { if (!result.hidden) work(); }); // for what is read out: the answer itself has both
  recall();
})();
