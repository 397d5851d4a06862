// Givens by part: each with its label, reason, lawful range, a field and, where it swings, a
// slider.

const open = new Set(); // parts that show all of theirs
let searched = "";

// Those that people look for: what somebody set, what swings, what was changed here, the choices of
// the job's own model.
const telling = given =>
  page.wrong?.name === given.name ||
  (given.setter !== "model" && given.setter !== "") ||
  given.swing !== null ||
  (given.options.length > 0 && !given.name.includes(".")) ||
  given.chosen ||
  state.sets.has(given.name);

function showGivens() {
  const parts = new Map();
  for (const given of page.givens) {
    const title = given.part || "Other inputs";
    if (!parts.has(title)) parts.set(title, []);
    parts.get(title).push(given);
  }
  const find = make("input", {
    id: "find",
    type: "search",
    value: searched,
    autocomplete: "off",
    placeholder: `Find among ${page.givens.length} inputs`,
    "aria-label": "Find an input",
    oninput: event => {
      searched = event.target.value;
      list.replaceChildren(...shown());
    },
  });
  const shown = () => [...parts].map(([title, givens]) => part(title, givens)).filter(Boolean);
  const list = make("div", {}, ...shown());
  return make(
    "div",
    { class: "block", id: "in" },
    make("h2", {}, "Inputs"),
    make(
      "p",
      { class: "because" },
      "What this job may change. Type a value, with or without its unit.",
    ),
    make("div", { class: "find no-print" }, find),
    list,
  );
}

function part(title, givens) {
  const words = searched.trim().toLowerCase();
  const found = words
    ? givens.filter(given => (given.label + " " + given.name).toLowerCase().includes(words))
    : givens.filter(given => open.has(title) || telling(given));
  if (found.length === 0 && words) return null;
  const more = givens.length - found.length;
  return make(
    "div",
    { class: "part" },
    make("h3", {}, title, make("small", {}, `${found.length} of ${givens.length}`)),
    ...found.map(showGiven),
    !words &&
      more > 0 &&
      make(
        "p",
        { class: "more no-print" },
        link(`${more} more in ${title}`, () => {
          open.add(title);
          showPlace();
        }),
      ),
  );
}

function showGiven(given) {
  const changed = state.sets.has(given.name);
  const locked = given.written !== "";
  const because = changed ? state.sets.get(given.name).because || "no reason yet" : given.because;
  const box = make("div", { class: "given" + (changed ? " changed" : "") });
  const id = "g-" + given.name;
  const words = make(
    "div",
    {},
    make(
      "label",
      { for: id, class: "name" },
      capital(called(given)),
      given.setter !== "model" &&
        given.setter !== "" &&
        make("span", { class: "set" }, given.setter),
    ),
    because && make("p", { class: "because" }, because),
  );
  const range = given.within ? `${given.within.low_text} to ${given.within.high_text}` : "";
  const was = changed && given.was ? `was ${given.was}` : "";
  const meta = [range, locked && `computed: ${given.written}`, was].filter(Boolean).join("; ");
  const told = make("p", { class: "range meta", id: id + "-r" }, meta);
  if (given.options.length > 0 && !locked) {
    box.append(words, make("div", { class: "wide" }, choice(given, id), told));
    return box;
  }
  const input = make("input", {
    id,
    value: given.value === null ? "" : inField(given),
    inputmode: "decimal",
    autocomplete: "off",
    maxlength: 200,
    "aria-describedby": id + "-r",
    disabled: locked,
    onchange: event => enter(given, event.target, box),
  });
  const after = unitAfter(given.unit);
  box.append(
    words,
    make(
      "div",
      {},
      make("div", { class: "field" }, input, after && make("span", { class: "unit" }, after)),
      told,
    ),
  );
  if (given.swing && !locked && typeof given.value === "number") box.append(slider(given, box));
  if (page.wrong?.name === given.name) {
    input.value = page.wrong.typed;
    showWrong(given, input, box);
  }
  return box;
}

function choice(given, id) {
  if (given.options.length > 5)
    return make(
      "select",
      { id, class: "btn", onchange: event => enter(given, event.target) },
      ...given.options.map(one =>
        make("option", { value: one.name, selected: one.name === given.value }, one.label),
      ),
    );
  return make(
    "div",
    { class: "pick", id, role: "group", "aria-label": called(given) },
    ...given.options.map(one =>
      make(
        "button",
        {
          type: "button",
          "aria-pressed": String(one.name === given.value),
          onclick: event => {
            change(given, one.name);
            event.currentTarget.blur();
          },
        },
        one.label,
      ),
    ),
  );
}

// What was typed: it moves the price, or the field says why not and what would mend it.
function enter(given, input, box = input.closest(".given")) {
  const answer = change(given, input.value);
  input.defaultValue = input.value;
  box.querySelector(".told")?.remove();
  box.classList.remove("wrong");
  input.removeAttribute("aria-invalid");
  input.removeAttribute("aria-errormessage");
  if (failed(answer)) showWrong(given, input, box);
}

function showWrong(given, input, box) {
  const id = input.id + "-e";
  box.classList.add("wrong");
  input.setAttribute("aria-invalid", "true");
  input.setAttribute("aria-errormessage", id);
  const mend = mendOf(given, page.wrong.typed);
  box.append(
    told(
      page.wrong.answer,
      id,
      [
        mend &&
          button(`Use ${mend}`, () => {
            input.value = mend;
            enter(given, input, box);
          }),
        link(`Put back ${given.text}`, () => {
          page.wrong = null;
          showBand();
          showPlace();
          byId(input.id)?.focus();
        }),
      ].filter(Boolean),
    ),
  );
}

// The number that was typed, with the unit this given has, if that gives a price.
function mendOf(given, typed) {
  const number = /-?[\d,]*\.?\d+/.exec(typed);
  if (number === null) return "";
  const value = asValue(given, number[0]);
  const sets = new Map(state.sets).set(given.name, { value });
  return value !== typed.trim() && !failed(askPrice(setsOf(sets))) ? value : "";
}
