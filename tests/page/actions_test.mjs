// What people do on a page, for three jobs, on a phone in the light and on a desk in the dark.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { clean, dollars, missing, open, price, type, visit } from "./browser.mjs";
import { becomes, bookkeeper, editor, estimator, owner, pasted, risk } from "./people.mjs";
import { ask, folder, numbers, writePage } from "./support.mjs";

// `moves`: a given, two ends, its unit; `wrong`: an entry of another kind, and the given.
const jobs = [
  {
    job: "examples/01-first-price.job",
    moves: [
      ["area", 20, 200, " ac"],
      ["depth", 4, 6, " ft"],
      ["spacing", 6, 9, " ft"],
    ],
    line: ["118 ac", "118 acers", "59 ac"],
  },
  {
    job: "examples/03-rows-or-field.job",
    moves: [
      ["area", 10, 90, " ac"],
      ["row_width", 18, 24, " ft"],
      ["site.miles", 5, 60, " mi"],
    ],
    line: ["41 ac", "41 acers", "30 ac"],
  },
  {
    job: "examples/12-level.job",
    moves: [
      ["yards", 2000, 6000, " cy"],
      ["haul", 200, 900, " ft"],
      ["site.miles", 5, 60, " mi"],
    ],
    line: ["3,940 cy", "3,940", "3,000 cy"],
  },
];
const views = [
  { width: 390, scheme: "light" },
  { width: 1440, scheme: "dark" },
];
const changes = 34; // in each of six: 204

let browser;
before(async () => {
  if (!missing) browser = await open();
});
after(() => browser?.close());

const words = sets => [...sets].flatMap(([name, value]) => ["--set", `${name}=${value}`]);

async function changed({ job, moves }, page, random) {
  const sets = new Map();
  for (let i = 0; i < changes; ++i) {
    const [name, low, high, unit] = moves[i % moves.length];
    const value = String(Number((low + random() * (high - low)).toFixed(1)));
    const all = new Map(sets).set(name, value + unit);
    const theirs = ask("price", job, ...words(all));
    await type(page, name, value);
    if (theirs.price === undefined) {
      await page.waitForSelector("#band.stale");
      await page.click(".told .link");
      await page.waitForSelector("#band:not(.stale)");
      continue;
    }
    sets.set(name, value + unit);
    await becomes(page, dollars(theirs.price.per_unit));
    assert.ok((await page.textContent("#figures")).includes(theirs.price.total_text));
  }
}

async function wrong({ job, moves }, page) {
  const [name] = moves[0];
  const good = await price(page);
  await type(page, name, "6 gal");
  assert.equal(await price(page), good);
  assert.equal(await page.locator("#band.stale").count(), 1);
  assert.equal(await page.getAttribute(`[id="g-${name}"]`, "aria-invalid"), "true");
  assert.equal(await page.locator(`[id="g-${name}-e"]`).count(), 1);
  await page.click(".told .link");
  assert.equal(await page.locator("#band.stale").count(), 0);
  await type(page, "season_prices.diesel", "$5.10/h");
  await page.click('.told .btn:text("Use $5.10/gal")');
  const theirs = ask("price", job, "--set", "season_prices.diesel=$5.10/gal");
  await becomes(page, dollars(theirs.price.per_unit));
}

// Changes are listed, saved as season lines, carried by the address, undone.
async function kept({ moves }, page, file, name) {
  const first = await price(page);
  await type(page, "season_prices.diesel", "5.10");
  await type(page, moves[0][0], String(moves[0][1]));
  const second = await price(page);
  await page.click('#note button:text("2 changes")');
  await page.fill("[id='why-season_prices.diesel']", 'dock price, \"May\"');
  await page.press("[id='why-season_prices.diesel']", "Tab");
  const [saved] = await Promise.all([
    page.waitForEvent("download"),
    page.click('button:text("Save as season lines")'),
  ]);
  const lines = readFileSync(await saved.path(), "utf8");
  assert.match(lines, /set season_prices\.diesel = \$5\.10\/gal  because "dock price, May"/);
  const season = join(folder, `${name}.season`);
  writeFileSync(season, lines);
  assert.equal(ask("check", season).files[0].errors, 0);
  const other = await visit(browser, file, { hash: new URL(page.url()).hash });
  assert.equal(await price(other.page), second);
  await other.close();
  // The reason first, then one figure after the other.
  for (const left of ["2 changes", "1 change"]) {
    await page.click('#note button:text("Undo last")');
    await page.waitForSelector(`#note button:text("${left}")`);
  }
  await page.click('#note button:text("Undo last")');
  assert.equal(await price(page), first);
}

for (const one of jobs)
  for (const view of views)
    test(`${one.job} at ${view.width} px, ${view.scheme}`, { skip: missing }, async t => {
      const name = `actions-${jobs.indexOf(one)}-${view.width}`;
      const file = writePage(`${name}.html`, one.job);
      const random = numbers(5 + view.width);
      for (const [what, act] of [
        [
          "every figure shown is the program's after each change",
          page => changed(one, page, random),
        ],
        ["a wrong entry is told, the good price stays, a press mends it", page => wrong(one, page)],
        ["changes are listed, saved, carried, undone", page => kept(one, page, file, name)],
        [
          "the owner: what moves the price, a slider, a card that recolors",
          page => owner(one, page),
        ],
        ["the estimator: options, curves, where it flips", page => estimator(one, page)],
        [
          "the bookkeeper: costs, how a figure was built, another season",
          page => bookkeeper(one, page),
        ],
        ["risk: the program's figures", page => risk(one, page)],
        ["a text is edited, mended, downloaded, undone", page => editor(one, page)],
        ["a paste past the limit is refused", page => pasted(page)],
      ])
        await t.test(what, async () => {
          const visited = await visit(browser, file, view);
          await act(visited.page);
          clean(visited);
          await visited.close();
        });
    });
