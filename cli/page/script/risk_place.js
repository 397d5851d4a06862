// Risk on demand: trials in a worker, so that the page never waits, with a bar and a stop button.

const risk = { worker: null, done: 0, wanted: 20000, answer: null, about: "", state: "never" };
const riskAbout = () => JSON.stringify(asked("risk"));

places.push({
  name: "risk",
  title: "Risk",
  show: main => {
    main.replaceChildren(
      make(
        "div",
        { class: "wrap" },
        make(
          "div",
          { class: "block" },
          make("h2", {}, "Risk"),
          make(
            "p",
            { class: "because" },
            "Draws every input from its swing and every event by its chance, over and over, and " +
              "prices the job each time.",
          ),
          make(
            "div",
            { class: "row-actions no-print" },
            risk.state === "running"
              ? button("Stop", stopRisk, { class: "btn main", id: "risk-go" })
              : button(`Run ${plain.format(risk.wanted)} trials`, runRisk, {
                  class: "btn main",
                  id: "risk-go",
                }),
          ),
          progress(),
          riskWords(),
        ),
      ),
    );
  },
});

function progress() {
  if (risk.state !== "running") return "";
  if (risk.answer !== null)
    return make("p", { class: "meta" }, "Working out what drives the spread\u2026");
  const bar = make("i", { id: "risk-bar" });
  bar.style.width = Math.min(100, (100 * risk.done) / risk.wanted) + "%";
  return make(
    "div",
    {
      class: "progress",
      role: "progressbar",
      "aria-label": "Trials",
      id: "risk-progress",
      "aria-valuemin": 0,
      "aria-valuemax": risk.wanted,
      "aria-valuenow": risk.done,
    },
    bar,
  );
}

function runRisk() {
  const address = URL.createObjectURL(
    new Blob([byId("engine").textContent], { type: "text/javascript" }),
  );
  risk.worker = new Worker(address);
  URL.revokeObjectURL(address);
  Object.assign(risk, {
    done: 0,
    answer: null,
    state: "running",
    about: riskAbout(),
    began: performance.now(),
  });
  const texts = structuredClone(page.texts);
  for (const [name, text] of state.texts) texts.texts[name] = text;
  risk.worker.onmessage = ({ data }) => heard(data);
  risk.worker.onerror = event => heard({ broken: event.message });
  risk.worker.postMessage({
    module: page.module,
    texts,
    // The trials themselves are there at once; what drives their spread takes longer.
    questions: [false, true].map(shares =>
      asked("risk", { trials: risk.wanted, seed: 1, shares }),
    ),
  });
  showIfRisk();
}

function heard(data) {
  if (risk.state !== "running") return;
  if (data.done !== undefined) {
    risk.done = Math.min(data.done, risk.wanted);
    const bar = byId("risk-bar");
    if (bar) {
      bar.style.width = (100 * risk.done) / risk.wanted + "%";
      bar.parentElement.setAttribute("aria-valuenow", risk.done);
    }
    return;
  }
  const first = risk.answer === null && data.answer && !failed(data.answer);
  if (risk.answer === null || (data.answer && !failed(data.answer)))
    risk.answer = data.answer ?? {
      schema: "acrewright.failure/1",
      title: "the trials broke off: " + data.broken,
      helps: [],
    };
  if (first) risk.took = performance.now() - risk.began;
  else endRisk("done");
  showIfRisk();
}

function endRisk(how) {
  risk.worker?.terminate();
  Object.assign(risk, { state: how, worker: null });
}
function stopRisk() {
  endRisk(risk.answer === null ? "stopped" : "done");
  showIfRisk();
}
const showIfRisk = () => {
  if (place === "risk") {
    showPlace();
    byId("risk-go")?.focus();
  }
};

function riskWords() {
  if (risk.state === "stopped")
    return make(
      "p",
      { class: "meta" },
      `Stopped after ${plain.format(risk.done)} of ${plain.format(risk.wanted)} trials.`,
    );
  if (risk.answer === null) return "";
  if (failed(risk.answer)) return told(risk.answer, "risk-e");
  const { answer } = risk;
  const stale = risk.about !== riskAbout();
  return make(
    "div",
    { class: stale ? "stale" : "" },
    stale && make("p", { class: "loss" }, "Changed since these trials. Run them again."),
    make(
      "dl",
      { class: "facts" },
      answer.loss !== null &&
        answer.loss !== undefined &&
        make(
          "div",
          {},
          make("dt", {}, "Chance of a loss at the price quoted"),
          make("dd", {}, percent(answer.loss)),
        ),
      make("div", {}, make("dt", {}, "Trials"), make("dd", {}, plain.format(answer.trials))),
      answer.without_answer > 0 &&
        make(
          "div",
          {},
          make("dt", {}, "Trials without an answer"),
          make("dd", {}, plain.format(answer.without_answer)),
        ),
    ),
    make(
      "div",
      { class: "scroll", tabindex: "0", role: "region", "aria-label": "The spread of each figure" },
      table(
        {},
        "The spread of each figure",
        [
          head("", {}),
          ...["5 %", "25 %", "half", "75 %", "95 %", "as quoted"].map(words =>
            head(words, { class: "num" }),
          ),
        ],
        make("tbody", {}, ...answer.measured.map(measured)),
      ),
    ),
    ...(answer.refusals ?? []).map(one =>
      make(
        "p",
        { class: "meta" },
        `${percent(one.chance)} of trials: ${one.name}` +
          (one.cost === null ? "" : `, ${money(one.cost)}`),
      ),
    ),
    shares(answer.shares),
  );
}

const measuredName = {
  cost: "Direct cost",
  profit: "Contribution",
  margin: "Contribution, of the price",
  "price.per_unit": "Price, all in",
};
const afterOverhead = { profit: "Profit", margin: "Margin after overhead" };

function measured(one) {
  const names =
    risk.answer.overhead === undefined ? measuredName : { ...measuredName, ...afterOverhead };
  const share = value =>
    one.name === "margin" || one.unit === "%" ? percent(value) : quantity(value, one.unit);
  const at = wanted =>
    cell(share(one.percentiles.find(point => Math.abs(point.share - wanted) < 1e-9)?.value));
  return row(
    capital(one.label || names[one.name] || one.name),
    ...[0.05, 0.25, 0.5, 0.75, 0.95].map(at),
    cell(share(one.at_job)),
  );
}

function shares(answer) {
  if (!answer) return "";
  return make(
    "div",
    { class: "block", id: "drives" },
    make("h2", {}, "What drives the spread"),
    table(
      {},
      "Shares of the spread",
      [head("", {}), head("Alone", { class: "num" }), head("With interactions", { class: "num" })],
      make(
        "tbody",
        {},
        ...answer.factors
          .slice(0, 10)
          .map(one =>
            row(
              capital(called(one)),
              cell(percent(one.first)),
              cell(percent(one.total)),
            ),
          ),
      ),
    ),
  );
}
