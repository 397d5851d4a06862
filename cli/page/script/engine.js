"use strict";
// The engine: a module and its one call, question in, answer out. The page and its worker both run
// this file, so it names nothing of either.

// What the module may ask of its surroundings: to say how far a long answer has come, and what its
// C library asks before it starts. It has no files, no clock and no network; whatever else it asks
// for, it does not start.
function importsFor(module, passed, memory) {
  const known = {
    "page.passed": passed,
    "env.emscripten_notify_memory_growth": () => {},
    "wasi_snapshot_preview1.proc_exit": code => {
      throw new Error(`the engine gave up (${code})`);
    },
    // There are no variables of an environment: none, of no bytes.
    "wasi_snapshot_preview1.environ_sizes_get": (count, bytes) => {
      const view = new DataView(memory().buffer);
      view.setUint32(count, 0, true);
      view.setUint32(bytes, 0, true);
      return 0;
    },
    "wasi_snapshot_preview1.environ_get": () => 0,
  };
  const imports = {};
  for (const { module: from, name, kind } of WebAssembly.Module.imports(module)) {
    const given = known[`${from}.${name}`];
    if (kind !== "function" || given === undefined)
      throw new Error(`the engine asks for what a page does not give: ${from}.${name}`);
    (imports[from] ??= {})[name] = given;
  }
  return imports;
}

async function startEngine(module, passed = () => {}) {
  let exports = null;
  const imports = importsFor(module, passed, () => exports.memory);
  exports = (await WebAssembly.instantiate(module, imports)).exports;
  exports._initialize?.();
  const encoder = new TextEncoder();
  const decoder = new TextDecoder();
  // Throws only when the module itself gave up; then another one has to be started.
  return question => {
    const bytes = encoder.encode(JSON.stringify(question));
    const at = exports.room(bytes.length);
    new Uint8Array(exports.memory.buffer, at, bytes.length).set(bytes);
    const length = exports.ask();
    return JSON.parse(
      decoder.decode(new Uint8Array(exports.memory.buffer, exports.answer(), length)),
    );
  };
}

const failed = answer => answer.schema === "acrewright.failure/1";

// In the worker: the module, the texts and what is asked; every question has its answer as soon as
// it is there.
if (typeof document === "undefined") {
  onmessage = async ({ data }) => {
    try {
      let done = 0;
      const ask = await startEngine(data.module, trials => postMessage({ done: (done += trials) }));
      ask({ ask: "texts", texts: data.texts });
      for (const question of data.questions) postMessage({ answer: ask(question) });
    } catch (error) {
      postMessage({ broken: String(error) });
    }
  };
}
