"use strict";
// The engine: a module and its one call, question in, answer out. The page and its worker both run
// this file, so it names nothing of either.

// What the module asks of its surroundings: how far a long answer has come, and nothing else that
// matters. It has no files, no clock and no network.
function importsFor(module, passed) {
  const imports = {};
  for (const { module: from, name, kind } of WebAssembly.Module.imports(module))
    if (kind === "function") (imports[from] ??= {})[name] = name === "passed" ? passed : () => 0;
  return imports;
}

async function startEngine(module, passed = () => {}) {
  const { exports } = await WebAssembly.instantiate(module, importsFor(module, passed));
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

// In the worker: the module and the texts come once, then questions.
if (typeof document === "undefined") {
  let ask = null;
  let done = 0;
  onmessage = async ({ data }) => {
    try {
      if (data.module) {
        ask = await startEngine(data.module, trials => postMessage({ done: (done += trials) }));
        ask({ ask: "texts", texts: data.texts });
      }
      done = 0;
      postMessage({ answer: ask(data.question) });
    } catch (error) {
      postMessage({ broken: String(error) });
    }
  };
}
