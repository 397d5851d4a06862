// What a browser lets a page do: its own scripts alone, no network, no foreign module; and what a
// page says where it cannot work.
import assert from "node:assert/strict";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { missing, open, visit } from "./browser.mjs";
import { ask, engineScript, folder, writePage } from "./support.mjs";

const one = "examples/01-first-price.job";
const map = "examples/16-from-a-map.job";
const suite = { skip: missing };
let browser;
before(async () => {
  if (!missing) browser = await open();
});
after(() => browser?.close());

const policyOf = html => html.match(/http-equiv="Content-Security-Policy" content="([^"]*)"/)[1];
const altered = (file, name, change) => {
  const path = join(folder, name);
  const html = readFileSync(file, "utf8");
  const other = change(html);
  assert.notEqual(other, html);
  writeFileSync(path, other);
  return path;
};

test("the policy names each script and style by its hash, and nothing beyond", () => {
  for (const job of [one, map]) {
    const policy = policyOf(readFileSync(writePage("policy.html", job), "utf8"));
    assert.doesNotMatch(policy, /unsafe-inline|'unsafe-eval'|https?:|data:|\*/);
    for (const part of ["default-src 'none'", "base-uri 'none'", "form-action 'none'"])
      assert.ok(policy.includes(part), part);
    assert.equal(policy.match(/script-src ([^;]*)/)[1].match(/'sha256-/g).length, 2);
  }
});

// A script that stands in the file and is not the page's own, as a mail gateway or a thief would
// put it there.
test("a script that was added, or altered, does not run", suite, async () => {
  const file = writePage("alter.html", one);
  const added = altered(file, "added.html", html =>
    html.replace(
      "</body>",
      '<script>window.evil = 1</script><p onclick="window.evil = 1" id="bait">x</p></body>',
    ),
  );
  const visited = await visit(browser, added);
  await visited.page.evaluate(() => byId("bait").click());
  assert.equal(await visited.page.evaluate(() => window.evil), undefined);
  assert.ok(visited.wrong.some(words => words.includes("Content Security Policy")));
  assert.deepEqual(visited.asked, []);
  await visited.close();
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(
    "file://" +
      altered(file, "altered.html", html => html.replace('"use strict";', "window.evil = 1;")),
  );
  await page.waitForTimeout(500);
  assert.equal(await page.evaluate(() => window.evil), undefined);
  assert.ok(
    (await page.textContent("#written")).includes(ask("price", one).price.total_text),
    "the price as written is still read",
  );
  await context.close();
});

test("nothing can be fetched or sent, whatever a script tries", suite, async () => {
  const visited = await visit(browser, writePage("fetch.html", one));
  const tried = await visited.page.evaluate(async () => {
    const told = [];
    document.addEventListener("securitypolicyviolation", event =>
      told.push(event.effectiveDirective),
    );
    const failed = await Promise.all([
      fetch("https://example.invalid/x").then(
        () => "came",
        () => "refused",
      ),
      new Promise(done => {
        const image = new Image();
        image.onload = () => done("came");
        image.onerror = () => done("refused");
        image.src = "https://example.invalid/x.png";
      }),
    ]);
    const frame = document.createElement("iframe");
    frame.src = "https://example.invalid/";
    document.body.append(frame);
    await new Promise(done => setTimeout(done, 200));
    return { failed, told };
  });
  assert.deepEqual(tried.failed, ["refused", "refused"]);
  assert.deepEqual([...new Set(tried.told)].sort(), ["connect-src", "frame-src", "img-src"]);
  await visited.close();
});

for (const [what, words, spoil] of [
  ["WebAssembly", /no WebAssembly/, () => delete globalThis.WebAssembly],
  ["unpacking", /cannot unpack/, () => delete globalThis.DecompressionStream],
])
  test(`a browser without ${what} is told so, and reads the price as written`, suite, async () => {
    const context = await browser.newContext();
    await context.addInitScript(spoil);
    const page = await context.newPage();
    await page.goto("file://" + writePage("old.html", one));
    await page.waitForSelector("#cannot .told");
    assert.match(await page.textContent("#cannot"), words);
    assert.ok((await page.textContent("#written")).includes(ask("price", one).price.total_text));
    await context.close();
  });

// A module that imports page.passed and one that no page has: (import "env" "clock" (func)).
const moduleAsking = (from, name) => {
  const text = words => [words.length, ...Buffer.from(words)];
  const body = [1, ...text(from), ...text(name), 0, 0];
  return new WebAssembly.Module(
    Uint8Array.from([0, 97, 115, 109, 1, 0, 0, 0, 1, 4, 1, 96, 0, 0, 2, body.length, ...body]),
  );
};

test("a module that asks for what no page gives does not start", async () => {
  const start = engineScript(writePage("imports.html", one));
  await assert.rejects(start(moduleAsking("env", "clock")), {
    message: "the engine asks for what a page does not give: env.clock",
  });
  await assert.rejects(start(moduleAsking("page", "constructor")), /page\.constructor/);
  await assert.rejects(start(moduleAsking("wasi_snapshot_preview1", "fd_write")), /fd_write/);
});

test("a module whose bytes are damaged is told, and the price as written stays", suite, async () => {
  const file = altered(writePage("damaged.html", one), "damaged-module.html", html =>
    html.replace(/(id="module">.{4000}).{40}/, "$1" + "A".repeat(40)),
  );
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto("file://" + file);
  await page.waitForSelector("#cannot .told");
  assert.ok((await page.textContent("#written")).includes(ask("price", one).price.total_text));
  await context.close();
});
