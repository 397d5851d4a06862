// Each option's price over one input, and where the cheapest of them changes.

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
  const subject = called({ name: over.given, label: over.label });
  const all = over.prices.flat().filter(price => price !== null);
  const least = Math.min(...all);
  const most = Math.max(...all);
  // Drawn for the width it has, so that its words keep their size.
  const wide = Math.min(innerWidth - 32, innerWidth < 900 ? 640 : 440);
  const end = wide - 20;
  const x = i => 8 + ((end - 8) * i) / (over.places.length - 1);
  const y = price => 204 - (180 * (price - least)) / (most - least || 1);
  const svg = draw("svg", {
    viewBox: `0 0 ${wide} 232`,
    class: "chart",
    role: "img",
    "aria-label":
      `The price of each option over ${subject}, from ${quantity(over.places[0], over.unit)} ` +
      `to ${quantity(over.places.at(-1), over.unit)}`,
  });
  const word = (words, at) => {
    const text = draw("text", at);
    text.textContent = words;
    svg.append(text);
  };
  svg.append(draw("path", { d: `M8 18V210H${end}`, fill: "none", stroke: "var(--ink)" }));
  word(quantity(most, over.price_unit), { x: 12, y: 14 });
  word(quantity(least, over.price_unit), { x: 12, y: 202 });
  word(quantity(over.places[0], over.unit), { x: 8, y: 226 });
  word(quantity(over.places.at(-1), over.unit), { x: end, y: 226, "text-anchor": "end" });
  const ends = new Map(); // letters of curves that end at one height stand there together
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
    if (last < 0) return;
    const near = [...ends.values()].find(
      one => Math.abs(one.y - y(prices[last])) < 12 && Math.abs(one.x - x(last)) < 12,
    );
    if (near) near.words += letter(column);
    else ends.set(column, { x: x(last), y: y(prices[last]), words: letter(column) });
  });
  for (const one of ends.values()) {
    const width = 9 * one.words.length;
    word(one.words, { x: Math.min(one.x + 4, wide - width), y: one.y - 5, class: "ink" });
  }
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
        "Price over " + subject,
        [
          head(capital(subject)),
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
  const to = meeting => quantity(meeting.to, answer.flips.unit);
  const words = answer.flips?.columns.flatMap(one => {
    const name = `${letter(one.column)}, ${answer.columns[one.column].name},`;
    if (one.meetings.length === 0 && one.never)
      return [
        `${name} ${one.never.column_is_cheaper ? "is cheaper" : "costs more"} all the way, ` +
          `by ${quantity(one.never.least, answer.flips.price_unit)} at the least.`,
      ];
    return one.meetings.map(meeting => {
      const at = quantity(meeting.at, answer.flips.unit);
      if (meeting.kind === "same")
        return (
          `${name} costs the same as A at ${at}; above it ` +
          `${meeting.cheaper_above ? "it is cheaper" : "A is"}.`
        );
      if (meeting.kind === "level")
        return `${name} costs the same as A from ${at} to ${to(meeting)}.`;
      if (meeting.kind === "touch") return `${name} comes up to A at ${at} and no further.`;
      return `${name} passes A by a step between ${at} and ${to(meeting)}.`;
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
