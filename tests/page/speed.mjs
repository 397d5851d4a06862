// Measures the page: node speed.mjs. Prints the least and the median of several runs beside the
// goal, and how busy the machine was; it never fails.
import { loadavg } from "node:os";
import { statSync } from "node:fs";
import { open, visit } from "./browser.mjs";
import { writePage } from "./support.mjs";

const one = "examples/01-first-price.job";
const largest = "examples/14-old-block-to-rows.job";
const browser = await open();
const say = (what, value, goal) =>
  console.log(`${what.padEnd(52)} ${String(value).padStart(9)}   goal ${goal}`);
function both(list, digits = 0) {
  const sorted = list.sort((a, b) => a - b);
  return `${sorted[0].toFixed(digits)} (${sorted[Math.floor(sorted.length / 2)].toFixed(digits)})`;
}
async function often(times, file, options, measure) {
  const list = [];
  for (let i = 0; i < times; ++i) {
    const { page, close } = await visit(browser, file, options);
    list.push(await measure(page));
    await close();
  }
  return list;
}

const firstPrice = page =>
  page.evaluate(() => performance.getEntriesByName("first price")[0].startTime);

// A change and its price in the band, and the slopes and swings of the bars, the drawing by the
// browser left out.
const change = (page, slopes) =>
  page.evaluate(slopes => {
    const times = [];
    const given =
      page.givens.find(one => one.name === "area") ??
      page.givens.find(one => one.swing && !one.written);
    for (let i = 0; i < 60; ++i) {
      const began = performance.now();
      change(given, String(given.value + 1 + i / 10));
      if (slopes) page.ask(asked("sensitivity", { deep: false }));
      times.push(performance.now() - began);
    }
    return times.slice(10).sort((a, b) => a - b)[25];
  }, slopes);

async function trials(page) {
  await page.click('#places button:text-is("Risk")');
  await page.click("#risk-go");
  await page.waitForSelector(".facts", { timeout: 120000 });
  return page.evaluate(() => risk.took);
}

const first = writePage("speed-one.html", one);
const large = writePage("speed-large.html", largest);
console.log(`load ${loadavg()[0].toFixed(1)}; least (median), ms`);
say("file, MB", (statSync(first).size / 1e6).toFixed(2), "2");
say("opened to first price", both(await often(8, first, {}, firstPrice)), "700");
const firstSlowed = both(await often(4, first, { slow: 4 }, firstPrice));
say("the same, processor slowed four times", firstSlowed, "2,500");
for (const [what, file, goal] of [
  ["job 01", first, "8"],
  ["the largest example", large, "30"],
]) {
  const price = await often(5, file, {}, page => change(page, false));
  say(`change to price, ${what}`, both(price, 1), goal);
  const slopes = await often(5, file, {}, page => change(page, true));
  say(`with slopes and swings, ${what}`, both(slopes, 1), goal);
}
const slowed = await often(3, first, { slow: 4 }, page => change(page, true));
say("the same, job 01, processor slowed four times", both(slowed, 1), "40");
say("20,000 trials in a worker, with its start", both(await often(4, first, {}, trials)), "1,000");
console.log(`load ${loadavg()[0].toFixed(1)}`);
await browser.close();
