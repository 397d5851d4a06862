// A stranger wrote every name and text of a firm: on the page they stay text, in every place, and so
// does what an address says. The words and the firm are those that every command is tried with
// (tests/hostile).
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { after, before, test } from "node:test";
import { clean, goTo, missing, noSidewaysScroll, open, visit } from "./browser.mjs";
import { folder, program, root } from "./support.mjs";

const words = JSON.parse(readFileSync(join(root, "tests/hostile/words.json"), "utf8"));
const firm = [
  ...readFileSync(join(root, "tests/support/small_firm.h"), "utf8").matchAll(
    /\{"([^"]+)",\s*R"\(([\s\S]*?)\)"\}/g,
  ),
].map(([, name, text]) => [name, text]);
const suite = { skip: missing };
let browser;
before(async () => {
  if (!missing) browser = await open();
});
after(() => browser?.close());

function firmPage(name, word) {
  const home = join(folder, name);
  for (const [file, text] of firm) {
    mkdirSync(dirname(join(home, file)), { recursive: true });
    writeFileSync(join(home, file), text.replaceAll("\u00a7", word));
  }
  const page = join(home, "page.html");
  execFileSync(
    program,
    ["page", "meadow.job", "bank.job", "more/blocks.job", "--write", page],
    { cwd: home, stdio: ["ignore", "pipe", "pipe"] },
  );
  return page;
}

// Every element and attribute is one that the page itself makes.
const elements =
  "a article b br button caption circle code dd desc details div dl dt figcaption figure g h1 h2 h3 head header html body i input label li line link main meta nav option p path pattern rect script section select small span style summary svg table tbody td template text textarea tfoot th thead title tr tspan ul".split(
    " ",
  );
const strangers = page =>
  page.evaluate(known => {
    const found = [];
    for (const element of document.querySelectorAll("*")) {
      if (!known.includes(element.localName)) found.push(element.localName);
      for (const { name, value } of element.attributes)
        if (/^on|^(src|srcdoc|action|formaction|xlink:href)$/.test(name)) found.push(name);
        else if (name === "href" && !/^(#|blob:)/.test(value)) found.push(value);
    }
    if (document.scripts.length !== 4) found.push(`${document.scripts.length} scripts`);
    return found;
  }, elements);

async function everyPlace(visited) {
  const { page } = visited;
  for (const place of ["Price", "Options", "Costs", "Risk", "Text"]) {
    await goTo(page, place);
    if (place === "Costs") {
      await page.locator("[id^='fig-'][id$='.amount']").first().click();
      for (const summary of await page.locator(".built summary").all()) await summary.click();
      const choices = await page.locator("#against option").count();
      for (let i = 1; i < choices; ++i) await page.selectOption("#against", { index: i });
    }
    if (place === "Options") {
      const givens = await page
        .locator("#flip option")
        .evaluateAll(all => all.map(one => one.value).filter(Boolean));
      for (const given of givens.slice(0, 3)) await page.selectOption("#flip", given);
    }
    if (place === "Risk") {
      await page.click("#risk-go");
      await page.waitForSelector(".facts, main .told", { timeout: 60000 });
    }
    if (place === "Text")
      for (let i = 0; i < (await page.locator("#file option").count()); ++i)
        await page.selectOption("#file", { index: i });
    assert.deepEqual(await strangers(page), [], place);
    await noSidewaysScroll(page);
  }
}

for (const [i, word] of words.notation.entries())
  test(`a firm whose every text has ${JSON.stringify(word)}`, suite, async () => {
    const visited = await visit(browser, firmPage(`firm-${i}`, word));
    const { page } = visited;
    const dialogs = [];
    page.on("dialog", dialog => dialogs.push(dialog.message()) && dialog.dismiss());
    await everyPlace(visited);
    await page.selectOption("#file", { index: 0 });
    await goTo(page, "Options");
    for (const job of ["1", "2", "0"]) {
      await page.selectOption("#job", job);
      await page.waitForSelector("body[data-ready=all]");
    }
    assert.deepEqual(dialogs, []);
    clean(visited);
    await visited.close();
  });

test("an address that a stranger made is only ever data", suite, async () => {
  const file = firmPage("address", "");
  for (const [i, word] of [...words.any, ...words.notation].entries()) {
    const hash = state => "#" + encodeURIComponent(JSON.stringify(state));
    const states = [
      { s: [["area", word, word]], o: word, y: word, j: word, t: [["meadow.job", word]] },
      { s: [[word, "5", word]], j: 0 },
      { t: [[word, word], word, null, 5], s: word },
      { s: [["area", "50 ac", word]] },
      { j: 2, o: word, s: [["__proto__", "5", word]], t: [["__proto__", word]] },
    ];
    // Each word in two places, each place with several words.
    for (const state of [states[i % states.length], states[(i + 2) % states.length]]) {
      const visited = await visit(browser, file, { hash: hash(state) });
      assert.deepEqual(await strangers(visited.page), []);
      assert.equal(await visited.page.locator("#big").count(), 1);
      clean(visited);
      await visited.close();
    }
  }
  for (const hash of ["#%E0%A4%A", "#" + "%5B".repeat(20000), "#null", "#{}", "#[[[["]) {
    const visited = await visit(browser, file, { hash });
    assert.match(await visited.page.textContent("#big"), /\$/);
    clean(visited);
    await visited.close();
  }
});

test("what is saved of a stranger's reason is one line of the notation", suite, async () => {
  const visited = await visit(browser, firmPage("saved", ""));
  const { page } = visited;
  await page.fill("[id='g-area']", "50");
  await page.press("[id='g-area']", "Enter");
  await page.click('#note button:text("1 change")');
  await page.fill("[id='why-area']", 'x" \\ \nset fuel_price = $1/gal because "owned');
  await page.press("[id='why-area']", "Tab");
  const text = await page.evaluate(() => seasonText());
  assert.equal(text.split("\n").filter(line => line.startsWith("set ")).length, 1);
  assert.equal(text.match(/"/g).length, 4);
  await visited.close();
});
