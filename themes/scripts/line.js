// Where the line is wider than the screen, brings the current station into view. On a phone a bar has the place of line and search on every page
// but the first: its middle brings the line back, its right end the search.
(() => {
  "use strict";
  const here = document.querySelector(".line [aria-current]");
  const line = document.querySelector(".line");
  const centre = () => { if (here) line.scrollLeft = here.offsetLeft - (line.clientWidth - here.offsetWidth) / 2; };
  centre();
  const turn = (button, what, then) => button && button.addEventListener("click", () => {
    const shown = what.classList.toggle("shown");
    button.setAttribute("aria-expanded", String(shown));
    if (shown) then();
  });
  turn(document.querySelector(".bar-here"), line, centre);
  turn(document.querySelector(".bar-find"), document.querySelector(".search"), () => document.querySelector("#find-words").focus());
})();
