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

test("a link says what each value was, and the same value typed again changes nothing", suite, async () => {
  const visited = await visit(browser, pages, { hash: link({ s: [["depth", "5 ft", "dug a pit"]] }) });
  const { page } = visited;
  const five = rate(three, "--set", "depth=5 ft");
  assert.equal(await price(page), five);
  assert.match(await page.textContent("[id='g-depth-r']"), /was 6 ft/);
  assert.match(await page.textContent("#changed"), /depth below undisturbed ground6 ft to 5 ft/);
  await type(page, "depth", "5 ft");
  await page.waitForTimeout(400);
  assert.equal(await price(page), five);
  await type(page, "depth", " ");
  await comes(page, rate(three));
  clean(visited);
  await visited.close();
});

test("title and head say whose price is in sight, and undo brings both back", suite, async () => {
  const visited = await visit(browser, pages, { width: 1440 });
  const { page } = visited;
  const head = async () =>
    [await page.title(), await page.textContent("#title"), await page.textContent("#for")].join("|");
  const name = "Tree rows, one pull";
  const option = rate(three, "--option", name);
  await goTo(page, "Options");
  await page.click(`button[aria-label="Price this one: ${name}"]`);
  await comes(page, option);
  assert.ok((await head()).includes(option.replace(" all in", "|")), await head());
  assert.match(await head(), /July 5, 2027, Tree rows, one pull$/);
  assert.match(await page.textContent("#note"), /^Tree rows, one pull, \u2212\$/);
  await page.selectOption("#job", "1");
  await comes(page, rate(one));
  assert.match(await head(), /Home ranch/);
  assert.match(await page.textContent("#note"), /^As written, no change/);
  await page.click('#note button:text("Undo last")');
  await comes(page, option);
  assert.match(await head(), /^Sable Creek.*Sable Creek.*Tree rows, one pull$/);
  assert.match(await page.textContent("#note"), /^Tree rows, one pull, \u2212\$/);
  clean(visited);
  await visited.close();
});

test("a link to another job of the page tells its changes against that job", suite, async () => {
  const visited = await visit(browser, pages, { hash: link({ j: 1, s: [["depth", "5 ft", ""]] }) });
  const { page } = visited;
  const less = ask("price", one).price.per_unit - ask("price", one, "--set", "depth=5 ft").price.per_unit;
  assert.ok((await page.textContent("#note")).includes(`1 change, \u2212${dollars(less)}/ac`));
  clean(visited);
  await visited.close();
});

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

test("an option that gives no price says why beside it, and is put back", suite, async () => {
  for (const [width, name, wrong] of [
    [390, "moisture", "wet"],
    [1440, "top.ground", "moderate_pan"],
  ]) {
    const visited = await visit(browser, pages, { width });
    const { page } = visited;
    await page.fill("#find", name);
    const field = await page.waitForSelector(`[id="g-${name}"]`);
    if (await field.evaluate(one => one.tagName === "SELECT")) await field.selectOption(wrong);
    else await page.click(`[id="g-${name}"] button:text-is("${wrong}")`);
    assert.match(await told(page, name), /^Requirement not met/);
    await page.click('#note button:text("Go to it")');
    assert.ok(
      await page.$eval(`[id="g-${name}"]`, one => one.contains(document.activeElement)),
      name,
    );
    await page.click('.told button:has-text("Put back")');
    assert.equal(await told(page, name), undefined);
    assert.doesNotMatch(await page.textContent("#note"), /Last good/);
    clean(visited);
    await visited.close();
  }
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

test("a text is judged as what it is, and never put in the place of another", suite, async () => {
  const visited = await visit(browser, pages, { width: 1440 });
  const { page } = visited;
  await goTo(page, "Text");
  await page.selectOption("#file", "examples/tamarack.firm");
  assert.equal(await page.textContent("#text-said"), "");
  await page.selectOption("#file", "models/site.rate");
  const text = await page.inputValue("#text");
  await page.fill("#text", text + "\n# looked at again\n");
  await page.selectOption("#file", three);
  await page.waitForTimeout(500);
  assert.deepEqual(await page.evaluate(() => [...state.texts.keys()]), ["models/site.rate"]);
  await page.selectOption("#file", "models/site.rate");
  assert.equal(await page.inputValue("#text"), text + "\n# looked at again\n");
  clean(visited);
  await visited.close();
});

test("a variant that no link can hold says so", suite, async () => {
  const home = join(folder, "long");
  mkdirSync(home, { recursive: true });
  const model = `model "m"\ngiven acres = 5 ac  "acres"\ncost labor : $/ac = $9/ac over acres  "labor"
price "Work" per ac of acres\n  margin 10 %\n${"# a line of words that says nothing at all\n".repeat(1500)}`;
  writeFileSync(join(home, "m.rate"), model);
  writeFileSync(join(home, "j.job"), 'job "Long"\nmodel "m"\n');
  const visited = await visit(browser, writePage("long.html", join(home, "j.job")), { width: 1440 });
  const { page } = visited;
  await goTo(page, "Text");
  const name = await page.$eval("#file", pick => pick.options[1].value);
  await page.selectOption("#file", name);
  await page.fill("#text", model.replace("$9", "$8"));
  await changed(page, "1 change");
  await page.click('#note button:text("1 change")');
  assert.equal(await page.textContent("#changes-do"), "Copy link to this variantUndo all");
  await page.click('button:text("Copy link to this variant")');
  assert.match(await page.textContent("#changes-do"), /Too long for a link/);
  clean(visited);
  await visited.close();
});

test("a long option takes more lines, and its neighbors stay in sight", suite, async () => {
  const home = join(folder, "wide");
  mkdirSync(home, { recursive: true });
  const holes = "rough_and_full_of_the_holes_that_gophers_dig_when_nobody_looks_at_them";
  writeFileSync(
    join(home, "m.rate"),
    `model "m"\ngiven acres = 5 ac  "acres"\ngiven ground = flat | ${holes}  "ground"
cost labor : $/ac = when ground is flat then $9/ac otherwise $12/ac over acres  "labor"
price "Work" per ac of acres\n  margin 10 %\n`,
  );
  writeFileSync(
    join(home, "j.job"),
    `job "Wide"\nmodel "m"\noption "Rough"\n  set ground = ${holes}\noption "More"\n  set acres = 6 ac\n`,
  );
  const visited = await visit(browser, writePage("wide.html", join(home, "j.job")), { width: 1440 });
  const { page } = visited;
  await goTo(page, "Options");
  assert.match(await page.textContent(".opts"), /rough and full of the holes/);
  const [inside, whole] = await page.$eval(".scroll:has(.opts)", box => [
    box.clientWidth,
    box.scrollWidth,
  ]);
  assert.ok(whole <= inside, `${whole} px in ${inside}`);
  clean(visited);
  await visited.close();
});

test("a price on paper says what was changed, and that it is the last good one", suite, async () => {
  const visited = await visit(browser, pages);
  const { page } = visited;
  await page.emulateMedia({ media: "print" });
  const note = () => page.innerText("#note");
  assert.equal(await note(), "");
  await type(page, "depth", "5");
  await changed(page, "1 change");
  const words = "Changed here: depth below undisturbed ground, 6 ft to 5 ft.";
  assert.equal((await note()).trim(), words);
  await type(page, "depth", "7");
  assert.match(await note(), /^Last good price\. Requirement not met/);
  assert.ok((await note()).includes(words));
  await page.emulateMedia({ media: "screen" });
  assert.doesNotMatch(await note(), /Changed here/);
  clean(visited);
  await visited.close();
});
