// Shows this page anew when it has changed, and says below it when the manual cannot be published.
(() => {
  "use strict";
  const shown = document.currentScript.dataset.shown;
  let line, events;

  const tell = text => {
    if (!text) {
      if (line) line.remove();
      line = undefined;
      return;
    }
    if (!line) {
      line = document.createElement("p");
      line.setAttribute("role", "status");
      Object.assign(line.style, {
        position: "fixed", insetInline: "0", bottom: "0", margin: "0", padding: "0.5em 1em",
        background: "Canvas", color: "CanvasText", borderTop: "2px solid CanvasText",
      });
      document.body.append(line);
    }
    line.textContent = text;
  };

  // A browser opens six connections to a server at most, whatever the number of pages: only the page that is seen listens.
  const listen = () => {
    if (document.hidden) {
      if (events) events.close();
      events = undefined;
      return;
    }
    if (events) return;
    events = new EventSource("/-/changes?page=" + encodeURIComponent(decodeURI(location.pathname)));
    events.onmessage = message => {
      const now = JSON.parse(message.data);
      if (now.page && now.page !== shown) location.reload();
      else tell(now.say);
    };
  };
  document.addEventListener("visibilitychange", listen);
  listen();
})();
