// Lets the reader choose between the two families of units. The pages carry both; <html data-units> says which one shows. The choice is
// kept on this device where it can be, and holds until the page is left where it cannot. Calculators hear of it through the event
// "tankside-units".
(() => {
  "use strict";
  const page = document.documentElement;
  const tankside = window.tankside;

  // shown is the text of a node as the reader sees it, for scripts that write it elsewhere: without what is for the other family.
  tankside.shown = node => {
    const copy = node.cloneNode(true);
    for (const hidden of copy.querySelectorAll(page.dataset.units === "US" ? ".si" : ".us")) hidden.remove();
    return copy.textContent;
  };

  const choice = document.querySelector("footer .units");
  if (!choice) return;
  const buttons = [...choice.querySelectorAll("button")];
  const tell = () => {
    for (const b of buttons) b.setAttribute("aria-pressed", String(b.value === page.dataset.units));
  };
  choice.addEventListener("click", event => {
    const chosen = event.target.closest("button")?.value;
    if (!chosen || chosen === page.dataset.units) return;
    page.dataset.units = chosen;
    try {
      localStorage.setItem("tankside.units", chosen);
    } catch { /* a private window or a full disk: it holds for this page */ }
    tell();
    dispatchEvent(new Event("tankside-units"));
  });
  tell();
  choice.hidden = false;
})();
