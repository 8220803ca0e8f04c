// What a person sees on a page: things to touch by their words, fields by their labels, words to read. Loaded by day_test.go into each page.
const plain = s => (s ?? "").replace(/[\u00a0\u202f]/g, " ").replace(/\u00ad/g, "").replace(/\s+/g, " ").trim();
const seen = e => e.checkVisibility({ checkVisibilityCSS: true, opacityProperty: true }) && e.getClientRects().length > 0;

// best gives the first element whose words are the text, or else begin with it, or else have it in them.
const best = (elements, words, text) => {
  const with_ = elements.map(e => [e, plain(words(e))]).filter(([, w]) => w);
  const low = text.toLowerCase();
  return (with_.find(([, w]) => w === text) ?? with_.find(([, w]) => w.toLowerCase().startsWith(low)) ?? with_.find(([, w]) => w.toLowerCase().includes(low)))?.[0];
};
window.dayTouch = text => best([...document.querySelectorAll("a[href], button, summary, label, input[type=submit]")].filter(seen), e => e.innerText || e.ariaLabel || e.value, text);
window.dayField = label => {
  const fields = [...document.querySelectorAll("input:not([type=hidden]):not([type=radio]):not([type=checkbox]), select, textarea")].filter(seen);
  return best(fields, e => [...(e.labels ?? [])].map(l => l.innerText).join(" ") || e.ariaLabel || e.placeholder, label);
};
window.dayRead = text => {
  const hits = [];
  const has = e => e.textContent && plain(e.innerText).includes(text);
  const inside = e => {
    let within = false;
    for (const c of e.children) {
      if (c.checkVisibility({ checkVisibilityCSS: true })) {
        if (!has(c)) continue;
        within = true;
        if (!inside(c)) hits.push(c);
      } else if (getComputedStyle(c).display === "contents") within = inside(c) || within;
    }
    return within;
  };
  inside(document.body);
  const onScreen = e => { const r = e.getBoundingClientRect(); return r.bottom > 0 && r.top < innerHeight; };
  const away = e => { const r = e.getBoundingClientRect(); return r.top < 0 ? -r.bottom : r.top; };
  return hits.find(onScreen) ?? hits.sort((a, b) => away(a) - away(b))[0] ?? [...document.querySelectorAll("output, input, textarea")].find(f => seen(f) && plain(f.value).includes(text));
};
window.dayChoose = (label, option) => {
  const field = dayField(label);
  const o = best([...(field.options ?? [])], e => e.label || e.text, option);
  if (!o) return false;
  field.value = o.value;
  o.selected = true;
  for (const kind of ["input", "change"]) field.dispatchEvent(new Event(kind, { bubbles: true }));
  return true;
};
// dayTime sets a clock's field, whose keys depend on where the browser is at home.
window.dayTime = (field, time) => {
  if (field.type !== "time") return false;
  field.value = time.padStart(5, "0");
  field.dispatchEvent(new Event("input", { bubbles: true }));
  return true;
};
// daySpot brings an element onto the screen and says where it can be touched, and how many screens were scrolled by on the way.
window.daySpot = e => {
  const at = () => e.getBoundingClientRect();
  const away = r => r.top < 0 ? -r.top : Math.max(0, Math.min(r.bottom, r.top + innerHeight / 2) - innerHeight);
  const screens = Math.ceil(away(at()) / innerHeight);
  if (screens > 0) e.scrollIntoView({ block: "center", behavior: "instant" });
  const r = at(), line = e.getClientRects()[0] ?? r;
  const X = line.left + line.width / 2, Y = line.top + Math.min(line.height / 2, 40);
  const hit = document.elementFromPoint(X, Y);
  const mine = hit && (e.contains(hit) || hit.contains(e) || [...(e.labels ?? [])].some(l => l.contains(hit)));
  const link = e.closest("a");
  return { X, Y, Screens: screens, Leaves: !!link && !link.target && new URL(link.href).pathname !== location.pathname, Trouble: mine ? "" : "something lies over it: " + (hit?.outerHTML ?? "nothing").slice(0, 120) };
};
