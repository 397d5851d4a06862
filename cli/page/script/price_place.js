// The owner's place: what may be changed, what moves the price, a rate card.

places.push({
  name: "price",
  title: "Price",
  show: main => {
    const moves = page.ask(asked("sensitivity", { deep: false }));
    main.replaceChildren(
      make(
        "div",
        { class: "wrap" },
        make(
          "nav",
          { class: "jump only-narrow no-print", "aria-label": "On this page" },
          make("a", { href: "#in", onclick: jump }, "Inputs"),
          make("a", { href: "#moves", onclick: jump }, "What moves it"),
          make("a", { href: "#card", onclick: jump }, "Rate card"),
        ),
        make(
          "div",
          { class: "cols" },
          showGivens(),
          make("div", {}, whatMoves(moves), rateCard(moves), cautions(page.price)),
        ),
      ),
    );
  },
});

// The address holds what was changed, so a jump leaves it alone.
function jump(event) {
  event.preventDefault();
  const target = document.querySelector(event.currentTarget.getAttribute("href"));
  target.scrollIntoView();
  target.setAttribute("tabindex", "-1");
  target.focus({ preventScroll: true });
}

const refused = (title, id, answer) =>
  make("div", { class: "block", id }, make("h2", {}, title), told(answer, id + "-e"));

// The ends of what a given may do, in words and numbers; of a choice its least and greatest.
function endsOf(given) {
  if (given.options.length > 0) {
    const known = given.options.filter(one => one.at !== null).sort((a, b) => a.at - b.at);
    return known.length < 2
      ? null
      : [
          { at: known[0].at, words: choiceLabel(known[0].name) },
          { at: known.at(-1).at, words: choiceLabel(known.at(-1).name) },
        ];
  }
  const { swing } = given;
  if (!swing || swing.trouble || (swing.at_low === null && swing.at_high === null)) return null;
  return [
    { at: swing.at_low, words: quantity(swing.low, given.unit) },
    { at: swing.at_high, words: quantity(swing.high, given.unit) },
  ];
}

function whatMoves(moves) {
  const title = "What moves the price";
  if (failed(moves)) return refused(title, "moves", moves);
  const base = moves.line.value;
  const bars = moves.givens
    .map(given => ({ given, ends: endsOf(given) }))
    .filter(one => one.ends)
    .map(one => ({ ...one, width: widthOf(one.ends, base) }))
    .filter(one => one.width > 0)
    .sort((a, b) => b.width - a.width)
    .slice(0, 15);
  const all = bars
    .flatMap(one => one.ends.map(end => end.at))
    .filter(at => at !== null)
    .concat(base);
  const least = Math.min(...all);
  const share = value => (100 * (value - least)) / (Math.max(...all) - least || 1);
  return make(
    "div",
    { class: "block", id: "moves" },
    make("h2", {}, title),
    make(
      "p",
      { class: "because" },
      `Each input over its swing, everything else unchanged, in ${moves.line.unit}. The upright ` +
        "line is this job; dark runs to the high end of the swing, light to the low end.",
    ),
    make("ul", { class: "bars" }, ...bars.map(one => bar(one, base, share, moves.line.unit))),
  );
}

const widthOf = (ends, base) => {
  const known = [base, ...ends.map(end => end.at).filter(at => at !== null)];
  return Math.max(...known) - Math.min(...known);
};

function bar({ given, ends, width }, base, share, unit) {
  const piece = (end, kind) => {
    if (end.at === null) return null;
    const [from, to] = [share(base), share(end.at)].sort((a, b) => a - b);
    const part = make("i", { class: kind });
    part.style.left = from + "%";
    part.style.width = to - from + "%";
    return part;
  };
  const drawn = make(
    "span",
    { class: "bar", "aria-hidden": "true" },
    ...[piece(ends[0], "lo"), piece(ends[1], "hi")].filter(Boolean),
  );
  drawn.style.setProperty("--zero", share(base) + "%");
  const words = end => `${end.words}: ${end.at === null ? "no answer" : quantity(end.at, unit)}`;
  return make(
    "li",
    {},
    make(
      "button",
      { type: "button", onclick: () => goTo(given.name) },
      make("span", {}, capital(called(given))),
      make("b", { class: "total" }, quantity(width, unit)),
      drawn,
      make(
        "span",
        { class: "endsrow meta" },
        make("span", {}, words(ends[0])),
        make("span", {}, words(ends[1])),
      ),
    ),
  );
}

// To the field of a given, whatever part it is in.
function goTo(name) {
  const given = page.givens.find(one => one.name === name);
  if (!given) return;
  open.add(given.part || "Other inputs");
  searched = "";
  place = "price";
  showPlaces();
  showPlace();
  const field = fieldOf(name);
  field?.focus();
  field?.scrollIntoView({ block: "center" });
}

// Rates over the two numbers that move the price most; others can be picked.
const card = { rows: "", columns: "" };

function rateCard(moves) {
  if (failed(moves)) return "";
  const able = moves.givens.filter(
    given =>
      given.swing &&
      !given.swing.trouble &&
      page.givens.some(one => one.name === given.name && !one.written),
  );
  if (able.length < 2) return "";
  const find = name => able.find(given => given.name === name);
  const first = find(card.rows) ?? find("depth") ?? able[0];
  const second =
    find(card.columns) ??
    able.find(given => given !== first && given.name === "spacing") ??
    able.find(given => given !== first);
  const at = given =>
    [0, 1, 2, 3, 4].map(i =>
      rounded(given, given.swing.low + (i * (given.swing.high - given.swing.low)) / 4),
    );
  const answer = page.ask(
    asked("rate-card", {
      rows: { given: first.name, at: at(first) },
      columns: { given: second.name, at: at(second) },
    }),
  );
  const pick = (key, now) =>
    make(
      "select",
      {
        class: "btn",
        id: "card-" + key,
        "aria-label": key === "rows" ? "Down" : "Across",
        onchange: event => {
          card[key] = event.target.value;
          showPlace();
        },
      },
      ...able.map(given =>
        make("option", { value: given.name, selected: given === now }, capital(called(given))),
      ),
    );
  const body = failed(answer)
    ? told(answer, "card-e")
    : cardTable(answer, at(first), at(second), first, second);
  return make(
    "div",
    { class: "block", id: "card" },
    make("h2", {}, "Rate card"),
    make("p", { class: "no-print row-actions" }, pick("rows", first), pick("columns", second)),
    body,
  );
}

function cardTable(answer, down, across, first, second) {
  const rates = answer.pages[0].rate;
  const known = rates.filter(rate => rate !== null);
  const least = Math.min(...known);
  const heat = rate => Math.round((85 * (rate - least)) / (Math.max(...known) - least || 1));
  const value = given => page.givens.find(one => one.name === given.name).value;
  const rows = down.map((place, r) =>
    row(
      answer.rows.places[r],
      ...across.map((side, c) => {
        const rate = rates[r * across.length + c];
        const shade = make(
          "span",
          {},
          rate === null ? "\u2013" : quantity(rate, answer.unit).replace(/\/.*$/, ""),
        );
        shade.style.setProperty("--k", (rate === null ? 0 : heat(rate)) + "%");
        const now = place === value(first) && side === value(second);
        return make("td", { class: now ? "now" : "" }, shade);
      }),
    ),
  );
  return make(
    "div",
    { class: "scroll", tabindex: "0", role: "region", "aria-label": "Rate card" },
    table(
      { class: "card" },
      `${answer.item}, ${answer.unit}, over ${called(first)} and ${called(second)}`,
      [make("td", {}), ...answer.columns.places.map(place => head(place))],
      make("tbody", {}, ...rows),
    ),
    make(
      "p",
      { class: "meta" },
      `${answer.item}, in ${answer.unit}. A dash has no answer; a frame is this job.`,
    ),
  );
}

function cautions(answer) {
  const before = new Set(page.written.cautions);
  return make(
    "div",
    { class: "block" },
    make("h2", {}, "Cautions"),
    make(
      "ul",
      { class: "cautions" },
      ...answer.cautions.map(words => make("li", { class: before.has(words) ? "" : "now" }, words)),
    ),
    make("p", { class: "meta" }, answer.note),
  );
}
