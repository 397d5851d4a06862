// A browser without a network, and what is looked for in every place of a page.
import { createRequire } from "node:module";
import { existsSync, readFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import assert from "node:assert/strict";

const require = createRequire(import.meta.url);
const browserFile = ["chromium-headless-shell", "chromium", "chromium-browser"]
  .map(name => `/usr/bin/${name}`)
  .find(existsSync);
export const missing = browserFile
  ? false
  : "no browser is installed (Debian: apt-get install chromium-headless-shell)";

export async function open() {
  const { chromium } = require("playwright-core");
  // Compiling each page's engine a second time, to run faster, takes longer than what is asked here.
  const args = ["--no-sandbox", "--js-flags=--liftoff-only"];
  return chromium.launch({ executablePath: browserFile, args });
}

// A page of its own; `asked` are the addresses it asked for besides itself, `wrong` what it said.
export async function visit(
  browser,
  file,
  { width = 390, scheme = "light", script = true, hash = "", slow = 1, forcedColors } = {},
) {
  const context = await browser.newContext({
    viewport: { width, height: 844 },
    colorScheme: scheme,
    forcedColors,
    javaScriptEnabled: script,
  });
  context.setDefaultTimeout(120000); // of a busy machine; what comes is not waited for any longer
  const page = await context.newPage();
  const asked = [];
  const wrong = [];
  const address = pathToFileURL(file).href;
  page.on("request", request => {
    if (!request.url().startsWith(address) && !request.url().startsWith("blob:"))
      asked.push(request.url());
  });
  page.on("pageerror", error => wrong.push(String(error)));
  page.on("console", message => {
    if (message.type() === "error") wrong.push(message.text());
  });
  if (slow > 1)
    await (
      await context.newCDPSession(page)
    ).send("Emulation.setCPUThrottlingRate", { rate: slow });
  await page.goto(address + hash);
  if (script) await page.waitForSelector("body[data-ready=all]");
  return { page, asked, wrong, close: () => context.close() };
}

export const goTo = (page, place) => page.click(`#places button:text-is("${place}")`);
export const price = page => page.textContent("#big");
export async function type(page, name, value) {
  await page.fill(`[id="g-${name}"]`, value);
  await page.press(`[id="g-${name}"]`, "Enter");
}

const axe = readFileSync(require.resolve("axe-core/axe.min.js"), "utf8");
export async function axeFinds(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() =>
    axe.run(document, { resultTypes: ["violations"] }),
  );
  return violations
    .filter(one => ["serious", "critical"].includes(one.impact))
    .map(
      one =>
        `${one.id}: ${one.nodes
          .slice(0, 3)
          .map(node => node.target.join(" "))
          .join("; ")}`,
    );
}
export async function noSidewaysScroll(page) {
  const wide = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  assert.ok(wide <= 0, `${wide} px too wide`);
}

export const dollars = value =>
  value.toLocaleString("en-US", { style: "currency", currency: "USD" });
export const percent = share =>
  (100 * share).toLocaleString("en-US", { maximumFractionDigits: 2 }) + " %";
export const clean = ({ asked, wrong }) => {
  assert.deepEqual(asked, []);
  assert.deepEqual(wrong, []);
};
