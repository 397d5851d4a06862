// What was changed, where it leads back to, and what the page calls it: links, options, other jobs,
// undo, entries that are refused.
import assert from "node:assert/strict";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { clean, dollars, goTo, missing, open, price, type, visit } from "./browser.mjs";
import { ask, folder, writePage } from "./support.mjs";

const one = "examples/01-first-price.job";
const three = "examples/03-rows-or-field.job";
const suite = { skip: missing };
let browser, pages;
before(async () => {
  if (missing) return;
  browser = await open();
  pages = writePage("changes.html", three, one);
});
after(() => browser?.close());

const rate = (...words) => dollars(ask("price", ...words).price.per_unit) + "/ac all in";
const comes = (page, words) =>
  page.waitForFunction(words => document.getElementById("big").textContent === words, words);
const changed = (page, words) => page.waitForSelector(`#note:has-text("${words}")`);
const link = kept => "#" + encodeURIComponent(JSON.stringify({ j: 0, o: "", y: "", t: [], ...kept }));
const told = (page, name) =>
  page.$eval(`[id="g-${name}"]`, field => field.closest(".given").querySelector(".told")?.innerText);

test("a slider speaks as pages do, and goes back from where there is no price", suite, async () => {
  const visited = await visit(browser, pages, { width: 1440 });
  const { page } = visited;
  const said = name => page.getAttribute(`[id="s-${name}"]`, "aria-valuetext");
  await page.focus("[id='s-season_prices.diesel']");
  await page.keyboard.press("ArrowRight");
  assert.match(await said("season_prices.diesel"), /^\$4\.\d\d\/gal: \$/);
  await page.focus("[id='s-depth']");
  await page.keyboard.press("End"); // 7 ft: the tracks cannot pull that
  await page.waitForFunction(() => document.getElementById("g-depth").value === "6");
  assert.match(await said("depth"), /^6 ft, \$/);
  assert.doesNotMatch(await page.textContent("#note"), /Last good/);
  clean(visited);
  await visited.close();
});

test("what would mend an entry is what was meant, or is not offered", suite, async () => {
  const visited = await visit(browser, pages);
  const { page } = visited;
  for (const [name, typed, mend] of [
    ["depth", "5 1/2", "Use 5.5 ft"],
    ["depth", "5\u00bd", "Use 5.5 ft"],
    ["depth", "5'", "Use 5 ft"],
    ["area", "1e3", "Use 1e3 ac"],
    ["area", "44.", "Use 44 ac"],
    ["area", "44 acers", "Use 44 ac"],
    ["area", "1.2k", ""],
    ["area", "$1.2k", ""],
    ["area", "4 4", ""],
  ]) {
    await type(page, name, typed);
    const words = await told(page, name);
    assert.equal(/Use [^\n]*?(?=Put back|\n|$)/.exec(words)?.[0] ?? "", mend, typed);
  }
  clean(visited);
  await visited.close();
});
