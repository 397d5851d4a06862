// What the tests of the page share: the program, pages that it writes, the engine inside one.
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";

export const root = new URL("../..", import.meta.url).pathname;
export const program = process.env.ACREWRIGHT_PROGRAM ?? join(root, "build/cli/acrewright");
export const folder = mkdtempSync(join(tmpdir(), "acrewright-page-"));
process.on("exit", () => rmSync(folder, { recursive: true, force: true }));

// The program's words on standard output, whatever its exit code.
export function run(...words) {
  try {
    return execFileSync(program, words, {
      cwd: root,
      encoding: "utf8",
      maxBuffer: 1 << 28,
      stdio: ["ignore", "pipe", "pipe"],
    });
  } catch (failure) {
    if (failure.stdout === undefined) throw failure;
    return failure.stdout;
  }
}
export const ask = (...words) => JSON.parse(run(...words, "--json"));

export function writePage(name, ...words) {
  const file = join(folder, name);
  execFileSync(program, ["page", ...words, "--write", file], {
    cwd: root,
    stdio: ["ignore", "pipe", "pipe"],
  });
  return file;
}

const part = (html, id) => html.match(new RegExp(`<script[^>]* id="${id}">(.*?)</script>`, "s"))[1];

// Of a page: what its own script starts a module with.
export function engineScript(file) {
  const text = part(readFileSync(file, "utf8"), "engine");
  return new Function("document", text + "\nreturn startEngine;")({});
}

// The engine of a page, as its own script starts it.
export async function engineOf(file) {
  const html = readFileSync(file, "utf8");
  const wasm = gunzipSync(Buffer.from(part(html, "module"), "base64"));
  const module = await WebAssembly.compile(wasm);
  const question = await engineScript(file)(module);
  const texts = JSON.parse(part(html, "texts"));
  question({ ask: "texts", texts });
  return { question, texts, bytes: { page: Buffer.byteLength(html), wasm: wasm.length } };
}

// Where two answers differ: words must be the same, numbers within a share of the larger.
export function differences(ours, theirs, share = 1e-12, at = "") {
  if (typeof ours === "number" && typeof theirs === "number") {
    const near = Math.abs(ours - theirs) <= share * Math.max(Math.abs(ours), Math.abs(theirs), 1);
    return near ? [] : [`${at}: ${ours} and ${theirs}`];
  }
  if (ours === null || theirs === null || typeof ours !== "object" || typeof theirs !== "object")
    return ours === theirs ? [] : [`${at}: ${JSON.stringify(ours)} and ${JSON.stringify(theirs)}`];
  const keys = new Set([...Object.keys(ours), ...Object.keys(theirs)]);
  return [...keys].flatMap(key =>
    differences(ours[key], theirs[key], share, at ? `${at}.${key}` : key),
  );
}

// The same numbers on every machine.
export function numbers(seed) {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}
