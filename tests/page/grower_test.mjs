// The page to hand over: nothing of it tells a wage, a cost, a margin or a reason. Every given that
// the grower is not shown gets a value whose digits occur nowhere else, every reason a word.
import assert from "node:assert/strict";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, test } from "node:test";
import { axeFinds, missing, noSidewaysScroll, open } from "./browser.mjs";
import { ask, engineOf, folder, root, writePage } from "./support.mjs";

let browser;
before(async () => {
  if (!missing) browser = await open();
});
after(() => browser?.close());

// In a copy of the firm's folders: other tests read the examples at the same time.
const firm = join(folder, "firm");
for (const name of ["models", "examples"])
  cpSync(join(root, name), join(firm, name), { recursive: true });

async function withSentinels(job, work) {
  const { question, texts } = await engineOf(writePage("for-givens.html", job));
  const shown = new Set(
    Object.values(texts.texts)
      .flatMap(text => [...text.matchAll(/^show (.*(?:\n {4}.*)*)/gm)])
      .flatMap(([, names]) => names.split(/[,\s]+/).map(name => name.split(".").at(-1))),
  );
  const before = readFileSync(join(root, job), "utf8");
  const text = before.replace(/because "[^"]*"/g, 'because "SENTINEL"');
  const set = new Set([...text.matchAll(/^\s*set (\S+)/gm)].map(([, name]) => name));
  const secrets = [];
  // The contract names the diesel price that it rests on: another one than the season's here.
  let lines = shown.has("fuel_base") ? 'set fuel_base = $4.11/gal because "SENTINEL"\n' : "";
  for (const given of question({ ask: "givens" }).givens) {
    const money = given.unit.startsWith("$");
    const secret = money || given.unit === "%";
    if (!secret || given.written !== "" || given.value === null || set.has(given.name)) continue;
    if (shown.has(given.name.split(".").at(-1))) continue;
    const value = `${Math.trunc(given.value)}.${String(7301 + 13 * secrets.length).slice(0, 4)}7`;
    const typed = money ? `$${value}${given.unit.slice(1)}` : `${value} %`;
    const sets = [...secrets.map(one => [one.name, one.typed]), [given.name, typed]];
    if (question({ ask: "price", sets }).price === undefined) continue; // outside its range
    secrets.push({ name: given.name, typed, value });
    lines += `set ${given.name} = ${typed} because "SENTINEL"\n`;
  }
  const file = join(firm, "examples", `sentinel-${basename(job)}`);
  // Before its options and entries, which have values of their own.
  const at = text.search(/^(option|block|leg|machine|layer)\b/m);
  const whole = at < 0 ? text + "\n" + lines : text.slice(0, at) + lines + text.slice(at);
  writeFileSync(file, whole);
  await work(file, secrets);
}

for (const job of [
  "examples/01-first-price.job",
  "examples/03-rows-or-field.job",
  "examples/12-level.job",
  "examples/16-from-a-map.job",
])
  test(`${job}: no wage, cost, margin or reason in its bytes`, async () => {
    await withSentinels(job, async (file, secrets) => {
      assert.ok(secrets.length > 40, `${secrets.length} sentinels`);
      const theirs = ask("price", file);
      const grower = writePage("grower.html", file, "--for-grower");
      const html = readFileSync(grower, "utf8");
      const money = theirs.earnings ?? {};
      // The firm's own page has what the grower's must not have.
      const own = readFileSync(writePage("own.html", file), "utf8");
      for (const secret of ["SENTINEL", ...secrets.map(one => one.value)])
        assert.ok(own.includes(secret), secret);
      for (const secret of [
        "SENTINEL",
        "season_prices",
        "<script",
        "WebAssembly",
        "base64",
        theirs.cost.total_text,
        ...secrets.flatMap(one => [one.name, one.value]),
        ...theirs.costs.filter(cost => cost.amount !== 0).map(cost => cost.amount_text),
        ...theirs.costs.map(cost => cost.name + "."),
        ...Object.values(money)
          .filter(value => typeof value === "number" && Math.abs(value) > 1)
          .map(value => value.toFixed(2)),
      ])
        assert.ok(!html.includes(secret), secret);
      // Nothing is packed in it that could be unpacked.
      assert.equal(html.match(/[A-Za-z0-9+/]{120,}/), null);
      assert.equal(html.match(/data:|href=|src=|<!--/), null);
      assert.ok(html.includes(theirs.price.total_text));
      for (const item of theirs.price.items) assert.ok(html.includes(item.title), item.title);
      const options = ask("compare", file);
      for (const [i, column] of options.columns.entries())
        if (i > 0) assert.ok(html.includes(column.name.replaceAll("&", "&amp;")), column.name);
      if (missing) return;
      for (const [width, scheme] of [
        [390, "light"],
        [1440, "dark"],
      ]) {
        const context = await browser.newContext({
          viewport: { width, height: 844 },
          colorScheme: scheme,
        });
        const page = await context.newPage();
        await page.goto("file://" + grower);
        assert.deepEqual(await axeFinds(page), []);
        await noSidewaysScroll(page);
        await context.close();
      }
    });
  });
