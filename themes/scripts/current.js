// Asks the shop's address which edition is served there, and says in the page's foot whether this copy is that one; where it cannot ask, since when not. What
// is asked for is a picture, which runs nothing and may be shown from anywhere, from a stick too; its width and its height say number and code of the edition.
(() => {
  "use strict";
  const told = document.querySelector(".current");
  if (!told) return;
  const say = told.dataset;
  const mine = { n: Number(say.number), c: say.code };
  const key = "tankside.current " + say.address;
  const minute = 60000;
  const day = 24 * 60 * minute;
  const fresh = 10 * minute; // nothing is asked again within that time
  const patience = 15000; // ms

  // What this device knows: {at, n, c} of the last answer, {since} of the first attempt in vain after it.
  let known = {};
  const remember = what => {
    known = what;
    try { localStorage.setItem(key, JSON.stringify(what)); } catch { /* a private window: it is known to this page alone */ }
  };
  try {
    const kept = JSON.parse(localStorage.getItem(key) ?? "{}");
    if (kept && typeof kept === "object") known = kept;
  } catch { /* a private window, or not ours */ }
  const now = () => Date.now();
  const answered = () => Number.isFinite(known.at) && known.at <= now() + minute && Number.isInteger(known.n) && typeof known.c === "string";

  const two = n => String(n).padStart(2, "0");
  const when = at => {
    const d = new Date(at);
    return d.getFullYear() + "-" + two(d.getMonth() + 1) + "-" + two(d.getDate()) + " " + two(d.getHours()) + ":" + two(d.getMinutes());
  };
  const fill = (text, holes) => text.replace(/\{(\w+)\}/g, (_, hole) => holes[hole]);
  const days = since => {
    const n = Math.floor((now() - since) / day);
    return n < 1 ? "" : " (" + (n === 1 ? say.sayDay : fill(say.sayDays, { n })) + ")";
  };
  const age = () => {
    const from = say.date && new Date(say.date + "T00:00").getTime();
    if (!from) return say.sayUndated;
    const n = Math.floor((now() - from) / day);
    return n < 1 ? say.sayToday : n === 1 ? say.sayDayOld : fill(say.sayOld, { n });
  };
  const name = e => e.n > 0 ? fill(say.sayNumber, { n: e.n }) : say.sayUnentered;

  // The page of the edition that is served that is this one, with what stands behind its #.
  const open = () => say.address + say.page + location.hash;
  const there = location.href.startsWith(say.address);
  const strip = document.querySelector(".newer");

  const state = asking => {
    if (answered() && (known.n !== mine.n || known.c !== mine.c)) {
      const holes = { there: name(known), mine: name(mine), t: when(known.at) };
      if (known.n > 0 && known.n < mine.n) return { is: "ahead", says: fill(say.sayAhead, holes) };
      return { is: "old", says: fill(say.sayOther, holes), open: open() };
    }
    if (answered() && now() - known.at < fresh) return { is: "current", says: fill(say.sayCurrent, { t: when(known.at) }) };
    if (asking) return { is: "asking", says: "" };
    if (answered()) return { is: "unknown", says: fill(say.sayNot, { t: when(known.at) }) + days(known.at) };
    return { is: "unknown", says: fill(say.sayNever, { t: when(known.since ?? now()) }) + days(known.since ?? now()) };
  };
  const tell = asking => {
    const s = state(asking);
    told.hidden = false;
    told.textContent = (say.date || s.is !== "current" ? age() + ". " : "") + s.says;
    if (s.is === "old" && !there) { // at the address itself the newer edition is taken when it is there whole: see keep.js
      told.append(" ", Object.assign(document.createElement("a"), { href: s.open, textContent: say.sayOpen }));
      if (strip && !strip.childElementCount) strip.append(say.sayOldCopy + " ", Object.assign(document.createElement("a"), { href: s.open, textContent: say.sayOpen }));
    } else if (strip && strip.querySelector("a")) strip.textContent = "";
    window.tankside.current = s;
    document.dispatchEvent(new CustomEvent("tankside-current"));
  };

  // The numbers of the picture, or nothing where they are none: some networks answer everything with a page or a picture of their own.
  const low = 2 ** 20;
  const carried = 5; // characters of the code
  const read = (width, height) => {
    let v = (width - 1) * low + height - 1;
    if (!(width >= 1 && height >= 1 && width <= low && height <= low)) return null;
    let c = "";
    for (let i = 0; i < carried; i++) {
      c = say.letters[v % say.letters.length] + c;
      v = Math.floor(v / say.letters.length);
    }
    return v <= 99999 ? { n: v, c } : null;
  };
  let asking = false;
  const ask = () => {
    if (asking || document.hidden || answered() && now() - known.at < fresh) return;
    asking = true;
    tell(true);
    const picture = new Image();
    let timer = 0;
    const done = answer => {
      if (!asking) return;
      asking = false;
      clearTimeout(timer);
      picture.onload = picture.onerror = null;
      if (answer) remember({ at: now(), ...answer });
      else if (!answered() && !known.since) remember({ since: now() });
      tell(false);
    };
    if (!navigator.onLine) return done(null);
    picture.referrerPolicy = "no-referrer";
    picture.onload = () => done(read(picture.naturalWidth, picture.naturalHeight));
    picture.onerror = () => done(null);
    timer = setTimeout(() => { picture.src = ""; done(null); }, patience);
    picture.src = say.picture + "?" + now(); // never what the browser has kept
  };
  tell(true);
  ask();
  addEventListener("online", ask);
  document.addEventListener("visibilitychange", ask);
  setInterval(ask, fresh);
})();
