// What each of the people does on a page, and the program's own answer beside it.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { dollars, goTo, percent, price, type } from "./browser.mjs";
import { ask } from "./support.mjs";

const amount = (value, unit) => dollars(value) + unit.replace(/^\$/, "");

// A figure follows its change when the page gets to it.
export const becomes = (page, wanted) =>
  page
    .waitForFunction(
      text => document.getElementById("big").textContent.split("/")[0] === text,
      wanted,
      { timeout: 120000 },
    )
    .catch(async () =>
      assert.equal(await page.textContent("#big"), wanted, await page.textContent("#note")),
    );
const rests = page =>
  page.waitForFunction(() => page.price === page.full, null, { timeout: 120000 });

// Bars of what moves the price, a slider, and a card that recolors.
export async function owner({ job, moves }, page) {
  const { givens, line } = ask("sensitivity", job);
  const spread = ({ swing, options }) => {
    const at = swing
      ? [line.value, swing.at_low, swing.at_high]
      : [line.value, ...options.map(one => one.at)];
    const known = at.filter(value => value !== null);
    return swing?.trouble || (options.length > 0 && known.length < 3)
      ? 0
      : Math.max(...known) - Math.min(...known);
  };
  const wanted = givens
    .filter(given => given.swing || given.options.length > 0)
    .map(spread)
    .filter(width => width > 0)
    .sort((a, b) => b - a)
    .slice(0, 15)
    .map(width => amount(width, line.unit));
  assert.deepEqual(await page.locator(".bars .total").allTextContents(), wanted);
  // A bar leads to its field.
  await page.locator(".bars button").first().click();
  assert.match(await page.evaluate(() => document.activeElement.id || "g-"), /^g-/);

  const swings = given => givens.some(one => one.name === given && one.swing);
  const named = moves.map(([given]) => given).find(swings);
  const name = named ?? (await page.locator("[id^='s-']").first().getAttribute("id")).slice(2);
  const unit = givens.find(given => given.name === name).unit;
  const slider = page.locator(`[id="s-${name}"]`);
  await slider.focus();
  const shades = () =>
    page
      .locator(".card td span")
      .evaluateAll(all => all.map(one => one.style.getPropertyValue("--k") + one.textContent));
  const before = await shades();
  for (let i = 0; i < 5; ++i) await page.keyboard.press("ArrowLeft");
  const value = await page.inputValue(`[id="g-${name}"]`);
  const theirs = ask("price", job, "--set", `${name}=${value} ${unit}`);
  await becomes(page, dollars(theirs.price.per_unit));
  await page.keyboard.press("Tab");
  await rests(page);
  if (before.length > 0) await cardIs(job, page, [`${name}=${value} ${unit}`]);

  // One more change that moves every rate: the card has other figures.
  await type(page, "season_prices.diesel", "9.10");
  await rests(page);
  const after = await shades();
  assert.equal(after.length, before.length);
  if (before.length > 0) assert.notDeepEqual(after, before);
}

async function cardIs(job, page, sets) {
  const axis = async (which, heads) => {
    const given = await page.inputValue(`#card-${which}`);
    const at = await page.locator(heads).allTextContents();
    return `${given}=${at.join("; ").replaceAll(",", "").replaceAll("; ", ",")}`;
  };
  const theirs = ask(
    "rate-card",
    job,
    ...sets.flatMap(set => ["--set", set]),
    "--rows",
    await axis("rows", ".card tbody th"),
    "--columns",
    await axis("columns", ".card thead th"),
    "--date",
    "2027-01-15",
  );
  assert.deepEqual(
    await page.locator(".card td span").allTextContents(),
    theirs.pages[0].rate.map(rate => (rate === null ? "\u2013" : dollars(rate))),
  );
}

// Options side by side, the cheapest, one of them priced and undone, a curve over each of some
// inputs, and where it flips.
export async function estimator({ job, moves }, page) {
  const first = await price(page);
  await goTo(page, "Options");
  const theirs = ask("compare", job);
  const row = theirs.prices.find(prices => prices.name === "price.per_unit");
  assert.deepEqual(
    await page.locator(".choose > li > b").allTextContents(),
    row.values.map(value => amount(value, row.unit)),
  );
  const cheapest = page.locator(".choose .best");
  assert.equal(await cheapest.count(), theirs.columns.length > 1 ? 1 : 0);
  for (const [name, low, high, unit] of moves) {
    await page.selectOption("#over", name);
    await page.click("summary:text('The same as a table')");
    const ends = await page.locator("details tbody tr").first().locator("td").allTextContents();
    const [from] = await page.locator("details tbody th").first().allTextContents();
    const there = ask("price", job, "--set", `${name}=${from}`);
    if (there.price) assert.equal(ends[0].split("/")[0], dollars(there.price.per_unit));
    const label = await page.getAttribute("main figure svg", "aria-label");
    assert.match(label, /The price of each option over/);
  }
  assert.ok((await page.locator(".cautions li").count()) >= ask("price", job).cautions.length);
  if (theirs.columns.length === 1) return;
  const flip = ask("compare", job, "--flip", moves[1][0]).flips;
  await page.selectOption("#flip", moves[1][0]);
  const lines = await page
    .locator(".block:has(#flip) li")
    .allTextContents();
  assert.equal(
    lines.length,
    flip.columns.reduce((sum, one) => sum + (one.meetings.length || (one.never ? 1 : 0)), 0),
  );
  await page.locator('.choose button:text("Price this one")').first().click();
  await becomes(page, dollars(row.values[1]));
  await page.click('#note button:text("Undo last")');
  assert.equal(await price(page), first);
}

// Every cost as the program has it; a figure down to a given with its reason; the difference to
// another season.
export async function bookkeeper({ job }, page) {
  await goTo(page, "Costs");
  const theirs = ask("price", job);
  const charged = theirs.costs.filter(cost => cost.amount !== 0);
  assert.deepEqual(
    await page.locator(".costs tbody tr:not(.group) td .fig").allTextContents(),
    charged.map(cost => cost.amount_text),
  );
  assert.deepEqual(
    await page.locator(".costs tbody tr:not(.group) td:nth-child(2)").allTextContents(),
    charged.map(cost => cost.rate_text),
  );
  for (const cost of theirs.costs.filter(cost => cost.amount === 0))
    assert.ok((await page.textContent(".not-charged")).includes(cost.label || cost.name));
  const line = charged[0].name + ".amount";
  await page.click(`[id='fig-${line}']`);
  for (const summary of await page.locator(".built summary").all()) await summary.click();
  const built = await page.textContent(".built");
  const walk = step => {
    assert.ok(built.includes(step.text), step.name);
    if (step.because) assert.ok(built.includes(step.because), step.name);
    for (const input of step.inputs) walk(input);
  };
  walk(ask("explain", job, line).line);
  await page.selectOption("#against", "season examples/2027-autumn.season");
  const sums = await page.locator(".block:has(#against) .steps .sum b").allTextContents();
  assert.deepEqual(sums, [dollars(theirs.price.per_unit ?? theirs.price.total)]);
  const from = await page.locator(".block:has(#against) .steps .from b").allTextContents();
  const there = ask("price", job, "--season", "2027-autumn");
  assert.deepEqual(from, [dollars(there.price.per_unit ?? there.price.total)]);
  assert.equal(await page.locator("#against-e").count(), 0);
}

export async function risk({ job }, page) {
  await goTo(page, "Risk");
  await page.click("#risk-go");
  await page.waitForSelector("#drives", { timeout: 120000 });
  const theirs = ask("risk", job, "--trials", "20000");
  const loss = percent(theirs.loss);
  assert.equal(await page.locator(".facts dd").first().textContent(), loss);
  const middle = theirs.measured.map(
    one => one.percentiles.find(point => point.share === 0.5).value,
  );
  const table = page.locator("main table").first();
  const shown = await table.locator("tbody td:nth-child(4)").allTextContents();
  assert.equal(shown.length, middle.length);
  assert.ok(shown.some(words => middle.some(value => words.startsWith(dollars(value)))));
}

// A text answers as it is typed, tells its fault in its line, is mended by a press, downloaded,
// undone.
export async function editor({ line }, page) {
  const [is, slip, other] = line;
  const good = await price(page);
  await goTo(page, "Text");
  const text = await page.inputValue("#text");
  await page.fill("#text", text.replace(is, slip));
  await page.waitForSelector("#text-said .told");
  assert.equal(await price(page), good);
  assert.equal(await page.locator("#band.stale").count(), 1);
  assert.match(await page.textContent("#text-said"), /Line \d+/);
  // What is wrong is kept while somebody looks elsewhere.
  await goTo(page, "Price");
  await goTo(page, "Text");
  assert.ok((await page.inputValue("#text")).includes(slip));
  await page.click('#text-said button:text("Mend it")');
  await page.waitForSelector("#band:not(.stale)");
  assert.equal(await price(page), good);
  await page.fill("#text", text.replace(is, other));
  await page.waitForFunction(old => document.getElementById("big").textContent !== old, good);
  const [saved] = await Promise.all([
    page.waitForEvent("download"),
    page.click('button:text("Download this text")'),
  ]);
  assert.equal(readFileSync(await saved.path(), "utf8"), text.replace(is, other));
  await goTo(page, "Price");
  await page.click('#note button:text("Undo last")');
  for (let i = 0; i < 3 && (await price(page)) !== good; ++i)
    await page.click('#note button:text("Undo last")');
  assert.equal(await price(page), good);
}

// A paste past the limit is refused, and nothing of it stays.
export async function pasted(page) {
  await goTo(page, "Text");
  const before = await page.inputValue("#text");
  const good = await price(page);
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.setData("text", "x".repeat(5 << 20));
    document
      .getElementById("text")
      .dispatchEvent(
        new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }),
      );
  });
  assert.match(await page.textContent("#text-said"), /more than the limit of 4,194,304/);
  assert.equal(await page.inputValue("#text"), before);
  assert.equal(await price(page), good);
}
