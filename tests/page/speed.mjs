// Measures the page: node speed.mjs. Prints figures beside their goals; it never fails.
import { statSync } from "node:fs";
import { open, visit } from "./browser.mjs";
import { writePage } from "./support.mjs";

const one = "examples/01-first-price.job";
const largest = "examples/14-old-block-to-rows.job";
const browser = await open();
const say = (what, value, goal) =>
  console.log(`${what.padEnd(52)} ${String(value).padStart(9)}   goal ${goal}`);
const median = list => list.sort((a, b) => a - b)[Math.floor(list.length / 2)];

async function firstPrice(file, slow) {
  const times = [];
  for (let i = 0; i < 5; ++i) {
    const { page, close } = await visit(browser, file, { slow });
    times.push(await page.evaluate(() => performance.getEntriesByName("first price")[0].startTime));
    await close();
  }
  return median(times).toFixed(0);
}

// A change and its price in the band, the drawing by the browser left out.
async function change(file, slow) {
  const { page, close } = await visit(browser, file, { slow });
  const times = await page.evaluate(() => {
    const times = [];
    const given =
      page.givens.find(one => one.name === "area") ??
      page.givens.find(one => one.swing && !one.written);
    for (let i = 0; i < 60; ++i) {
      const began = performance.now();
      change(given, String(given.value + 1 + i / 10));
      times.push(performance.now() - began);
    }
    return times.slice(10);
  });
  await close();
  return median(times).toFixed(1);
}

async function trials(file) {
  const { page, close } = await visit(browser, file);
  await page.click('#places button:text-is("Risk")');
  await page.click("#risk-go");
  await page.waitForSelector(".facts", { timeout: 120000 });
  const took = await page.evaluate(() => risk.took);
  await close();
  return took.toFixed(0);
}

const first = writePage("speed-one.html", one);
const large = writePage("speed-large.html", largest);
say("file, MB", (statSync(first).size / 1e6).toFixed(2), "2");
say("opened to first price, ms", await firstPrice(first, 1), "700");
say("the same, processor slowed four times, ms", await firstPrice(first, 4), "2,500");
say("change to price, job 01, ms", await change(first, 1), "8");
say("the same, processor slowed four times, ms", await change(first, 4), "40");
say("change to price, largest example, ms", await change(large, 1), "30");
say("20,000 trials in a worker, with its start, ms", await trials(first), "1,000");
await browser.close();
