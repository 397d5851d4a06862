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
    const field = choice(given, id, box);
    box.append(words, make("div", { class: "wide" }, field, told));
    if (page.wrong?.name === given.name) showWrong(given, field, box);
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

// What takes the focus for a given: its field, or the first of its options.
function fieldOf(name) {
  const field = byId("g-" + name);
  return field?.matches("input, select") ? field : field?.querySelector("button");
}

function choice(given, id, box) {
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
            const press = event.currentTarget;
            enter(given, press.parentElement, box, one.name);
            press.blur();
          },
        },
        one.label,
      ),
    ),
  );
}

// What was typed: it moves the price, or the field says why not and what would mend it.
function enter(given, input, box = input.closest(".given"), typed = input.value) {
  const answer = change(given, typed);
  input.defaultValue = typed;
  box.querySelector(".told")?.remove();
  box.classList.remove("wrong");
  input.removeAttribute("aria-invalid");
  input.removeAttribute("aria-errormessage");
  if (failed(answer)) showWrong(given, input, box);
}

function showWrong(given, input, box) {
  const id = input.id + "-e";
  box.classList.add("wrong");
  if (input.matches("input, select")) {
    input.setAttribute("aria-invalid", "true");
    input.setAttribute("aria-errormessage", id);
  }
  const mend = mendOf(given, page.wrong);
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
          fieldOf(given.name)?.focus();
        }),
      ].filter(Boolean),
    ),
  );
}

// What would give a price instead: what the engine says to write, or the one number that was typed
// with the unit this given has. "1.2k" and "5 1/2" are other numbers than they begin with.
function mendOf(given, { typed, answer }) {
  if (given.options.length > 0) return "";
  const said = (answer.helps ?? []).map(help => /^write (.+)$/.exec(help.text)?.[1]);
  const one = /^\D*?(-?[\d,]*\.?\d+)\s*(?!k\b|m\b|thousand|million)[^\d\u00bc-\u00be]*$/i.exec(typed);
  for (const number of [...said, one?.[1]].filter(Boolean)) {
    const value = asValue(given, number);
    const sets = new Map(state.sets).set(given.name, { value });
    if (value !== typed.trim() && !failed(askPrice(setsOf(sets)))) return value;
  }
  return "";
}
