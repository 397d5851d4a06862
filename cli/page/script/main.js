// From the texts in the page to the first price.

const textIn = id => byId(id).textContent;

async function unpack(base64) {
  if (typeof WebAssembly === "undefined") throw new Error("this browser has no WebAssembly");
  if (typeof DecompressionStream === "undefined")
    throw new Error("this browser cannot unpack the engine");
  const packed = atob(base64);
  const bytes = new Uint8Array(packed.length);
  for (let i = 0; i < bytes.length; ++i) bytes[i] = packed.charCodeAt(i);
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
  return new Response(stream).arrayBuffer();
}

function showHead() {
  const { job } = page.price;
  byId("title").textContent = job.title || page.texts.jobs[state.job].name;
  const date = job.date
    ? new Date(job.date + "T12:00").toLocaleDateString("en-US", { dateStyle: "long" })
    : "";
  byId("for").textContent = [job.for && "For " + job.for, date, job.option]
    .filter(Boolean)
    .join(", ");
  const { per_unit_text: each, total_text: total } = page.price.price;
  document.title = `${byId("title").textContent}: ${each || total}`;
}

async function start() {
  page.texts = JSON.parse(textIn("texts"));
  const bytes = await unpack(textIn("module"));
  page.module = await WebAssembly.compile(bytes);
  page.ask = await startEngine(page.module);
  page.ask({ ask: "texts", texts: page.texts });
  const first = page.ask(asked("price"));
  if (failed(first)) throw new Error(first.title);
  page.written = page.price = page.full = first;
  takeMoney(first.money);
  readAddress();
  for (const [name, text] of state.texts) page.ask({ ask: "text", name, text });
  const linked =
    state.sets.size + state.texts.size > 0 || state.option || state.season || state.job > 0;
  const answer = linked ? askPrice(setsOf(state.sets)) : first;
  if (failed(answer)) {
    page.wrong = { name: "", typed: "", answer };
    restore({ ...snapshot(), job: 0, option: "", season: "", sets: new Map(), texts: new Map() });
  } else {
    page.price = answer;
    takeWritten(answer);
  }
  byId("live").hidden = false;
  document.body.dataset.ready = "price";
  showBand();
  showPlaces();
  performance.mark("first price");
  setTimeout(() => {
    refresh();
    document.body.dataset.ready = "all";
  });
}

start().catch(error => {
  byId("cannot").replaceChildren(
    make(
      "p",
      { class: "told" },
      `${capital(String(error.message ?? error))}. The price below is as it was written; ` +
        "open the page in a current browser to change it.",
    ),
  );
});
addEventListener("keydown", event => {
  const typing = event.target.matches?.("input, textarea, select");
  if ((event.ctrlKey || event.metaKey) && event.key === "z" && !typing) {
    event.preventDefault();
    undo();
  }
});
