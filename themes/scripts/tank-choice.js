// The page of a calculator: a tank of the shop fills its fields. What has to be measured is not in the shop file's values, so that what somebody has
// typed there stays. The page's address may name the tank: #tank=wash-1. Needs sums.js.
(() => {
  "use strict";
  const choice = document.querySelector("#tank-choice"), section = document.querySelector("section.sum");
  if (!choice || !section) return;
  const options = [...choice.options];
  const filled = new Set(options.flatMap(o => Object.keys(JSON.parse(o.dataset.values)))); // by some tank
  const fill = () => section.fill(new Map([...filled].map(name => [name, JSON.parse(choice.selectedOptions[0].dataset.values)[name] ?? ""])));
  choice.addEventListener("change", () => {
    fill();
    history.replaceState(history.state, "", location.href.split("#")[0] + (choice.value && "#tank=" + choice.value));
  });
  const named = () => {
    const id = new URLSearchParams(location.hash.slice(1)).get("tank");
    if (id === null || !options.some(o => o.value === id) || id === choice.value) return;
    choice.value = id;
    fill();
  };
  addEventListener("hashchange", named);
  choice.parentElement.hidden = false;
  named();
  if (!location.hash && choice.value) fill(); // the browser has kept the choice of before
})();
