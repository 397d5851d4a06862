// The page in a real browser: what people do on it, at two widths, light and dark, without network.
import assert from "node:assert/strict";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import {
  axeFinds,
  clean,
  dollars,
  goTo,
  missing,
  noSidewaysScroll,
  open,
  percent,
  visit,
} from "./browser.mjs";
import { ask, folder, writePage } from "./support.mjs";

const one = "examples/01-first-price.job";
const three = "examples/03-rows-or-field.job";
const map = "examples/16-from-a-map.job";
const suite = { skip: missing };
let browser;
before(async () => {
  if (!missing) browser = await open();
});
after(() => browser?.close());

for (const [job, width, scheme] of [
  [one, 390, "light"],
  [three, 1440, "dark"],
  [map, 390, "dark"],
  [one, 1440, "light"],
])
  test(
    `${job} at ${width} px, ${scheme}: every place shows, nothing serious is found`,
    suite,
    async () => {
      const visited = await visit(browser, writePage("places.html", job), { width, scheme });
      const { page } = visited;
      for (const place of ["Price", "Options", "Costs", "Risk", "Text"]) {
        await goTo(page, place);
        assert.equal(await page.getAttribute("#places [aria-current]", "aria-current"), "page");
        assert.deepEqual(await axeFinds(page), [], place);
        await noSidewaysScroll(page);
      }
      clean(visited);
      await visited.close();
    },
  );

test("options stand side by side with the program's prices", suite, async () => {
  const visited = await visit(browser, writePage("options.html", three, one), { width: 1440 });
  const { page } = visited;
  await goTo(page, "Options");
  const theirs = ask("compare", three);
  const row = theirs.prices.find(prices => prices.name === "price.per_unit");
  const shown = await page.locator(".choose > li > b").allTextContents();
  assert.deepEqual(
    shown,
    row.values.map(value => dollars(value) + "/ac"),
  );
  assert.match(await page.locator(".choose > li").nth(theirs.cheapest).textContent(), /cheapest/);
  await page.selectOption("#flip", "row_width");
  assert.match(await page.textContent("main"), /costs the same as A/);
  await page.selectOption("#job", "1");
  assert.match(await page.textContent("#title"), /Home ranch/);
  clean(visited);
  await visited.close();
});

test(
  "risk runs in a worker, shows how far it is, stops, and gives the program's figures",
  suite,
  async () => {
    const visited = await visit(browser, writePage("risk.html", one));
    const { page } = visited;
    await goTo(page, "Risk");
    await page.evaluate(() => (risk.wanted = 5000000));
    await page.click("#risk-go");
    await page.waitForSelector("#risk-progress");
    // The page answers while it runs.
    const waited = await page.evaluate(
      () =>
        new Promise(done => {
          const gaps = [];
          let last = performance.now();
          const timer = setInterval(() => {
            gaps.push(performance.now() - last);
            last = performance.now();
            if (gaps.length === 20) clearInterval(timer), done(gaps.length);
          }, 5);
        }),
    );
    assert.equal(waited, 20);
    await page.click('#risk-go:text("Stop")');
    assert.match(await page.textContent("main"), /Stopped after/);
    await page.evaluate(() => (risk.wanted = 20000));
    await page.click("#risk-go");
    await page.waitForSelector(".facts", { timeout: 60000 });
    const theirs = ask("risk", one, "--trials", "20000");
    const loss = percent(theirs.loss);
    assert.ok((await page.textContent(".facts")).includes(loss));
    clean(visited);
    await visited.close();
  },
);

test("without script the price is there as it was written", suite, async () => {
  const visited = await visit(browser, writePage("plain.html", one), { script: false });
  assert.ok(
    (await visited.page.textContent("#written")).includes(ask("price", one).price.total_text),
  );
  await visited.close();
});

// A firm whose money is no dollar, and a clock time among the figures.
const abroad = {
  "kestrel.firm": 'firm "Kestrel"\nmoney CHF "Fr." to 0.05\n',
  "m.rate": `model "m"
money CHF
given fuel = 5.07 CHF/gal  "fuel"  within 1 CHF/gal .. 9 CHF/gal  swing 4 CHF/gal .. 6 CHF/gal
given gallons = 7.3 gal  "gallons"  within 1 gal .. 90 gal  swing 5 gal .. 9 gal
given closes = 17:30  "the gate closes"  within 12:00 .. 22:00
leave : clock = closes - 2 h  "latest start"
cost diesel : CHF/gal = fuel over gallons  "diesel"
price "Work" per gal of gallons
  margin 10 %
`,
  "j.job": 'job "Over the border"\nmodel "m"\nfirm "kestrel"\noption "Less"\n  set gallons = 6 gal\n',
};
test("amounts are in the firm's money and to its step, clock times are clock times", suite, async () => {
  const home = join(folder, "abroad");
  mkdirSync(home, { recursive: true });
  for (const [name, text] of Object.entries(abroad)) writeFileSync(join(home, name), text);
  const visited = await visit(browser, writePage("abroad.html", join(home, "j.job")));
  const { page } = visited;
  const figures = () => page.textContent("#figures");
  const theirs = ask("price", join(home, "j.job"));
  assert.match(theirs.price.total_text, /^Fr\. \d+\.\d[05]$/);
  const spaces = words => words.replaceAll("\u00a0", " ");
  assert.ok(spaces(await figures()).includes(theirs.price.total_text));
  assert.equal(await page.inputValue("[id='g-fuel']"), "5.07");
  await page.fill("[id='g-fuel']", "6.1");
  await page.press("[id='g-fuel']", "Enter");
  await page.waitForSelector('#note button:text("1 change")');
  const after = ask("price", join(home, "j.job"), "--set", "fuel=6.1 CHF/gal");
  assert.ok(spaces(await figures()).includes(after.price.total_text));
  assert.match(spaces(await page.textContent(".bars")), /Fr\. /);
  await page.fill("#find", "gate");
  assert.equal(await page.inputValue("[id='g-closes']"), "5:30 pm");
  for (const place of ["Options", "Costs", "Risk", "Text", "Price"]) {
    await goTo(page, place);
    assert.doesNotMatch(await page.textContent("main"), /\$|\d clock/, place);
  }
  clean(visited);
  await visited.close();
});
