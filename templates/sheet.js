// Ticks and blanks stay in this browser under the description's hash; sums are worked in whole numbers, never in binary fractions.
"use strict";
(() => {
  const key = "turnwright " + document.documentElement.dataset.hash;
  const fields = [...document.querySelectorAll("input[name]")];
  const sign = document.documentElement.dataset.decimal;
  const DIGITS = 7, ONE = 10n ** BigInt(DIGITS);

  // "7.003", ".5", "−.003" as ten-millionths; null for anything else. A sheet with decimal commas takes both signs.
  const read = text => {
    const m = /^([+\-\u2212]?)(\d*)(?:\.(\d*))?$/.exec(text.trim().replace(sign, "."));
    if (!m || (!m[2] && !m[3]) || (m[3] || "").length > DIGITS) return null;
    const size = BigInt(m[2] || "0") * ONE + BigInt((m[3] || "").padEnd(DIGITS, "0"));
    return m[1] === "-" || m[1] === "\u2212" ? -size : size;
  };
  const decimals = text => (text.replace(sign, ".").split(".")[1] || "").trim().length;
  const show = (value, least, inch) => {
    const size = value < 0n ? -value : value;
    let part = (size % ONE).toString().padStart(DIGITS, "0").replace(/0+$/, "").padEnd(least, "0");
    const whole = (size / ONE).toString();
    const shown = (inch && whole === "0" && part ? "" : whole) + (part ? sign + part : "");
    return (value < 0n ? "\u2212" : "") + shown;
  };

  // a: what was measured; the line says what is taken from what, and where the result goes.
  const work = line => {
    const [a, ...results] = line.querySelectorAll("input:not([data-own])");
    const given = read(line.dataset.value), measured = read(a.value);
    const inches = (line.dataset.units || document.documentElement.dataset.units) === "in";
    const least = Math.max(decimals(line.dataset.value), decimals(a.value));
    const difference = measured === null || given === null ? null
      : line.dataset.works.startsWith("given_minus_measured") ? given - measured : measured - given;
    const share = { measured_minus_given_half: 2n, given_minus_measured_half: 2n }[line.dataset.works] || 1n;
    // A dial in the other unit: the step stands in the line. Rounded to what such a dial shows.
    const [up, down, places] = line.textContent.includes("÷ 25.4") ? [10n, 254n, 4]
      : line.textContent.includes("× 25.4") ? [254n, 10n, 2] : [1n, 1n, DIGITS];
    const onDial = value => {
      const one = 10n ** BigInt(DIGITS - places), exact = value * up / down;
      return (exact + (exact < 0n ? -one : one) / 2n) / one * one;
    };
    results.forEach((field, i) => {
      field.readOnly = difference !== null;
      if (difference === null) { if (field.dataset.worked) field.value = ""; delete field.dataset.worked; return; }
      field.value = i < results.length - 1 ? show(difference, least, inches)
        : show(onDial(difference / share), places === DIGITS ? least : places - 1, places === DIGITS ? inches : places === 4);
      field.dataset.worked = "yes";
    });
  };
  const lines = [...document.querySelectorAll(".line[data-works]")];

  const keep = () => {
    const kept = {};
    for (const f of fields) {
      if (f.type === "checkbox" ? f.checked !== f.defaultChecked : f.value !== f.defaultValue) kept[f.name] = f.type === "checkbox" ? f.checked : f.value;
    }
    try { localStorage.setItem(key, JSON.stringify(kept)); } catch { /* a browser that keeps nothing still shows the sheet */ }
  };
  const restore = () => {
    let kept = {};
    try { kept = JSON.parse(localStorage.getItem(key)) || {}; } catch { /* nothing kept */ }
    for (const f of fields) {
      if (!(f.name in kept)) continue;
      if (f.type === "checkbox") f.checked = kept[f.name] === true; else f.value = String(kept[f.name]);
    }
  };
  // The first operation that is not ticked is the next one.
  const point = () => {
    const rows = [...document.querySelectorAll(".ops tbody")];
    const next = rows.find(r => !r.querySelector("input.tick").checked);
    for (const r of rows) r.classList.toggle("next", r === next && rows.some(o => o.querySelector("input.tick").checked));
  };

  restore();
  lines.forEach(work);
  point();
  document.addEventListener("input", event => {
    const line = event.target.closest(".line[data-works]");
    if (line) work(line);
    keep();
    point();
  });
  const clear = document.createElement("button");
  clear.type = "button";
  clear.className = "clear";
  clear.textContent = document.documentElement.dataset.clear;
  clear.addEventListener("click", () => {
    for (const f of fields) { if (f.type === "checkbox") f.checked = f.defaultChecked; else f.value = f.defaultValue; }
    lines.forEach(work);
    keep();
    point();
  });
  document.body.append(clear);
})();
