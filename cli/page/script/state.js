// What somebody has changed, and how it is undone and handed on. The job itself never changes.

const page = {
  ask: null, // the engine's one call
  module: null, // compiled, for the worker
  texts: null, // as the page was written (acrewright.page/1)
  price: null, // the last good answer
  written: null, // the price of the job as the page was written
  about: 0, // which job that is
  full: null, // the last good answer with every line
  givens: [],
  called: new Map(), // name of a given → how people call it
  wrong: null, // { name, typed, answer }: an entry that gave no price
};

const state = {
  job: 0,
  option: "",
  season: "",
  sets: new Map(), // name → { value, because, label, was, text }
  texts: new Map(), // name → text that was changed here
  past: [],
};

const setsOf = sets => [...sets].map(([name, set]) => [name, set.value]);
const asked = (ask, more = {}) => ({
  ask,
  job: state.job,
  option: state.option,
  season: state.season,
  sets: setsOf(state.sets),
  ...more,
});

function snapshot() {
  return {
    job: state.job,
    option: state.option,
    season: state.season,
    sets: new Map([...state.sets].map(([name, set]) => [name, { ...set }])),
    texts: new Map(state.texts),
  };
}
function remember() {
  state.past.push(snapshot());
  if (state.past.length > 200) state.past.shift();
}
function restore(kept) {
  for (const name of new Set([...state.texts.keys(), ...kept.texts.keys()]))
    if (state.texts.get(name) !== kept.texts.get(name))
      page.ask({ ask: "text", name, text: kept.texts.get(name) ?? page.texts.texts[name] });
  Object.assign(state, kept);
}

// Longer ones are cut by programs that they are sent through.
const longestAddress = 60000;

// The address holds everything that was changed, so that two people can look at one variant. What
// it says is only ever read as data, and each value as `--set` would read it. Empty: too long.
function writeAddress() {
  const kept = {
    j: state.job,
    o: state.option,
    y: state.season,
    s: [...state.sets].map(([name, set]) => [name, set.value, set.because]),
    t: [...state.texts],
  };
  const changed = state.job || state.option || state.season || state.sets.size || state.texts.size;
  const words = changed ? "#" + encodeURIComponent(JSON.stringify(kept)) : "#";
  try {
    history.replaceState(null, "", words.length < longestAddress ? words : "#");
  } catch {
    /* some browsers keep the address of a file as it is: the page still works */
  }
  return words.length < longestAddress ? location.href : "";
}
function readAddress() {
  let kept = null;
  try {
    kept = JSON.parse(decodeURIComponent(location.hash.slice(1)));
  } catch {
    return;
  }
  if (kept === null || typeof kept !== "object") return;
  const word = value => (typeof value === "string" ? value : "");
  state.job = Number.isInteger(kept.j) && page.texts.jobs[kept.j] ? kept.j : 0;
  state.option = word(kept.o);
  state.season = page.texts.seasons.includes(kept.y) ? kept.y : "";
  for (const one of Array.isArray(kept.t) ? kept.t : [])
    if (Array.isArray(one) && one[0] in page.texts.texts) state.texts.set(one[0], word(one[1]));
  for (const one of Array.isArray(kept.s) ? kept.s : [])
    if (Array.isArray(one) && word(one[0]))
      state.sets.set(one[0], { value: word(one[1]), because: word(one[2]) });
}

// `set` statements of a season or a job. A reason that is missing is left for its author to give.
function asLines(sets, comment) {
  const width = Math.max(...[...sets.keys()].map(name => name.length));
  const lines = [...sets].map(([name, set]) => {
    const because = set.because.replace(/["\\\s]+/g, " ").trim();
    return `set ${name.padEnd(width)} = ${set.value}${because ? `  because "${because}"` : ""}`;
  });
  return comment + lines.join("\n") + "\n";
}
function seasonText() {
  const title = page.price.job.season || "what if";
  return asLines(
    state.sets,
    "# Changed on a page; read it before it is copied.\n" +
      `season "${title.replace(/["\\]/g, " ")}"\n\n`,
  );
}
