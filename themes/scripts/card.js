// Says on the page of a tank whether the card is current whose QR code leads here, with its code behind #card-. Only a page that knows that its edition is the
// one which is served may say that a card is to be destroyed: on a tablet without a network the card may be newer than the page.
(() => {
  "use strict";
  const told = document.querySelector(".card-current");
  if (!told) return;
  const say = told.dataset;
  const part = name => told.querySelector("." + name);
  const begins = "#card-";

  // A code is a multiple of the number of letters, with weights from 5 down: CardCode of package ledger.
  const length = 5;
  const isCode = text => {
    let sum = Number(say.start);
    for (let i = 0; i < text.length; i++) {
      const at = say.letters.indexOf(text[i]);
      if (at < 0) return false;
      sum += (length - i) * at;
    }
    return text.length === length && sum % say.letters.length === 0;
  };

  const shown = (mark, text, more, { print = false, stamps = false, ask = "" } = {}) => {
    told.hidden = false;
    part("card-says").textContent = mark + " " + text;
    part("card-more").textContent = more;
    part("card-print").hidden = !print;
    part("card-stamps").hidden = !stamps;
    if (ask) part("card-more").append(Object.assign(document.createElement("a"), { href: ask, textContent: say.sayAsk }));
  };
  const judge = () => {
    if (!location.hash.startsWith(begins)) return void (told.hidden = true);
    const code = window.tankside.unescaped(location.hash.slice(begins.length)).toUpperCase();
    const edition = window.tankside.current ?? { is: "alone", says: "" };
    if (!isCode(code)) return shown("?", say.sayNone, say.sayLetters + " " + say.code + ".", { print: true });
    switch (edition.is) {
      case "asking": return shown("…", say.sayAsking, "");
      case "old": return shown("?", say.sayOld, "", { ask: edition.open });
      case "current":
        if (code === say.code) return shown("✓", say.saySame, "", { stamps: true });
        return shown("✕", say.sayDestroy, "", { print: true });
    }
    if (code === say.code) return shown("✓", say.sayHere, edition.says, { stamps: true });
    return shown("?", say.sayDiffers, say.sayKeep + " " + edition.says, { print: true });
  };
  addEventListener("hashchange", judge);
  document.addEventListener("tankside-current", judge);
  judge();
  for (const a of document.querySelectorAll(".languages a")) { // the code goes along into the other language
    a.addEventListener("click", () => { if (location.hash.startsWith(begins)) a.hash = location.hash; });
  }
})();
