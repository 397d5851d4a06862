// The module's answers are the program's: the same words and cents, numbers within 1e-12.
import assert from "node:assert/strict";
import { readdirSync } from "node:fs";
import { test } from "node:test";
import { ask, differences, engineOf, numbers, root, writePage } from "./support.mjs";

const jobs = readdirSync(root + "examples")
  .filter(name => name.endsWith(".job"))
  .map(name => "examples/" + name);
const one = "examples/01-first-price.job";
const three = "examples/03-rows-or-field.job";

const same = (ours, theirs, share) =>
  assert.deepEqual(differences(ours, theirs, share).slice(0, 5), []);

for (const job of jobs)
  test(`${job}: price, slopes and reasons`, async () => {
    const { question } = await engineOf(writePage("same.html", job));
    same(question({ ask: "price", lines: true }), ask("price", job));
    same(question({ ask: "explain" }), ask("explain", job));
    same(question({ ask: "sensitivity" }), ask("sensitivity", job));
  });

// Each option of a mapped job is laid out for itself.
test("every option of every job costs what the program says", async () => {
  for (const job of jobs) {
    const { question } = await engineOf(writePage("options.html", job));
    same(question({ ask: "compare" }), ask("compare", job), 1e-9);
  }
});

test("options, curves, rates, differences and risk", async () => {
  const { question } = await engineOf(writePage("several.html", three, one));
  const over = { given: "run", from: 300, to: 2600, count: 241 };
  same(
    question({ ask: "compare", flip: "row_width", over }),
    ask("compare", three, "--flip", "row_width", "--over", "run 300 ft..2,600 ft"),
    1e-9,
  );
  same(
    question({ ask: "grid", job: 1, along: [{ given: "depth", from: 4, to: 6, count: 5 }] }),
    ask("grid", one, "--along", "depth=4 ft..6 ft by 0.5 ft"),
  );
  const card = ask(
    "rate-card",
    one,
    "--rows",
    "depth=4 ft,5 ft,6 ft",
    "--columns",
    "spacing=6 ft,7 ft",
    "--date",
    "2027-01-15",
  );
  same(
    {
      ...question({
        ask: "rate-card",
        job: 1,
        rows: { given: "depth", at: [4, 5, 6] },
        columns: { given: "spacing", at: [6, 7] },
      }),
      date: card.date,
    },
    card,
  );
  const bridge = ask("bridge", one, three);
  const ours = question({ ask: "bridge", job: 1, called: one, to: { job: 0, called: three } });
  same(ours, bridge);
  const risk = question({ ask: "risk", job: 1, trials: 4096, seed: 1 });
  const trials = ask("risk", one, "--trials", "4096", "--seed", "1");
  // What lies on the very edge of a bar falls to one side or the other by its last digit.
  for (const [i, { bars }] of risk.measured.entries()) {
    const theirs = trials.measured[i].bars;
    let below = 0;
    for (const [k, count] of bars.counts.entries()) {
      below += count - theirs.counts[k];
      assert.ok(Math.abs(below) <= 4096 / 100, `${below} trials of bar ${k}`);
    }
    assert.equal(below, 0);
    bars.counts = theirs.counts;
  }
  same(risk, trials, 1e-9);
  same(question({ ask: "check", name: one }), ask("check", one));
});

// A moved given is read from the kept plan, without a text: it must be as if it had been set.
test("two hundred changes give the program's price to the cent", async () => {
  const files = [one, three, "examples/14-old-block-to-rows.job"];
  const { question } = await engineOf(writePage("moved.html", ...files));
  const random = numbers(17);
  for (let change = 0; change < 200; ++change) {
    const job = change % files.length;
    const givens = question({ ask: "givens", job }).givens.filter(
      given => given.written === "" && (given.swing || given.options.length > 0),
    );
    const sets = Array.from({ length: 1 + (change % 3) }, () => {
      const given = givens[Math.floor(random() * givens.length)];
      if (given.options.length > 0)
        return [given.name, given.options[Math.floor(random() * given.options.length)].name];
      const value = Number(
        (given.swing.low + random() * (given.swing.high - given.swing.low)).toPrecision(5),
      );
      return [
        given.name,
        given.unit.startsWith("$")
          ? `$${value}${given.unit.slice(1)}`
          : `${value}${given.unit === "1" ? "" : " " + given.unit}`,
      ];
    });
    const unlike = sets.filter(([name], i) => sets.findIndex(set => set[0] === name) === i);
    const ours = question({ ask: "price", job, sets: unlike });
    const theirs = ask(
      "price",
      files[job],
      ...unlike.flatMap(([name, value]) => ["--set", `${name}=${value}`]),
    );
    assert.equal(ours.schema, theirs.schema, JSON.stringify(unlike));
    if (theirs.price === undefined) same(ours.title, theirs.title);
    else {
      same(ours.price, theirs.price);
      same(ours.costs, theirs.costs);
      same(ours.cautions, theirs.cautions);
    }
  }
});

test("bad questions are answered, not broken", async () => {
  const { question } = await engineOf(writePage("bad.html", one));
  for (const bad of [
    null,
    7,
    [],
    {},
    { ask: "no such" },
    { ask: "price", job: 99 },
    { ask: "price", sets: [["depth", "deep"]] },
    { ask: "price", sets: "no list" },
    { ask: "price", option: "none" },
    { ask: "price", season: "none" },
    { ask: "grid", along: [{ given: 5 }] },
    { ask: "rate-card" },
    { ask: "risk", trials: 1 },
    { ask: "text", name: "no such", text: "" },
    { ask: "texts", texts: 5 },
    { ask: "explain", line: "no such" },
    { ask: "compare", over: { given: "no such" } },
    { ask: "bridge", to: { job: 5 } },
  ])
    assert.equal(question(bad).schema, "acrewright.failure/1", JSON.stringify(bad));
  assert.equal(question({ ask: "price" }).price.total_cents, ask("price", one).price.total_cents);
});

test("a text that is changed answers, and one that is wrong says where", async () => {
  const { question, texts } = await engineOf(writePage("text.html", one));
  const text = texts.texts[one];
  question({ ask: "text", name: one, text: text.replace("118 ac", "59 ac") });
  assert.equal(question({ ask: "price" }).price.quantity, 59);
  question({ ask: "text", name: one, text: text.replace("118 ac", "118 ft") });
  const said = question({ ask: "check", name: one }).files[0].diagnostics;
  assert.equal(said[0].severity, "error");
  assert.equal(said[0].path, one);
  assert.equal(text.split("\n")[said[0].start.line - 1].startsWith("set area"), true);
});
