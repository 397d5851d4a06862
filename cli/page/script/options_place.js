// The estimator's place: the options of the job side by side, which is cheapest and where that
// flips, each over a given, and the map.

const beside = { over: "", flip: "" };
const letter = column => String.fromCharCode(65 + column);

places.push({
  name: "options",
  title: "Options",
  show: main => {
    const numbers = page.givens.filter(
      given =>
        given.written === "" && (given.swing ?? given.within) && typeof given.value === "number",
    );
    const chosen =
      numbers.find(given => given.name === beside.over) ??
      numbers.find(given => given.name === "run") ??
      numbers[0];
    const ends = chosen && (chosen.swing ?? chosen.within);
    const over = chosen && { given: chosen.name, from: ends.low, to: ends.high };
    const answer = page.ask(asked("compare", { over, flip: beside.flip }));
    const jobs = page.texts.jobs.length > 1 && jobPicker();
    if (failed(answer)) {
      main.replaceChildren(
        make("div", { class: "wrap" }, jobs, refused("Options", "options", answer), fieldMap()),
      );
      return;
    }
    main.replaceChildren(
      make(
        "div",
        { class: "wrap" },
        jobs,
        make(
          "div",
          { class: "cols left" },
          make("div", { class: "block" }, make("h2", {}, "Side by side"), ...sideBySide(answer)),
          make(
            "div",
            {},
            curves(answer, numbers, chosen),
            flips(answer, numbers),
            fieldMap(),
            cautions(page.price),
          ),
        ),
      ),
    );
  },
});

function jobPicker() {
  return make(
    "p",
    { class: "row-actions no-print" },
    make("label", { for: "job" }, "Job"),
    make(
      "select",
      {
        id: "job",
        class: "btn",
        onchange: event => {
          remember();
          Object.assign(state, { job: Number(event.target.value), option: "", sets: new Map() });
          page.givens = [];
          if (again()) page.written = page.price;
          showHead();
        },
      },
      ...page.texts.jobs.map((job, i) =>
        make("option", { value: i, selected: i === state.job }, job.name),
      ),
    ),
  );
}

function sideBySide(answer) {
  const take = column => () => {
    remember();
    state.option =
      column === 0 && !state.option
        ? ""
        : answer.columns[column].name === "this job"
          ? ""
          : answer.columns[column].name;
    page.givens = [];
    again();
  };
  const unit = answer.prices.find(row => row.name === "price.per_unit") ?? answer.prices[0];
  const list = answer.columns.map((column, i) =>
    make(
      "li",
      {},
      make("span", { class: "letter" }, letter(i)),
      make(
        "span",
        {},
        capital(column.name),
        i === answer.cheapest && make("span", { class: "best" }, " cheapest"),
        i > 0 &&
          make(
            "span",
            { class: "no-print" },
            make("br"),
            link("Price this one", take(i), { "aria-label": "Price this one: " + column.name }),
          ),
      ),
      make("b", { class: "num" }, quantity(unit.values[i], unit.unit)),
    ),
  );
  const heads = [
    head("", {}),
    ...answer.columns.map((column, i) =>
      head(letter(i), { class: "num", "aria-label": column.name }),
    ),
  ];
  const rows = (group, list) =>
    list.length === 0
      ? []
      : [
          make(
            "tbody",
            {},
            make(
              "tr",
              { class: "group" },
              make("th", { scope: "rowgroup", colspan: answer.columns.length + 1 }, group),
            ),
            ...list.map(one =>
              row(
                capital(called(one)),
                ...one.values.map((value, i) =>
                  cell(one.shown ? choiceLabel(one.shown[i]) : quantity(value, one.unit)),
                ),
              ),
            ),
          ),
        ];
  return [
    make("ul", { class: "choose" }, ...list),
    answer.unanswered.length > 0 &&
      make("p", { class: "loss" }, "No price: " + answer.unanswered.join(", ") + "."),
    make(
      "div",
      { class: "scroll", tabindex: "0", role: "region", "aria-label": "Options side by side" },
      table(
        { class: "opts" },
        "Options side by side",
        heads,
        ...rows("What differs", answer.differences),
        ...rows("Price", answer.prices),
        ...rows("Costs", answer.costs),
        ...rows("Quantities", answer.quantities),
      ),
    ),
  ].filter(Boolean);
}

const givenPicker = (id, label, numbers, now, press) =>
  make(
    "select",
    { id, class: "btn no-print", "aria-label": label, onchange: press },
    ...(now ? [] : [make("option", { value: "" }, "pick an input")]),
    ...numbers.map(given =>
      make("option", { value: given.name, selected: given === now }, capital(called(given))),
    ),
  );

const inks = [
  "var(--ink)",
  "var(--fit)",
  "var(--water)",
  "var(--plum)",
  "var(--ground)",
  "var(--soft)",
];
const dashes = ["", "7 4", "2 3", "9 3 2 3", "12 4", "4 4"];

function curves(answer, numbers, chosen) {
  if (!answer.over) return "";
  const { over } = answer;
  const all = over.prices.flat().filter(price => price !== null);
  const least = Math.min(...all);
  const most = Math.max(...all);
  const x = i => 56 + (400 * i) / (over.places.length - 1);
  const y = price => 214 - (190 * (price - least)) / (most - least || 1);
  const svg = draw("svg", {
    viewBox: "0 0 480 250",
    class: "chart",
    role: "img",
    "aria-label": `The price of each option over ${called(over)}, from ${quantity(over.from ?? over.places[0], over.unit)} to ${quantity(over.places.at(-1), over.unit)}`,
  });
  const word = (words, at) => {
    const text = draw("text", at);
    text.textContent = words;
    svg.append(text);
  };
  svg.append(draw("path", { d: "M56 20V214H460", fill: "none", stroke: "var(--ink)" }));
  word(quantity(most, over.price_unit), { x: 52, y: 16 });
  word(quantity(least, over.price_unit), { x: 0, y: 244 });
  word(quantity(over.places[0], over.unit), { x: 150, y: 232, "text-anchor": "middle" });
  word(quantity(over.places.at(-1), over.unit), { x: 460, y: 232, "text-anchor": "end" });
  over.prices.forEach((prices, column) => {
    let path = "";
    prices.forEach((price, i) => {
      if (price !== null)
        path +=
          (path && prices[i - 1] !== null ? "L" : "M") +
          x(i).toFixed(1) +
          " " +
          y(price).toFixed(1);
    });
    svg.append(
      draw("path", {
        d: path,
        fill: "none",
        "stroke-width": 2,
        stroke: inks[column % 6],
        "stroke-dasharray": dashes[column % 6],
      }),
    );
    const last = prices.findLastIndex(price => price !== null);
    if (last >= 0) word(letter(column), { x: x(last) + 5, y: y(prices[last]) + 4, class: "ink" });
  });
  const places = [0, 20, 40, 60, 80].filter(i => i < over.places.length);
  return make(
    "div",
    { class: "block" },
    make("h2", {}, "Over an input"),
    givenPicker("over", "Over which input", numbers, chosen, event => {
      beside.over = event.target.value;
      showPlace();
    }),
    make("figure", {}, svg),
    make(
      "details",
      {},
      make("summary", {}, "The same as a table"),
      table(
        {},
        "Price over " + called(over),
        [
          head(capital(called(over))),
          ...answer.columns.map((column, i) => head(letter(i), { class: "num" })),
        ],
        make(
          "tbody",
          {},
          ...places.map(i =>
            row(
              quantity(over.places[i], over.unit),
              ...over.prices.map(prices => cell(quantity(prices[i], over.price_unit))),
            ),
          ),
        ),
      ),
    ),
  );
}

function flips(answer, numbers) {
  if (answer.columns.length < 2) return "";
  const now = numbers.find(given => given.name === beside.flip);
  const words = answer.flips?.columns.flatMap(one => {
    const name = `${letter(one.column)}, ${answer.columns[one.column].name},`;
    if (one.meetings.length === 0 && one.never)
      return [
        `${name} ${one.never.column_is_cheaper ? "is cheaper" : "costs more"} all the way, by ${quantity(one.never.least, answer.flips.price_unit)} at the least.`,
      ];
    return one.meetings.map(meeting => {
      const at = quantity(meeting.at, answer.flips.unit);
      if (meeting.kind === "same")
        return `${name} costs the same as A at ${at}; above it ${meeting.cheaper_above ? "it is cheaper" : "A is"}.`;
      if (meeting.kind === "level")
        return `${name} costs the same as A from ${at} to ${quantity(meeting.to, answer.flips.unit)}.`;
      if (meeting.kind === "touch") return `${name} comes up to A at ${at} and no further.`;
      return `${name} passes A by a step between ${at} and ${quantity(meeting.to, answer.flips.unit)}.`;
    });
  });
  return make(
    "div",
    { class: "block" },
    make("h2", {}, "Where it flips"),
    givenPicker("flip", "Where it flips over which input", numbers, now, event => {
      beside.flip = event.target.value;
      showPlace();
    }),
    make("ul", {}, ...(words ?? []).map(line => make("li", {}, line))),
  );
}

// As it was laid out when the page was written: the page itself lays no field out.
function fieldMap() {
  const map = byId("map-" + state.job);
  return make(
    "div",
    { class: "block map" },
    make("h2", {}, "Map"),
    map ? map.content.cloneNode(true) : make("p", { class: "meta" }, "This job names no boundary."),
  );
}
