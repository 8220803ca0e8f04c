// What folds on a page is closed until somebody opens it; what the page's address names is opened, and all of it for the printer. Without this script
// everything stands open. It comes before the scripts that show something of the page.
(() => {
  "use strict";
  const article = document.querySelector("article.folding, article.symptom");
  if (!article) return;
  const folds = [...article.querySelectorAll("details.fold")];
  const room = matchMedia("(min-width: 64rem)").matches; // what stands beside the rest there is open
  for (const f of folds) f.open = room && f.matches(".wide-open");
  article.classList.add("folded");
  let opened = [];
  addEventListener("beforeprint", () => { opened = folds.filter(f => !f.open); for (const f of opened) f.open = true; });
  addEventListener("afterprint", () => { for (const f of opened) f.open = false; });
  if (!article.matches(".folding")) return;
  const named = () => {
    const id = window.tankside.unescaped(location.hash.slice(1).split("?")[0]);
    const place = id && document.getElementById(id);
    if (!place || !article.contains(place)) return;
    for (let f = place.closest("details.fold"); f; f = f.parentElement.closest("details.fold")) f.open = true;
    place.scrollIntoView({ block: "start" });
  };
  addEventListener("hashchange", named);
  article.addEventListener("click", event => { // a second touch of the same link changes no address
    const a = event.target.closest('a[href^="#"]');
    if (a && a.hash === location.hash) named();
  });
  named();
})();
