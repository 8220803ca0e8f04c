// What a visit report takes along beside words: a photograph, made small and bare on the device, the customer's signature as strokes, a chart of the bath in
// numbers. And what of these a file that is read in may hold. Needs chart.js, readings.js.
(() => {
  "use strict";
  const tankside = window.tankside;
  const longest = 1280, mostBytes = 480_000, mostFile = 60 * 2 ** 20, mostPixels = 4096, box = { width: 600, height: 200 }, mostStrokes = 20_000, mostPoints = 240;

  // ——— photographs ———

  // parts gives the parts of a picture as [name, from, to], or null where it is none. JPEG: ITU-T T.81, annex B; PNG: the W3C's specification, chunks.
  const jpegParts = b => {
    if (b[0] !== 0xff || b[1] !== 0xd8) return null;
    const list = [["SOI", 0, 2]];
    for (let i = 2; i + 1 < b.length;) {
      if (b[i] !== 0xff) return null;
      const marker = b[i + 1];
      if (marker === 0xd9) return i + 2 === b.length ? [...list, ["EOI", i, i + 2]] : null; // nothing may follow
      const length = i + 3 < b.length ? b[i + 2] << 8 | b[i + 3] : 0;
      let to = i + 2 + length;
      if (length < 2 || to > b.length) return null;
      if (marker === 0xda) while (to + 1 < b.length && !(b[to] === 0xff && b[to + 1] !== 0 && (b[to + 1] < 0xd0 || b[to + 1] > 0xd7))) to++;
      const name = marker === 0xe0 ? "APP0" : marker > 0xe0 && marker <= 0xef ? "APP" : marker === 0xfe ? "COM" :
        marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker) ? "SOF" : [0xda, 0xdb, 0xc4, 0xdd].includes(marker) ? "data" : "other";
      list.push([name, i, to]);
      i = to;
    }
    return null;
  };
  const pngParts = b => {
    if ([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a].some((x, i) => b[i] !== x)) return null;
    const list = [];
    for (let i = 8; i + 12 <= b.length;) {
      const length = new DataView(b.buffer, b.byteOffset + i).getUint32(0), name = String.fromCharCode(...b.subarray(i + 4, i + 8)), to = i + 12 + length;
      if (to > b.length) return null;
      list.push([name, i, to]);
      if (name === "IEND") return to === b.length ? list : null;
      i = to;
    }
    return null;
  };
  // bare gives a JPEG without everything that is not the picture: place, time, camera, comments, colour profiles.
  const bare = b => {
    const kept = (jpegParts(b) ?? []).filter(([name]) => ["SOI", "APP0", "SOF", "data", "EOI"].includes(name));
    if (!kept.length) throw new Error("no picture");
    const all = new Uint8Array(kept.reduce((n, [, from, to]) => n + to - from, 0));
    let at = 0;
    for (const [, from, to] of kept) { all.set(b.subarray(from, to), at); at += to - from; }
    return all;
  };
  const base64 = b => {
    let text = "";
    for (let i = 0; i < b.length; i += 0x8000) text += String.fromCharCode(...b.subarray(i, i + 0x8000));
    return btoa(text);
  };

  // photo makes of a file a picture of bounded size as a data: address. The canvas knows nothing of what else was in the file; what it writes is stripped all the same.
  const photo = async file => {
    if (file.size > mostFile) throw new Error("too large");
    const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
    for (let side = longest; ; side = Math.round(side * .75)) {
      const times = Math.min(1, side / Math.max(picture.width, picture.height));
      const canvas = Object.assign(document.createElement("canvas"), { width: Math.max(1, Math.round(picture.width * times)), height: Math.max(1, Math.round(picture.height * times)) });
      const paint = canvas.getContext("2d");
      paint.fillStyle = "#fff"; // what is transparent would be black
      paint.fillRect(0, 0, canvas.width, canvas.height);
      paint.drawImage(picture, 0, 0, canvas.width, canvas.height);
      for (const quality of [.82, .65]) {
        const blob = await new Promise(done => { canvas.toBlob(done, "image/jpeg", quality); });
        const bytes = bare(new Uint8Array(await blob.arrayBuffer()));
        if (bytes.length <= mostBytes || side < 200) {
          picture.close();
          return "data:image/jpeg;base64," + base64(bytes);
        }
      }
    }
  };

  // amiss says what speaks against a picture of a file that is read in, or null: "form", "carries" (something beside the picture) or "pixels".
  const amiss = address => {
    const m = /^data:image\/(jpeg|png);base64,([A-Za-z0-9+/]+={0,2})$/.exec(address);
    if (!m) return "form";
    let b;
    try {
      b = Uint8Array.from(atob(m[2]), c => c.charCodeAt(0));
    } catch {
      return "form";
    }
    const parts = m[1] === "jpeg" ? jpegParts(b) : pngParts(b);
    if (!parts) return "form";
    const allowed = m[1] === "jpeg" ? ["SOI", "APP0", "SOF", "data", "EOI"] : ["IHDR", "PLTE", "tRNS", "gAMA", "sRGB", "pHYs", "IDAT", "IEND"];
    if (parts.some(([name]) => !allowed.includes(name))) return "carries";
    const size = parts.find(([name]) => name === "SOF" || name === "IHDR"), v = new DataView(b.buffer);
    if (!size) return "form";
    const [w, h] = m[1] === "jpeg" ? [v.getUint16(size[1] + 7), v.getUint16(size[1] + 5)] : [v.getUint32(size[1] + 8), v.getUint32(size[1] + 12)];
    return w < 1 || h < 1 || w > mostPixels || h > mostPixels ? "pixels" : null;
  };

  // ——— the signature ———

  const svg = (name, attributes) => {
    const e = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(attributes)) e.setAttribute(key, value);
    return e;
  };
  // signed draws strokes.
  const signed = (strokes, says) => {
    const s = svg("svg", { class: "signature", viewBox: `0 0 ${box.width} ${box.height}`, role: "img", "aria-label": says });
    s.append(svg("path", { d: strokes }));
    return s;
  };
  // signing lets somebody sign with a finger, pen or mouse in a drawing; the strokes are those of `strokes()`.
  const signing = area => {
    let path = "", drawing = false;
    const line = area.querySelector("path") ?? area.appendChild(svg("path", { d: "" }));
    const at = event => {
      const r = area.getBoundingClientRect(), fit = (x, most) => Math.max(0, Math.min(most - 1, Math.round(x)));
      return fit((event.clientX - r.left) / r.width * box.width, box.width) + " " + fit((event.clientY - r.top) / r.height * box.height, box.height);
    };
    const put = part => { if (path.length + part.length <= mostStrokes) line.setAttribute("d", path += part); };
    area.addEventListener("pointerdown", event => {
      drawing = true;
      area.setPointerCapture(event.pointerId);
      put("M" + at(event) + "L" + at(event)); // a dot is seen, too
      event.preventDefault();
    });
    area.addEventListener("pointermove", event => {
      if (!drawing) return;
      const step = "L" + at(event);
      if (!path.endsWith(step)) put(step);
    });
    for (const end of ["pointerup", "pointercancel"]) area.addEventListener(end, () => { drawing = false; });
    return { strokes: () => path, clear: () => line.setAttribute("d", path = "") };
  };

  // ——— the chart ———

  // chartOf gives the numbers of a chart of a bath: what the edition has of a quantity, and what is on this device; null where there is nothing. `record` is the
  // published one, as its parcel has it.
  const chartOf = async (tank, quantity, record) => {
    const of = record.charts.find(c => c.quantity === quantity), ids = new Set(record.ids), points = of ? of.points.map(({ at, value }) => ({ at, value })) : [];
    for (const row of await tankside.readings.standing(tank)) {
      const head = Object.keys(row).find(h => tankside.rows.isNumber(h) && tankside.rows.head(h).name === quantity);
      const m = head && !ids.has(row.id) && /^-?\d+(\.\d+)?$/.exec(row[head]);
      if (m && (!of || (tankside.rows.head(head).unit === of.unit || !of.unit))) points.push({ at: row.when, value: Number(m[0]), here: true });
    }
    points.sort((a, b) => a.at < b.at ? -1 : a.at > b.at ? 1 : 0);
    return points.length ? { unit: of?.unit ?? "", ...(of?.low !== undefined && { low: of.low }), ...(of?.high !== undefined && { high: of.high }), points: points.slice(-mostPoints) } : null;
  };

  tankside.things = { photo, amiss, bare, signed, signing, chartOf };
})();
