// The price in sight, what was changed, and the places.

const places = []; // { name, title, show }: in the order of the bar
let place = "price";

// Words for a screen reader: the price after a pause, an error at once.
const announce = later(700, () => {
  const price = page.price.price;
  byId("announce").textContent = page.wrong
    ? ""
    : `${price.per_unit_text ? price.per_unit_text + " all in, " : ""}${price.total_text}`;
});

// A narrow page has room for the first two. What is left after overhead where the answer says it.
function figures({ price, cost, earnings }) {
  if (earnings)
    return [
      ["Price", price.total_text],
      ["Margin after overhead", percent(earnings.margin)],
      ["Profit", money(earnings.profit)],
      ["Direct cost", cost.total_text],
    ];
  const left = price.total - cost.total;
  return [
    ["Price", price.total_text],
    ["Contribution", money(left)],
    price.total !== 0 && ["Of the price", percent(left / price.total)],
    ["Direct cost", cost.total_text],
  ].filter(Boolean);
}

function showBand() {
  const { price } = page.price;
  const big = price.per_unit_text
    ? [money(price.per_unit), make("span", { class: "per" }, `/${price.unit} all in`)]
    : [price.total_text];
  byId("big").replaceChildren(...big);
  byId("figures").replaceChildren(
    ...figures(page.price).map(([name, value], i) =>
      make("div", { class: i < 2 ? "" : "wide" }, make("dt", {}, name), make("dd", {}, value)),
    ),
  );
  byId("band").classList.toggle("stale", page.wrong !== null);
  showHead();
  byId("note").replaceChildren(...note());
  showChanges();
  announce();
}

function note() {
  if (page.wrong) {
    const field = fieldOf(page.wrong.name);
    return [
      make("span", { class: "bad" }, "Last good price. " + capital(page.wrong.answer.title) + "."),
      field && link("Go to it", () => field.focus()),
      onPaper(),
    ].filter(Boolean);
  }
  const count = state.sets.size + state.texts.size;
  if (count === 0 && state.past.length === 0) return [];
  const unit =
    page.written.price.per_unit === null ? coin.word : `${coin.word}/${page.price.price.unit}`;
  const change =
    unit === coin.word
      ? page.price.price.total - page.written.price.total
      : page.price.price.per_unit - page.written.price.per_unit;
  const list =
    count === 0
      ? state.option || "As written"
      : make(
          "button",
          {
            type: "button",
            class: "link",
            "aria-expanded": String(!byId("changes").hidden),
            "aria-controls": "changes",
            onclick: () => {
              byId("changes").hidden = !byId("changes").hidden;
              showBand();
            },
          },
          count === 1 ? "1 change" : count + " changes",
        );
  return [
    make("span", { class: "no-print" }, list, ", ", make("b", {}, signed(change, unit))),
    link("Undo last", undo, { disabled: state.past.length === 0 }),
    onPaper(),
  ].filter(Boolean);
}

// A sheet of paper cannot be asked what was changed: it says so.
function onPaper() {
  const all = [...state.sets]
    .map(([name, set]) => `${set.label || name}, ${set.was ?? ""} to ${set.value}`)
    .concat([...state.texts.keys()].map(name => `the text of ${name}`));
  return all.length > 0 && make("span", { class: "only-print" }, `Changed here: ${all.join("; ")}.`);
}

// What was changed, each with the reason it wants, and what can be done with it.
function showChanges() {
  const box = byId("changes");
  if (box.contains(document.activeElement) && document.activeElement.tagName === "INPUT") return;
  const sets = [...state.sets].map(([name, set]) => {
    const why = make("input", {
      id: "why-" + name,
      value: set.because,
      maxlength: 300,
      placeholder: "say why, as the season will show it",
      onchange: event => {
        remember();
        set.because = event.target.value;
        writeAddress();
      },
    });
    return make(
      "li",
      {},
      make(
        "span",
        {},
        set.label || name,
        make("br"),
        make("small", {}, `${set.was ?? ""} to ${set.value}`),
      ),
      link("Undo", () => undoOne(name), { "aria-label": "Undo " + (set.label || name) }),
      make("span", { class: "why" }, make("label", { for: why.id }, "because"), why),
    );
  });
  const texts = [...state.texts.keys()].map(name =>
    make("li", {}, make("span", {}, "The text of " + name)),
  );
  byId("changed").replaceChildren(...sets, ...texts);
  const save = button("Save as season lines", () => download("what-if.season", seasonText()), {
    class: "btn main",
  });
  byId("changes-do").replaceChildren(
    ...(state.sets.size > 0 ? [save] : []),
    button("Copy link to this variant", copyAddress),
    button("Undo all", undoAll),
  );
  if (sets.length + texts.length === 0) box.hidden = true;
}

async function copyAddress(event) {
  const press = event.currentTarget;
  const address = writeAddress();
  if (address === "") {
    press.replaceWith(
      make("p", { class: "meta" }, "Too long for a link: download the changed texts instead."),
    );
    return;
  }
  try {
    await navigator.clipboard.writeText(address);
    press.textContent = "Copied";
  } catch {
    press.replaceWith(
      make("input", { readonly: true, value: address, "aria-label": "Address of this variant" }),
    );
  }
}

function showPlaces() {
  byId("places").replaceChildren(
    ...places.map(one =>
      make(
        "button",
        {
          type: "button",
          "aria-current": one.name === place && "page",
          onclick: () => {
            place = one.name;
            showPlaces();
            showPlace();
            scrollTo(0, 0);
            byId("main").focus({ preventScroll: true });
          },
        },
        one.title,
      ),
    ),
  );
}
function showPlace() {
  const { id, value, selectionStart, selectionEnd } = document.activeElement ?? {};
  places.find(one => one.name === place).show(byId("main"));
  const again = id && byId(id);
  if (!again) return;
  again.focus({ preventScroll: true });
  // A number that is selected is replaced by the next key: it must stay so.
  if (typeof selectionStart !== "number" || again.value === undefined) return;
  const all = selectionStart === 0 && selectionEnd === value.length;
  if (all && value !== "") again.select();
  else if (again.value === value) again.setSelectionRange(selectionStart, selectionEnd);
}
