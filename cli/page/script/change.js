// A given moves: the price answers at once, everything else when the hand rests.

// Money with a sign is written "$5.10/gal", other money "45 CHF/h".
const signedMoney = unit => isMoney(unit) && "$€£¥".includes(coin.word);
// The part of a unit that stands after a number: "/gal" of "$/gal", "ac" of "ac".
const unitAfter = unit =>
  signedMoney(unit) ? unit.slice(coin.word.length) : unit === "1" || unit === "clock" ? "" : unit;

// What is typed in a field whose unit stands beside it, as `--set` takes it. A number alone has the
// field's unit; anything else is the engine's to judge.
function asValue(given, typed) {
  const words = typed.trim();
  if (given.options.length > 0) return words;
  const number = /^(-?)([$€£¥]?)([\d,]*\.?\d+)$/.exec(words);
  const sign = signedMoney(given.unit) ? coin.word : "";
  if (number === null || (number[2] && number[2] !== sign)) return words;
  const after = given.unit === "clock" ? given.unit : unitAfter(given.unit);
  return number[1] + sign + number[3] + (after && !sign ? " " : "") + after;
}
// The other way: what a field shows of a value.
function inField(given, text = given.text) {
  if (isMoney(given.unit) && !signedMoney(given.unit))
    return text
      .replace(coin.before, "")
      .replace(coin.before.trim(), "")
      .replace(/\/.*$/, "")
      .trim();
  const after = unitAfter(given.unit);
  return after && text.endsWith(after) ? text.slice(0, -after.length).trim() : text;
}

// Asks for the price with one more set; keeps it if it has one. An empty value puts the given back.
// `onward`: part of a drag that is undone as one.
function change(given, typed, onward = false) {
  const sets = new Map(state.sets);
  const value = asValue(given, typed);
  const before = state.sets.get(given.name);
  const was = given.was ?? given.text;
  if (typed.trim() === "" || value === asValue(given, inField(given, was))) sets.delete(given.name);
  else sets.set(given.name, { because: "", ...before, value, label: called(given), was });
  const answer = askPrice(setsOf(sets));
  if (failed(answer)) {
    page.wrong = { name: given.name, typed, answer };
    showBand();
    return answer;
  }
  if (!onward) remember();
  state.sets = sets;
  page.wrong = null;
  take(answer);
  return answer;
}

function askPrice(sets) {
  try {
    return page.ask({ ...asked("price"), sets });
  } catch (error) {
    restart();
    return {
      schema: "acrewright.failure/1",
      title: "this is too much for the page: " + error,
      helps: [],
    };
  }
}

// The module gave up: another one takes its place, with the texts as they are.
async function restart() {
  page.ask = await startEngine(page.module);
  page.ask({ ask: "texts", texts: page.texts });
  for (const [name, text] of state.texts) page.ask({ ask: "text", name, text });
}

function take(answer) {
  page.price = answer;
  showBand();
  writeAddress();
  rest();
}

// When the hand rests: every line, the givens with what others made of them, the place in sight.
// Nothing is drawn anew under somebody's hand.
const rest = later(180, () => (busy() ? rest() : refresh()));
function busy() {
  const at = document.activeElement;
  return at?.type === "range"
    ? at.dataset.drag === "on"
    : at?.matches("main input") && at.value !== at.defaultValue;
}
function refresh() {
  const full = page.ask(asked("price", { lines: true }));
  if (failed(full)) return;
  page.full = page.price = full;
  takeGivens();
  showBand();
  showPlace();
}
function takeGivens() {
  const { givens } = page.ask(asked("givens"));
  const plain = state.sets.size > 0 ? page.ask({ ...asked("givens"), sets: [] }).givens : givens;
  const before = new Map((plain ?? givens).map(given => [given.name, given.text]));
  page.givens = givens;
  page.called = calledOf(givens);
  for (const given of givens) {
    const set = state.sets.get(given.name);
    given.was = before.get(given.name) ?? given.text;
    given.setter = set ? "you" : given.set_by;
    if (set) Object.assign(set, { was: given.was, label: called(given) });
  }
}

// What changes are told against: the job of the texts, before anything was set.
function takeWritten(answer) {
  if (page.about === state.job) return;
  page.about = state.job;
  const plain = page.ask({ ask: "price", job: state.job });
  page.written = failed(plain) ? answer : plain;
}

function undo() {
  const kept = state.past.pop();
  if (!kept) return;
  restore(kept);
  again();
}
function undoAll() {
  remember();
  restore({ ...snapshot(), sets: new Map(), texts: new Map() });
  again();
}
function undoOne(name) {
  remember();
  state.sets.delete(name);
  again();
}
// After a step that changes more than one value.
function again() {
  page.wrong = null;
  const answer = askPrice(setsOf(state.sets));
  if (failed(answer)) {
    page.wrong = { name: "", typed: "", answer };
    showBand();
    return false;
  }
  page.price = answer;
  takeWritten(answer);
  writeAddress();
  refresh();
  announce();
  return true;
}
