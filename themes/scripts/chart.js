// Draws readings as a chart in an SVG: dots and a line, squares for those that are only on this device, a band for what is allowed, both axes with their labels. The
// same look as the charts of the published pages (builder/page/record_chart.go). Only numbers and plain texts go in, so that what was read in from a file can be drawn.
(() => {
  "use strict";
  const width = 340, height = 196, left = 44, right = 332, top = 16, bottom = 164, ns = "http://www.w3.org/2000/svg";
  const part = (name, attributes, text) => {
    const e = document.createElementNS(ns, name);
    for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
    if (text !== undefined) e.textContent = text;
    return e;
  };
  // Four steps of 1, 2 or 5 times a power of ten.
  const step = span => {
    if (!(span > 0)) return 1;
    const power = 10 ** Math.floor(Math.log10(span / 4));
    return [1, 2, 5, 10].map(t => t * power).find(s => span / 4 <= s);
  };
  // chart gives the drawing of { unit, low, high, points: [{ at, value, here }] }; low and high are what is allowed, or undefined. `says` is its text for those
  // who do not see it.
  window.tankside.chart = ({ unit, low, high, points }, says) => {
    const svg = part("svg", { class: "control-chart", viewBox: `0 0 ${width} ${height}`, role: "img", "aria-label": says });
    const list = points.map(p => ({ ...p, t: Date.parse(p.at.length === 10 ? p.at + "T00:00" : p.at) })).filter(p => isFinite(p.t) && isFinite(p.value)).sort((a, b) => a.t - b.t);
    if (!list.length) return svg;
    let [least, most] = [Math.min(...list.map(p => p.value)), Math.max(...list.map(p => p.value))];
    const span = most - least;
    if (high !== undefined && high - most < span) most = Math.max(most, high);
    if (low !== undefined && least - low < span) least = Math.min(least, low);
    const s = step(most - least);
    if (most - least < s / 2) { least -= s; most += s; }
    least = s * Math.floor(least / s + 1e-9);
    most = s * Math.ceil(most / s - 1e-9);
    const from = list[0].t, to = Math.max(list.at(-1).t, from + 864e5);
    const x = t => left + (right - left) * (t - from) / (to - from) * .98;
    const y = v => bottom - (bottom - top) * Math.max(0, Math.min(1, (v - least) / (most - least)));
    const path = (name, d) => svg.append(part("path", { class: name, d }));
    if (low !== undefined || high !== undefined) {
      const [a, b] = [y(Math.min(high ?? most, most)), y(Math.max(low ?? least, least))];
      svg.append(part("rect", { class: "allowed", x: left, y: a, width: right - left, height: Math.max(0, b - a) }));
      for (const edge of [low, high]) if (edge !== undefined && edge >= least && edge <= most) path("allowed-edge", `M${left} ${y(edge)}H${right}`);
    }
    path("axis", `M${left} ${top}V${bottom}H${right}`);
    for (let v = least; v <= most + s / 2; v += s) {
      path("axis", `M${left} ${y(v)}h-3`);
      svg.append(part("text", { x: left - 5, y: y(v) + 4, "text-anchor": "end" }, String(Number(v.toPrecision(4)))));
    }
    const day = t => { const d = new Date(t); return [d.getFullYear(), d.getMonth() + 1, d.getDate()].map(n => String(n).padStart(2, "0")).join("-"); };
    for (const [t, anchor] of [[from, "start"], [to, "end"]]) svg.append(part("text", { x: x(t), y: bottom + 17, "text-anchor": anchor }, day(t)));
    if (unit) svg.append(part("text", { x: 2, y: 9 }, unit));
    const at = p => x(p.t).toFixed(1) + " " + y(p.value).toFixed(1);
    path("readings", list.map((p, i) => (i && p.t - list[i - 1].t < 5 * 864e5 ? "L" : "M") + at(p)).join("")); // days without readings stay open
    const dots = list.filter(p => !p.here).map(p => "M" + at(p) + "h0").join("");
    if (dots) path("dots", dots);
    const squares = list.filter(p => p.here).map(p => `M${(x(p.t) - 3).toFixed(1)} ${(y(p.value) - 3).toFixed(1)}h6v6h-6z`).join("");
    if (squares) path("here", squares);
    return svg;
  };
})();
