// Opens sheets in a real Chromium and tells what is wrong with them, one line a fault; nothing is printed when all is well.
//
//   node look.mjs TOOLS CHROMIUM SHEET.html...
//
// TOOLS is the folder whose node_modules hold playwright-core (drives the browser), axe-core (WCAG 2.1 A and AA rules) and
// html-validate (HTML's own rules).
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { basename, join, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const [tools, executablePath, ...sheets] = process.argv.slice(2);
const require = createRequire(join(resolve(tools), "node_modules", "any.js"));
const { chromium } = require("playwright-core");
const { HtmlValidate } = require("html-validate");
const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");

const faults = [];
let counted = 0;
const ask = (right, what) => { counted += 1; if (!right) faults.push(what); };

// HTML's rules, without those of style: the sheet is one file, so its sizes stand in style attributes.
const validator = new HtmlValidate({
  extends: ["html-validate:standard", "html-validate:a11y"],
  rules: { "no-inline-style": "off", "long-title": "off" },
});
const valid = async (name, text) => {
  const report = await validator.validateString(text, name);
  const said = report.results.flatMap(r => r.messages);
  ask(said.length === 0, `${name}: ${said.slice(0, 5).map(m => `${m.line}:${m.column} ${m.ruleId}: ${m.message}`).join("; ")}`);
};

const requests = [];
const open = async (browser, file, options = {}) => {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  page.on("request", r => { if (!/^(file|data):/.test(r.url())) requests.push(`${basename(file)}: asked for ${r.url()}`); });
  page.on("pageerror", e => faults.push(`${basename(file)}: script: ${e.message}`));
  page.on("console", m => { if (m.type() === "error") faults.push(`${basename(file)}: console: ${m.text()}`); });
  await page.goto(pathToFileURL(file).href);
  return { context, page };
};

// Nothing sticks out of the window, and no text is cut off or lies on another block.
const overflow = page => page.evaluate(() => {
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  const out = [];
  if (wide > 1) out.push(`the page is ${wide} px wider than the window`);
  for (const e of document.querySelectorAll(".page .b > *, .page td, .page th, .page li, .page p, .page input, .page h1, .page h2")) {
    const r = e.getBoundingClientRect();
    if (r.width && (r.right > document.documentElement.clientWidth + 1 || r.left < -1)) {
      out.push(`<${e.tagName.toLowerCase()}> “${e.textContent.trim().slice(0, 40)}” from ${Math.round(r.left)} to ${Math.round(r.right)} px`);
    }
  }
  return out.slice(0, 3);
});
// On paper each block has a fixed height: what stands in it must not reach below it.
const below = page => page.evaluate(() => {
  const out = [];
  for (const b of document.querySelectorAll(".page .b")) {
    const foot = b.getBoundingClientRect().bottom + 4;
    for (const e of b.querySelectorAll("p, li, td, th, span, dd, dt, h1, h2, input")) {
      const r = e.getBoundingClientRect();
      if (r.height && r.bottom > foot) {
        out.push(`${b.closest(".page").id}: “${(e.textContent || e.name || "").trim().slice(0, 40)}” ${Math.round(r.bottom - foot + 4)} px below its block`);
        break;
      }
    }
  }
  return out.slice(0, 3);
});

const looks = async (browser, file) => {
  const name = basename(file);
  for (const width of [360, 768, 1280]) {
    const { context, page } = await open(browser, file, { viewport: { width, height: 900 } });
    const found = await overflow(page);
    ask(found.length === 0, `${name} at ${width} px: ${found.join("; ")}`);
    if (width === 1280) {
      const under = await below(page);
      ask(under.length === 0, `${name} at ${width} px: ${under.join("; ")}`);
      await page.emulateMedia({ media: "print" });
      const printed = await below(page);
      ask(printed.length === 0, `${name} in print: ${printed.join("; ")}`);
      await page.emulateMedia({ media: "screen" });
    }
    // The page's own policy forbids every script but its own, so the rules are brought in from outside it.
    const cdp = await context.newCDPSession(page);
    await cdp.send("Page.setBypassCSP", { enabled: true });
    await page.evaluate(axe);
    const result = await page.evaluate(() => axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "best-practice"] }));
    ask(result.passes.length > 20, `${name} at ${width} px: axe looked at ${result.passes.length} rules only`);
    const said = result.violations.map(v => `${v.id} (${v.impact}): ${v.nodes[0].html.slice(0, 160)}`);
    ask(said.length === 0, `${name} at ${width} px: ${said.join("; ")}`);
    await context.close();
  }
};

// Ticks and what was typed are there after a reload, under the hash of the description, and go with the button.
const keeps = async (browser, file) => {
  const name = basename(file);
  const { context, page } = await open(browser, file, { viewport: { width: 1280, height: 900 } });
  const ticks = page.locator("input.tick"), typed = page.locator(".ops input.blank[name$=measured]");
  const last = (await ticks.count()) - 1;
  await ticks.nth(0).check();
  await ticks.nth(last).check();
  const writable = (await typed.count()) > 0;
  if (writable) await typed.nth(0).fill("1.2345");
  await page.reload();
  ask(await ticks.nth(0).isChecked() && await ticks.nth(last).isChecked() && !(await ticks.nth(1).isChecked()), `${name}: ticks do not survive a reload`);
  if (writable) ask(await typed.nth(0).inputValue() === "1.2345", `${name}: a measured size does not survive a reload`);
  const keys = await page.evaluate(() => Object.keys(localStorage));
  const hash = await page.locator("html").getAttribute("data-hash");
  ask(keys.length === 1 && keys[0].includes(hash), `${name}: kept under ${keys}`);
  // What was typed is printed.
  if (writable) {
    await page.emulateMedia({ media: "print" });
    ask(await typed.nth(0).isVisible(), `${name}: a measured size does not print`);
    ask(!(await page.locator("button.clear").isVisible()), `${name}: the button prints`);
    await page.emulateMedia({ media: "screen" });
  }
  // The pointer stands at the first operation that is not ticked.
  const operations = page.locator(".ops tbody input.tick");
  if (await operations.count() > 1) {
    await operations.nth(0).check();
    ask(await page.locator(".ops tbody.next").count() === 1, `${name}: no operation is pointed at`);
    ask(await page.locator(".ops tbody").nth(1).evaluate(e => e.classList.contains("next")), `${name}: the wrong operation is pointed at`);
  }
  // By the keyboard alone.
  await page.locator("input.tick").nth(1).focus();
  await page.keyboard.press("Space");
  ask(await ticks.nth(1).isChecked(), `${name}: Space does not tick`);
  await page.locator("button.clear").click();
  await page.reload();
  ask(!(await ticks.nth(0).isChecked()) && (!writable || await typed.nth(0).inputValue() === ""), `${name}: the button does not clear`);
  await context.close();
};

// The sums of the sheet against whole-number arithmetic on the digits, for readings a hand might write.
const decimal = text => {
  const [whole, part = ""] = text.replace("\u2212", "-").split(".");
  const negative = whole.startsWith("-");
  const size = BigInt((whole.replace("-", "") || "0") + part.padEnd(9, "0"));
  return negative ? -size : size;
};
const sums = async (browser, file) => {
  const name = basename(file);
  const { context, page } = await open(browser, file);
  const lines = page.locator(".line[data-works]");
  const n = await lines.count();
  for (let i = 0; i < n; i += 1) {
    const line = lines.nth(i);
    const works = await line.getAttribute("data-works"), given = await line.getAttribute("data-value");
    const fields = line.locator("input:not([data-own])");
    for (const off of ["0.003", "-0.0021", "0", "0.1", "-0.0005", "0.0007"]) {
      const reading = (Number(given) + Number(off)).toFixed(4);
      await fields.nth(0).fill(reading);
      const difference = works.startsWith("given_minus_measured") ? decimal(given) - decimal(reading) : decimal(reading) - decimal(given);
      const count = await fields.count();
      for (let k = 1; k < count; k += 1) {
        const shown = await fields.nth(k).inputValue();
        const half = works.endsWith("_half") && k === count - 1;
        // A dial in inches on a part in millimetres, 1 in = 25.4 mm: right to the half of its fourth decimal. None the other way in the samples.
        if (k === count - 1 && (await line.innerText()).includes("÷ 25.4")) {
          const exact = Number(difference) / 1e9 / 25.4 / (half ? 2 : 1), is = Number(decimal(shown)) / 1e9;
          ask(Math.abs(is - exact) <= 0.00005001, `${name}: ${works} ${given}, read ${reading}: ${shown} in on the dial`);
          continue;
        }
        ask(decimal(shown) * (half ? 2n : 1n) === difference, `${name}: ${works} ${given}, read ${reading}: shows ${shown}`);
      }
    }
    for (const nonsense of ["", "abc", "7,003", "1e3"]) {
      await fields.nth(0).fill(nonsense);
      ask(await fields.nth(1).inputValue() === "", `${name}: “${nonsense}” was worked with`);
    }
  }
  await context.close();
  return n;
};

const browser = await chromium.launch({ executablePath, args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update", "--disable-sync"] });
try {
  let worked = 0;
  for (const sheet of sheets) {
    const file = resolve(sheet);
    await valid(basename(file), readFileSync(file, "utf8"));
    await looks(browser, file);
    await keeps(browser, file);
    worked += await sums(browser, file);
  }
  ask(worked > 0, "no sheet has a sum to work");
  ask(requests.length === 0, requests.join("; "));
} finally {
  await browser.close();
}
for (const fault of faults) console.log(fault);
console.error(`${counted} questions asked of ${sheets.length} sheets, ${faults.length} faults`);
process.exit(faults.length === 0 ? 0 : 1);
