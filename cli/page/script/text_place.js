// The text itself: model, season and job, edited here. A text that does not compile keeps the old
// answer; what is wrong stands below it with its line, and a mend is one press.

let file = "";
const drafts = new Map(); // name → text as typed, also while it is wrong
const mostBytes = 4194304;

places.push({
  name: "text",
  title: "Text",
  show: main => {
    const names = Object.keys(page.texts.texts);
    file = names.includes(file) ? file : page.texts.jobs[state.job].name;
    const area = make("textarea", {
      id: "text",
      class: "code",
      spellcheck: "false",
      autocapitalize: "off",
      rows: 24,
      "aria-label": file,
      "aria-describedby": "text-said",
      oninput: () => typed(area, file),
      onchange: () => judge(area.value, true),
    });
    area.value = drafts.get(file) ?? textOf(file);
    area.addEventListener("paste", event =>
      tooLong(event.clipboardData.getData("text").length, event),
    );
    const pick = make(
      "select",
      {
        id: "file",
        class: "btn",
        "aria-label": "Text",
        onchange: event => {
          judge(area.value, true);
          file = event.target.value;
          showPlace();
        },
      },
      ...names.map(name =>
        make(
          "option",
          { value: name, selected: name === file },
          name + (state.texts.has(name) ? " (changed)" : ""),
        ),
      ),
    );
    main.replaceChildren(
      make(
        "div",
        { class: "wrap" },
        make(
          "div",
          { class: "block" },
          make("h2", {}, "Text"),
          make(
            "p",
            { class: "because" },
            "Whatever is changed here answers as it is typed. The file on your disk stays " +
              "as it is until you put the download in its place.",
          ),
          make(
            "div",
            { class: "row-actions no-print" },
            pick,
            button("Download this text", () => download(file.replace(/^.*\//, ""), area.value)),
            button("Put back as written", () => {
              area.value = page.texts.texts[file];
              judge(area.value, true);
            }),
          ),
          area,
          make("div", { id: "text-said", "aria-live": "polite" }),
        ),
      ),
    );
    judge(area.value, false);
  },
});

const textOf = name => state.texts.get(name) ?? page.texts.texts[name];
const typed = later(300, (area, name) => {
  if (area.isConnected && name === file) judge(area.value, true);
});

function tooLong(length, event) {
  if (length <= mostBytes) return false;
  event?.preventDefault();
  byId("text-said").replaceChildren(
    told(
      {
        title:
          `${plain.format(length)} characters are more than the limit of ` +
          plain.format(mostBytes),
        helps: [],
      },
      "text-e",
    ),
  );
  return true;
}

// Tries the text. If it has a price it stays; otherwise the engine gets the last good one back.
function judge(text, keep) {
  if (tooLong(text.length)) return;
  const good = textOf(file);
  if (text !== good) page.ask({ ask: "text", name: file, text });
  const said = page.ask({ ask: "check", name: file });
  const answer = askPrice(setsOf(state.sets));
  showSaid(failed(said) ? [said] : said.files[0].diagnostics, text);
  if (failed(answer)) {
    page.ask({ ask: "text", name: file, text: good });
    drafts.set(file, text);
    page.wrong = { name: "", typed: "", answer };
    showBand();
    return;
  }
  drafts.delete(file);
  if (!keep || text === good) {
    if (page.wrong) {
      page.wrong = null;
      showBand();
    }
    return;
  }
  remember();
  if (text === page.texts.texts[file]) state.texts.delete(file);
  else state.texts.set(file, text);
  page.wrong = null;
  page.price = answer;
  writeAddress();
  quietly();
}
// Everything but this place, which somebody is typing in.
function quietly() {
  const full = page.ask(asked("price", { lines: true }));
  if (!failed(full)) page.full = page.price = full;
  takeGivens();
  showBand();
}

function showSaid(list, text) {
  byId("text-said").replaceChildren(
    ...list.map(one =>
      make(
        "div",
        { class: one.severity === "warning" ? "told warned" : "told" },
        make(
          "b",
          {},
          one.start && one.path === file ? `Line ${one.start.line}. ` : "",
          capital(one.title) + ".",
        ),
        one.start && one.path === file && make("code", {}, text.split("\n")[one.start.line - 1]),
        one.labels?.[0]?.text && make("p", {}, one.labels[0].text),
        ...(one.helps ?? []).map(help =>
          make(
            "p",
            {},
            help.text,
            help.edit && help.edit.path === file && [" ", button("Mend it", () => mend(help.edit))],
          ),
        ),
      ),
    ),
  );
}

// Places count bytes of UTF-8.
function mend(edit) {
  const area = byId("text");
  const bytes = new TextEncoder().encode(area.value);
  const words = (from, to) => new TextDecoder().decode(bytes.slice(from, to));
  area.value = words(0, edit.start.offset) + edit.replacement + words(edit.end.offset);
  area.focus();
  judge(area.value, true);
}
