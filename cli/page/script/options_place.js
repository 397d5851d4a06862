// The estimator's place: the options of the job side by side, and the map.

// `against`: the column that a phone shows beside A
const beside = { over: "", flip: "", against: 0 };
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
          again();
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
        answer.columns.length > 1 &&
          i === answer.cheapest &&
          make("span", { class: "best" }, " cheapest"),
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
  if (!(beside.against > 0 && beside.against < answer.columns.length))
    beside.against = answer.cheapest > 0 ? answer.cheapest : 1;
  const only = i => (i > 0 && i !== beside.against ? "num cut" : "num");
  const heads = [
    head("", {}),
    ...answer.columns.map((column, i) =>
      head(letter(i), { class: only(i), "aria-label": column.name }),
    ),
  ];
  const costs = answer.costs.filter(one => one.values.some(value => value !== 0));
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
                  cell(one.shown ? choiceLabel(one.shown[i]) : quantity(value, one.unit), {
                    class: only(i) + (one.shown ? " words" : ""),
                  }),
                ),
              ),
            ),
          ),
        ];
  return [
    make("ul", { class: "choose" }, ...list),
    answer.unanswered.length > 0 &&
      make("p", { class: "loss" }, "No price: " + answer.unanswered.join(", ") + "."),
    answer.columns.length > 2 && beforeTable(answer),
    make(
      "div",
      { class: "scroll", tabindex: "0", role: "region", "aria-label": "Options side by side" },
      table(
        { class: "opts" },
        "Options side by side",
        heads,
        ...rows("What differs", answer.differences),
        ...rows("Price", answer.prices),
        ...rows("Costs", costs),
        ...rows("Quantities", answer.quantities),
      ),
    ),
  ].filter(Boolean);
}

// On a phone the table holds A and one other.
function beforeTable(answer) {
  return make(
    "p",
    { class: "against no-print" },
    make("label", { for: "beside" }, "A beside"),
    " ",
    make(
      "select",
      {
        id: "beside",
        class: "btn",
        onchange: event => {
          beside.against = Number(event.target.value);
          showPlace();
        },
      },
      ...answer.columns
        .map((column, i) =>
          make(
            "option",
            { value: i, selected: i === beside.against },
            `${letter(i)}, ${column.name}`,
          ),
        )
        .slice(1),
    ),
  );
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
