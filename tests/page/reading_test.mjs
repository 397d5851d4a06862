// The page as it is read in other ways: text at twice its size, colors forced by the system, with
// the keyboard alone, by a screen reader.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { axeFinds, clean, goTo, missing, noSidewaysScroll, open, type, visit } from "./browser.mjs";
import { writePage } from "./support.mjs";

const three = "examples/03-rows-or-field.job";
const map = "examples/16-from-a-map.job";
const places = ["Price", "Options", "Costs", "Risk", "Text"];
const suite = { skip: missing };
let browser;
before(async () => {
  if (!missing) browser = await open();
});
after(() => browser?.close());

// Words that lie over each other, or outside the box that should hold them.
const cutWords = page =>
  page.evaluate(() => {
    const cut = [];
    const read = "button, label, h1, h2, h3, dt, dd, #big, .btn";
    for (const element of document.querySelectorAll(read)) {
      const box = element.getBoundingClientRect();
      if (box.width === 0 || element.closest(".scroll, .hidden")) continue;
      if (box.right > innerWidth + 1 || box.left < -1) cut.push(element.textContent.slice(0, 40));
    }
    return cut;
  });

for (const [job, width] of [
  [three, 320],
  [three, 390],
  [map, 390],
  [three, 1440],
])
  test(`${job} at ${width} px with text at twice its size`, suite, async () => {
    const visited = await visit(browser, writePage("large.html", job), { width });
    const { page } = visited;
    if (width > 320) await page.evaluate(() => (document.documentElement.style.fontSize = "200%"));
    await type(page, "area", "33");
    await page.click('#note button:text("1 change")');
    for (const place of places) {
      await goTo(page, place);
      await noSidewaysScroll(page);
      assert.deepEqual(await cutWords(page), [], place);
    }
    // The price in sight must leave more room than it takes.
    const taken = await page.evaluate(
      () => byId("band").offsetHeight + (innerWidth < 900 ? byId("places").offsetHeight : 0),
    );
    assert.ok(taken < 422, `${taken} px of 844 are taken`);
    clean(visited);
    await visited.close();
  });

for (const scheme of ["light", "dark"])
  test(`forced colors, ${scheme}: what is pressed, chosen and wrong is still told apart`, suite, async () => {
    const visited = await visit(browser, writePage("forced.html", three), {
      width: 1440,
      scheme,
      forcedColors: "active",
    });
    const { page } = visited;
    for (const place of places) {
      await goTo(page, place);
      assert.deepEqual(await axeFinds(page), [], place);
    }
    await goTo(page, "Price");
    const looks = selector =>
      page.locator(selector).first().evaluate(element => {
        const style = getComputedStyle(element);
        return [
          style.backgroundColor,
          style.color,
          style.borderStyle,
          style.borderBottomColor,
        ].join();
      });
    await page.fill("#find", "rip pattern");
    assert.notEqual(
      await looks('.pick button[aria-pressed="true"]'),
      await looks('.pick button[aria-pressed="false"]'),
    );
    const others = await looks("#places :not([aria-current])");
    assert.notEqual(await looks("#places [aria-current]"), others);
    assert.notEqual(await looks(".bars .hi"), await looks(".bars .lo"));
    await page.fill("#find", "");
    await type(page, "area", "6 gal");
    assert.match(await page.textContent(".given.wrong .told"), /\S/);
    await visited.close();
  });

for (const width of [390, 1440])
  test(`at ${width} px the price stays in sight however far one reads`, suite, async () => {
    const visited = await visit(browser, writePage("far.html", three), { width });
    const { page } = visited;
    for (const place of places.slice(0, 3)) {
      await goTo(page, place);
      await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight / 2));
      await page.waitForFunction(() => scrollY > 300);
      const top = await page.evaluate(() => byId("band").getBoundingClientRect().top);
      assert.ok(Math.abs(top) < 1, `${place}: ${top}`);
    }
    await visited.close();
  });

// What a screen reader is told of each control, in the order of the page.
async function controls(page) {
  const client = await page.context().newCDPSession(page);
  const { nodes } = await client.send("Accessibility.getFullAXTree");
  await client.detach();
  const roles = ["button", "textbox", "searchbox", "slider", "combobox", "link", "spinbutton"];
  return nodes
    .filter(node => !node.ignored && roles.includes(node.role?.value))
    .map(node => ({ role: node.role.value, name: node.name?.value ?? "" }));
}

for (const width of [390, 1440])
  test(`at ${width} px every control has a name of its own, and headings come in order`, suite, async () => {
    const visited = await visit(browser, writePage("names.html", three), { width });
    const { page } = visited;
    for (const place of places) {
      await goTo(page, place);
      const all = await controls(page);
      assert.ok(all.length > 5, place);
      assert.deepEqual(
        all.filter(one => one.name.trim() === ""),
        [],
        place,
      );
      const fields = all.filter(one => !["button", "link"].includes(one.role));
      const names = fields.map(one => one.role + " " + one.name);
      assert.deepEqual(
        names.filter((name, i) => names.indexOf(name) !== i),
        [],
        place,
      );
      const levels = await page.evaluate(() =>
        [...document.querySelectorAll("h1, h2, h3")]
          .filter(heading => heading.getClientRects().length > 0)
          .map(heading => Number(heading.localName[1])),
      );
      assert.equal(levels[0], 1, place);
      assert.equal(levels.filter(level => level === 1).length, 1, place);
      levels.reduce((before, level) => {
        assert.ok(level <= before + 1, `${place}: h${before} then h${level}`);
        return level;
      });
    }
    await visited.close();
  });

test("what is read first: title, places, price, then the place", suite, async () => {
  const visited = await visit(browser, writePage("order.html", three));
  const tree = await visited.page.locator("body").ariaSnapshot();
  const at = words => {
    const place = tree.indexOf(words);
    assert.ok(place >= 0, words);
    return place;
  };
  const order = [
    at('link "Skip to the content"'),
    at("heading"),
    at('navigation "Places"'),
    at('region "Price in sight"'),
    at("- main"),
    at('heading "Inputs"'),
    at('heading "What moves the price"'),
    at('heading "Rate card"'),
    at('heading "Cautions"'),
  ];
  assert.deepEqual(
    order,
    [...order].sort((a, b) => a - b),
  );
  await visited.close();
});

test("a selected figure stays so while the page follows: what is typed replaces it", suite, async () => {
  const visited = await visit(browser, writePage("selected.html", three));
  const { page } = visited;
  await type(page, "area", "33");
  await page.locator("[id='g-spacing']").selectText();
  await page.waitForFunction(() => page.price === page.full);
  await page.keyboard.type("6");
  assert.equal(await page.inputValue("[id='g-spacing']"), "6");
  // A caret stays where it is.
  await type(page, "area", "34");
  await page.locator("[id='g-area']").evaluate(field => field.setSelectionRange(1, 1));
  await page.waitForFunction(() => page.price === page.full);
  await page.keyboard.type("5");
  assert.equal(await page.inputValue("[id='g-area']"), "354");
  await visited.close();
});

test("the keyboard alone: skip, places, a figure typed, its change undone; focus is seen", suite, async () => {
  const visited = await visit(browser, writePage("keys.html", three));
  const { page } = visited;
  const focused = () =>
    page.evaluate(() => {
      const { activeElement } = document;
      const box = activeElement.getBoundingClientRect();
      const middle = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
      return {
        words: activeElement.textContent.trim() || activeElement.id,
        id: activeElement.id,
        seen: activeElement.contains(middle) || (middle?.contains(activeElement) ?? false),
        ring:
          getComputedStyle(activeElement).outlineStyle !== "none" ||
          activeElement.closest(".field:focus-within") !== null,
      };
    });
  await page.keyboard.press("Tab");
  assert.equal((await focused()).words, "Skip to the content");
  for (const place of places) {
    await page.keyboard.press("Tab");
    assert.equal((await focused()).words, place);
  }
  // Through the whole place: what has the focus is in sight, with a ring, and none is met twice.
  const met = [];
  for (let i = 0; i < 120; ++i) {
    await page.keyboard.press("Tab");
    const now = await focused();
    if (now.words === "Skip to the content" || now.id === "" && now.words.length > 2000) break;
    assert.ok(now.seen, `${now.words} lies under something`);
    assert.ok(now.ring, `${now.words} shows no focus`);
    if (now.id) met.push(now.id);
  }
  assert.equal(new Set(met).size, met.length);
  assert.ok(met.includes("find") && met.includes("g-area"));
  await page.focus("[id='g-area']");
  await page.keyboard.press("Control+a");
  await page.keyboard.type("33");
  await page.keyboard.press("Enter");
  await page.waitForSelector('#note button:text("1 change")');
  await page.waitForFunction(() => byId("announce").textContent !== "");
  await page.evaluate(() => document.activeElement.blur());
  await page.keyboard.press("Control+z");
  assert.equal(await page.locator('#note button:text("1 change")').count(), 0);
  clean(visited);
  await visited.close();
});

test("a slider says its value and its price, and arrows move it", suite, async () => {
  const visited = await visit(browser, writePage("slide.html", three));
  const { page } = visited;
  const slider = page.locator("[id='s-depth']");
  await slider.focus();
  await page.keyboard.press("ArrowRight");
  await page.keyboard.press("ArrowRight");
  assert.match(await slider.getAttribute("aria-valuetext"), /^6\.\d+ ft: \$[\d,.]+\/ac$/);
  assert.equal(
    await page.textContent("#big").then(words => words.split("/")[0]),
    (await slider.getAttribute("aria-valuetext")).match(/\$[\d,.]+/)[0],
  );
  await visited.close();
});
