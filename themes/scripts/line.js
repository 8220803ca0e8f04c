// Where the line is wider than the screen, brings the current station into view.
(() => {
  "use strict";
  const here = document.querySelector(".line [aria-current]");
  const line = here && here.closest(".line");
  if (line) line.scrollLeft = here.offsetLeft - (line.clientWidth - here.offsetWidth) / 2;
})();
