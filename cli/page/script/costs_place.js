// The bookkeeper's place: rate times quantity, how every figure was built, from cost to price, and
// the difference to another season or job.

let built = ""; // the line that is open
let everyCost = false; // also those that come to nothing
let against = ""; // "season NAME" or "job N"

places.push({
  name: "costs",
  title: "Costs",
  show: main => {
    main.replaceChildren(
      make(
        "div",
        { class: "wrap" },
        make(
          "div",
          { class: "cols left" },
          make(
            "div",
            { class: "block" },
            make("h2", {}, "Costs"),
            make("p", { class: "because" }, "Touch a figure to see how it was built."),
            costTable(page.full),
            nothingFor(page.full),
          ),
          make("div", {}, ...costToPrice(page.full), difference()),
        ),
      ),
    );
  },
});

const figure = (line, words) =>
  make(
    "button",
    {
      type: "button",
      class: "fig",
      id: "fig-" + line,
      "aria-expanded": String(built === line),
      onclick: () => {
        built = built === line ? "" : line;
        showPlace();
      },
    },
    words,
  );

function costTable(answer) {
  const bodies = new Map();
  for (const cost of answer.costs.filter(cost => everyCost || cost.amount !== 0)) {
    if (!bodies.has(cost.part)) bodies.set(cost.part, []);
    bodies.get(cost.part).push(cost);
  }
  const wide = answer.price.unit ? 5 : 4;
  const shown = cost => {
    const line = cost.name + ".amount";
    const open = built === line;
    const cells = [
      make("th", { scope: "row" }, cost.label || cost.name),
      cell(cost.rate_text, { class: "num crate" }),
      cell(cost.quantity_text, { class: "num crate" }),
      cell(figure(line, cost.amount_text)),
      wide === 5 && cell(money(cost.per_unit), { class: "num cper" }),
    ].filter(Boolean);
    return [
      make("tr", { class: open ? "open" : "" }, ...cells),
      open &&
        make(
          "tr",
          { class: "open" },
          make("td", { class: "built", colspan: wide }, howBuilt(line)),
        ),
    ].filter(Boolean);
  };
  return table(
    { class: "costs" },
    "Costs, each a rate times a quantity",
    [
      head("", {}),
      head("Rate", { class: "num crate" }),
      head("Times", { class: "num crate" }),
      head("Amount", { class: "num" }),
      wide === 5 && head("Per " + answer.price.unit, { class: "num cper" }),
    ].filter(Boolean),
    ...[...bodies].map(([part, costs]) =>
      make(
        "tbody",
        {},
        make("tr", { class: "group" }, make("th", { scope: "rowgroup", colspan: wide }, part)),
        ...costs.flatMap(shown),
      ),
    ),
    make(
      "tfoot",
      {},
      row(
        "All costs",
        cell("", { class: "crate" }),
        cell("", { class: "crate" }),
        cell(figure("cost.total", answer.cost.total_text)),
        wide === 5 && cell("", { class: "cper" }),
      ),
      built === "cost.total" &&
        make(
          "tr",
          { class: "open" },
          make("td", { class: "built", colspan: wide }, howBuilt("cost.total")),
        ),
    ),
  );
}

// What this job has none of, in words; their rows are a press away.
function nothingFor(answer) {
  const none = answer.costs.filter(cost => cost.amount === 0).map(called);
  if (none.length === 0) return "";
  const press = link(everyCost ? "Hide them" : "Show their rows", () => {
    everyCost = !everyCost;
    showPlace();
  });
  press.id = "every-cost";
  return make("p", { class: "meta not-charged" }, `Not charged: ${none.join(", ")}. `, press);
}

function howBuilt(line) {
  const answer = page.ask(asked("explain", { line, depth: 24 }));
  return failed(answer)
    ? told(answer, "built-e")
    : make("div", { class: "tree" }, make("ul", {}, step(answer.line, 0)));
}

// One line of the tree; deeper ones are shut until they are asked for.
function step(line, depth) {
  const source = [
    line.set_by && `set by the ${line.set_by}`,
    line.place,
    line.because && `\u201c${line.because}\u201d`,
  ]
    .filter(Boolean)
    .join(", ");
  const inputs =
    line.inputs.length > 0 && make("ul", {}, ...line.inputs.map(input => step(input, depth + 1)));
  const formula =
    line.written &&
    `= ${line.written}` +
    (line.with_numbers && line.with_numbers !== line.written ? ` = ${line.with_numbers}` : "");
  return make(
    "li",
    {},
    make(
      "div",
      { class: "leader" },
      make("span", {}, line.label || line.name),
      make("i"),
      make("b", {}, line.text),
    ),
    formula && make("p", { class: "how" }, formula),
    source && make("p", { class: "because" }, source),
    ...line.sources.map(words => make("p", { class: "meta" }, words)),
    line.shown_above && make("p", { class: "meta" }, "shown above"),
    inputs &&
      (depth < 1
        ? inputs
        : make(
            "details",
            {},
            make(
              "summary",
              {},
              line.inputs.length === 1 ? "from 1 line" : `from ${line.inputs.length} lines`,
            ),
            inputs,
          )),
  );
}

function costToPrice(answer) {
  return answer.price.items.map(item =>
    make(
      "div",
      { class: "block" },
      make("h2", {}, item.title),
      make(
        "ul",
        { class: "steps" },
        make(
          "li",
          { class: "from leader" },
          make("span", {}, "Cost"),
          make("i"),
          make("b", {}, money(item.cost)),
        ),
        ...item.steps.map(one =>
          make(
            "li",
            { class: "leader" },
            make("span", {}, one.text),
            make("i"),
            make("b", {}, signed(one.added, coin.word)),
          ),
        ),
        make(
          "li",
          { class: "leader sum" },
          make(
            "span",
            {},
            item.per
              ? `${plain.format(item.quantity)} ${item.per} at ${item.rate_text}`
              : "Lump sum",
          ),
          make("i"),
          make("b", {}, item.amount_text),
        ),
      ),
    ),
  );
}

// This job against itself as written, with another season, or against another job of the page.
function difference() {
  const choices = [
    state.sets.size > 0 && ["written", "the job as written"],
    ...page.texts.seasons.map(name => ["season " + name, "season " + name.replace(/^.*\//, "")]),
    ...page.texts.jobs.map((job, i) => i !== state.job && ["job " + i, job.name]),
  ].filter(Boolean);
  if (choices.length === 0) return "";
  const pick = make(
    "select",
    {
      id: "against",
      class: "btn no-print",
      "aria-label": "Against",
      onchange: event => {
        against = event.target.value;
        showPlace();
      },
    },
    make("option", { value: "" }, "pick what to compare with"),
    ...choices.map(([value, words]) =>
      make("option", { value, selected: value === against }, words),
    ),
  );
  return make(
    "div",
    { class: "block" },
    make("h2", {}, "Against"),
    pick,
    choices.some(([value]) => value === against) && bridge(),
  );
}

function bridge() {
  const [kind, name] = [against.split(" ", 1)[0], against.slice(against.indexOf(" ") + 1)];
  const other = {
    job: state.job,
    option: state.option,
    season: state.season,
    sets: [],
    called: against,
  };
  if (kind === "season") Object.assign(other, { season: name, sets: setsOf(state.sets) });
  if (kind === "job") Object.assign(other, { job: Number(name), option: "", season: "" });
  const answer = page.ask({ ...other, ask: "bridge", to: asked("", { called: "this job" }) });
  if (failed(answer)) return told(answer, "against-e");
  const words = one =>
    one.kind === "rounding"
      ? "rounding to cents"
      : (one.label || one.names.join(", ")) +
        (one.before ? `: ${choiceLabel(one.before)} to ${choiceLabel(one.after)}` : "");
  return make(
    "ul",
    { class: "steps" },
    make(
      "li",
      { class: "from leader" },
      make("span", {}, capital(answer.before.label)),
      make("i"),
      make("b", {}, money(answer.before.cents / 100)),
    ),
    ...answer.rows.map(one =>
      make(
        "li",
        {},
        make(
          "div",
          { class: "leader" },
          make("span", {}, words(one)),
          make("i"),
          make("b", {}, signed(one.cents / 100, coin.word)),
        ),
        one.because && make("p", { class: "because" }, one.because),
      ),
    ),
    make(
      "li",
      { class: "leader sum" },
      make("span", {}, "This job, " + answer.unit),
      make("i"),
      make("b", {}, money(answer.after.cents / 100)),
    ),
  );
}
