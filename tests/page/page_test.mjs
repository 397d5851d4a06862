// The page in a real browser: what people do on it, at two widths, light and dark, without network.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { axeFinds, clean, dollars, goTo, missing, noSidewaysScroll, open, visit } from "./browser.mjs";
import { ask, folder, root, writePage } from "./support.mjs";

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

test("a figure opens down to its givens; another season is a bridge", suite, async () => {
  const visited = await visit(browser, writePage("built.html", one));
  const { page } = visited;
  await goTo(page, "Costs");
  await page.click("[id='fig-fuel.amount']");
  for (const summary of await page.locator(".built summary").all()) await summary.click();
  assert.match(await page.textContent(".built"), /Corvane fuel dock/);
  await page.selectOption("#against", "season examples/2027-autumn.season");
  assert.ok((await page.locator(".steps .sum").count()) > 0);
  assert.equal(await page.locator("#against-e").count(), 0);
  clean(visited);
  await visited.close();
});

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
    await page.click("#risk-go");
    await page.waitForSelector("#risk-progress");
    await page.click('#risk-go:text("Stop")');
    assert.match(await page.textContent("main"), /Stopped after/);
    await page.click("#risk-go");
    await page.waitForSelector(".facts", { timeout: 60000 });
    const theirs = ask("risk", one, "--trials", "20000");
    const loss = theirs.loss.toLocaleString("en-US", {
      style: "percent",
      maximumFractionDigits: 2,
    });
    assert.ok((await page.textContent(".facts")).includes(loss));
    clean(visited);
    await visited.close();
  },
);

test("hostile names and texts never become markup or script", suite, async () => {
  const evil = `</script><img src=x onerror="window.evil=1"><script>window.evil=1</script>`;
  const job = readFileSync(root + one, "utf8")
    .replace("Home ranch, block 4", evil.replaceAll('"', "'"))
    .replace("walked with the foreman", "<b onclick=evil()>x</b>");
  const file = join(root, "examples", "hostile-page-test.job");
  writeFileSync(file, job);
  try {
    const visited = await visit(browser, writePage("evil.html", "examples/hostile-page-test.job"), {
      hash:
        "#" +
        encodeURIComponent(
          JSON.stringify({
            s: [["area", "<img src=x onerror=evil()>", evil]],
            o: evil,
            j: -1,
            t: [[one, evil], 5],
          }),
        ),
    });
    const { page } = visited;
    for (const place of ["Price", "Options", "Costs", "Risk", "Text"]) await goTo(page, place);
    assert.equal(await page.evaluate(() => window.evil), undefined);
    assert.equal(await page.locator("img").count(), 0);
    assert.match(await page.textContent("#title"), /onerror/);
    clean(visited);
    await visited.close();
  } finally {
    (await import("node:fs")).rmSync(file);
  }
});

test(
  "without script the price is there as it was written; without an engine it is told",
  suite,
  async () => {
    const file = writePage("plain.html", one);
    const visited = await visit(browser, file, { script: false });
    assert.ok(
      (await visited.page.textContent("#written")).includes(ask("price", one).price.total_text),
    );
    await visited.close();
    const broken = join(folder, "broken.html");
    writeFileSync(
      broken,
      readFileSync(file, "utf8").replace(
        "const textIn",
        "delete globalThis.DecompressionStream;\nconst textIn",
      ),
    );
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.goto("file://" + broken);
    await page.waitForSelector("#cannot .told");
    assert.match(await page.textContent("#cannot"), /cannot unpack/);
    await context.close();
  },
);

test("the grower's page holds no wage, cost, margin or reason", suite, async () => {
  const job = readFileSync(root + three, "utf8").replace(/because "[^"]*"/g, 'because "SENTINEL"');
  const file = join(root, "examples", "sentinel-page-test.job");
  writeFileSync(
    file,
    job +
      '\nset season_prices.operator_wage = $41.23/h because "SENTINEL"\nset season_prices.profit_share = 13.37 % because "SENTINEL"\n',
  );
  try {
    const html = readFileSync(
      writePage("grower.html", "examples/sentinel-page-test.job", "--for-grower"),
      "utf8",
    );
    const theirs = ask("price", "examples/sentinel-page-test.job");
    for (const secret of [
      "SENTINEL",
      "41.23",
      "13.37",
      "season_prices",
      "<script",
      "deep-rip",
      theirs.cost.total_text,
      ...theirs.costs.filter(cost => cost.amount !== 0).map(cost => cost.amount_text),
    ])
      assert.ok(!html.includes(secret), secret);
    assert.ok(html.includes(theirs.price.total_text));
    assert.match(html, /Tree rows, two pulls/);
  } finally {
    (await import("node:fs")).rmSync(file);
  }
});
