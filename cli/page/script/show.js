// Making and filling elements. Words only ever become text: nothing here reads markup.

const byId = id => document.getElementById(id);

// make("p", { class: "meta" }, "words", element, …): attributes as HTML has them, `on…` listeners.
function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(
    ...children.flat().filter(child => child !== null && child !== false && child !== ""),
  );
  return element;
}

function draw(tag, attributes = {}, ...children) {
  const element = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

const button = (words, press, attributes = {}) =>
  make("button", { type: "button", class: "btn", onclick: press, ...attributes }, words);
const link = (words, press, attributes = {}) =>
  button(words, press, { class: "link", ...attributes });

// A cell of a table: figures at the right.
const cell = (words, attributes = {}) => make("td", { class: "num", ...attributes }, words);
const head = (words, attributes = {}) => make("th", { scope: "col", ...attributes }, words);
const row = (title, ...cells) => make("tr", {}, make("th", { scope: "row" }, title), ...cells);
const table = (attributes, caption, heads, ...bodies) =>
  make(
    "table",
    attributes,
    make("caption", { class: "hidden" }, caption),
    make("thead", {}, make("tr", {}, ...heads)),
    ...bodies,
  );

// The firm's money: how amounts begin, and the word that units have for it ("$/ac", "CHF/h").
const coin = { before: "$", word: "$", digits: null };
function takeMoney({ code, sign, step }) {
  coin.word = "$€£¥".includes(sign) ? sign : code;
  coin.before = /[\p{L}.]$/u.test(sign) ? sign + "\u00a0" : sign;
  const decimals = Number.isInteger(step) ? 0 : 2;
  coin.digits = new Intl.NumberFormat("en-US", {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
  });
}
const money = value => (value < 0 ? "-" : "") + coin.before + coin.digits.format(Math.abs(value));
const isMoney = unit => unit === coin.word || unit.startsWith(coin.word + "/");

// Four digits, and whole numbers whole, as on the program's own pages.
const four = new Intl.NumberFormat("en-US", { maximumSignificantDigits: 4 });
const whole = new Intl.NumberFormat("en-US", { maximumFractionDigits: 0 });
const plain = { format: value => (Math.abs(value) >= 1000 ? whole : four).format(value) };
const hundredths = new Intl.NumberFormat("en-US", { maximumFractionDigits: 2 });
const percent = share => hundredths.format(100 * share) + " %";

// Hours after midnight, as people say them: "7:30 pm", "4:10 am the day after".
function clock(hours) {
  const minutes = Math.round(hours * 60);
  const days = Math.floor(minutes / 1440);
  const left = minutes - days * 1440;
  const time =
    left === 720
      ? "noon"
      : `${Math.floor(left / 60) % 12 || 12}:${String(left % 60).padStart(2, "0")} ` +
        (left < 720 ? "am" : "pm");
  if (days === 0) return time;
  const side = days < 0 ? "before" : "after";
  return time + (Math.abs(days) === 1 ? ` the day ${side}` : ` ${Math.abs(days)} days ${side}`);
}

// A number with its unit, as pages write it: $805.75/ac, 118 ac.
function quantity(value, unit) {
  if (value === null || value === undefined) return "no answer";
  if (isMoney(unit)) return money(value) + unit.slice(coin.word.length);
  if (unit === "clock") return clock(value);
  return plain.format(value) + (unit && unit !== "1" ? " " + unit : "");
}
function signed(value, unit) {
  if (Math.abs(value) < 0.005) return "no change";
  return (value > 0 ? "+" : "\u2212") + quantity(Math.abs(value), unit);
}
// A given by its label, and by whose it is where two have one label: "class of ground, top".
const called = line => page.called.get(line.name) || line.label || line.name;
function calledOf(givens) {
  const count = new Map();
  for (const { label } of givens) count.set(label, (count.get(label) ?? 0) + 1);
  return new Map(
    givens.map(({ name, label }) => {
      const whose = name.split(".").slice(0, -1).join(", ").replaceAll("_", " ");
      return [name, label && count.get(label) > 1 && whose ? `${label}, ${whose}` : label || name];
    }),
  );
}
const capital = words => words.charAt(0).toUpperCase() + words.slice(1);
const choiceLabel = name => name.replaceAll("_", " ");

// What went wrong, with the mends that can be pressed.
function told(answer, id, presses = []) {
  const helps = (answer.helps ?? []).map(help => make("li", {}, help.text));
  return make(
    "div",
    { class: "told", id, role: "alert" },
    make("b", {}, capital(answer.title) + "."),
    helps.length > 0 && make("ul", {}, ...helps),
    ...presses,
  );
}

function download(name, text) {
  const address = URL.createObjectURL(new Blob([text], { type: "text/plain" }));
  make("a", { href: address, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}

// Runs `work` once nothing has asked for it again for so many milliseconds.
function later(milliseconds, work) {
  let timer = 0;
  return (...words) => {
    clearTimeout(timer);
    timer = setTimeout(() => work(...words), milliseconds);
  };
}
