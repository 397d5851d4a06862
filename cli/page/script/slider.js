// A slider over the swing of a given, with the price as a curve behind it; hatched where there is
// no answer.

const sliderSteps = 100;

// A value on the way, with no more digits than a step can tell.
function rounded(given, value) {
  const step = (given.swing.high - given.swing.low) / sliderSteps;
  const digits = Math.max(0, Math.min(8, -Math.floor(Math.log10(step || 1))));
  return Number(value.toFixed(digits));
}

function slider(given, box) {
  const { low, high, low_text, high_text } = given.swing;
  if (!(high > low)) return "";
  const now = make("span", { class: "now" }, given.text);
  const curve = draw("svg", {
    "aria-hidden": "true",
    preserveAspectRatio: "none",
    viewBox: "0 0 100 40",
  });
  const range = make("input", {
    type: "range",
    id: "s-" + given.name,
    min: low,
    max: high,
    step: (high - low) / sliderSteps,
    value: given.value,
    "aria-label": `${called(given)}, slide`,
    "aria-valuetext": `${given.text}, ${page.price.price.per_unit_text}`,
    oninput: () => {
      const value = String(rounded(given, Number(range.value)));
      const answer = change(given, value, range.dataset.drag === "on");
      if (!failed(answer)) range.dataset.drag = "on";
      const words = failed(answer)
        ? "no answer: " + answer.title
        : answer.price.per_unit_text || answer.price.total_text;
      now.textContent = `${quantity(Number(value), given.unit)}: ${words}`;
      range.setAttribute("aria-valuetext", now.textContent);
      const field = box.querySelector(".field input");
      field.value = value;
    },
    onchange: () => {
      range.dataset.drag = "";
      if (!page.wrong) return;
      page.wrong = null; // back to where there was a price
      showBand();
      rest();
    },
  });
  seen.observe(Object.assign(curve, { given }));
  return make(
    "div",
    { class: "swing wide no-print" },
    curve,
    range,
    make("p", { class: "ends meta" }, make("span", {}, low_text), now, make("span", {}, high_text)),
  );
}

// Only those in sight are drawn.
const seen = new IntersectionObserver(entries => {
  for (const { isIntersecting, target } of entries) {
    if (!isIntersecting) continue;
    seen.unobserve(target);
    setTimeout(() => drawCurve(target.given, target));
  }
});

// A hundredth apart: where the model refuses is seen before somebody falls off.
function drawCurve(given, svg) {
  if (svg.childElementCount > 0) return;
  const grid = page.ask(
    asked("grid", {
      along: [{ given: given.name, from: given.swing.low, to: given.swing.high, count: 101 }],
    }),
  );
  if (failed(grid)) return;
  const prices = grid.lines[0].values;
  const known = prices.filter(price => price !== null);
  const least = Math.min(...known);
  const height = price => 37 - (32 * (price - least)) / (Math.max(...known) - least || 1);
  let path = "";
  prices.forEach((price, x) => {
    if (price === null)
      svg.append(draw("rect", { x: x - 0.5, y: 0, width: 1, height: 40, class: "no" }));
    else path += (path && prices[x - 1] !== null ? "L" : "M") + x + " " + height(price).toFixed(2);
  });
  svg.append(draw("path", { d: path, class: "curve", "vector-effect": "non-scaling-stroke" }));
}
