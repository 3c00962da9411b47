// Carries questions to the program and brings back what it says: to the server that made
// the page, or to WebAssembly in a worker. Documents and sheets have lanes of their
// own, so that a long one neither holds up the picture nor cannot be stopped.
import { how } from "./how.js";

const encode = new TextEncoder(), decode = new TextDecoder();
const lanes = { quick: null }; // and one for each kind of question that may take seconds
let module = null; // compiled once, for all workers
let loading = null, told = () => {};

// ready resolves when the program can be asked; progress hears bytes loaded and all.
export function ready(progress) {
  if (progress) told = progress;
  if (how.carrier === "http") return Promise.resolve();
  offline ??= keep();
  lanes.quick ??= lane();
  return (loading ??= lanes.quick.up);
}

// offline resolves to whether the page is kept for later without a network.
export let offline = null;

// ask gives the reply with the bytes of its file, if it has one.
export async function ask(question, bytes) {
  const line = encode.encode(JSON.stringify(question) + "\n");
  const all = new Uint8Array(line.length + (bytes?.length ?? 0));
  all.set(line);
  if (bytes) all.set(bytes, line.length);
  const slow = ["make", "pages"].includes(question.do) && question.do;
  return read(await (how.carrier === "http" ? sent(all, slow) : worked(all, slow)));
}

// stop ends the document that is being made, or sheets that are laid; the question fails
// with an AbortError.
export function stop(slow = "make") {
  lanes[slow]?.end();
  lanes[slow] = null;
}

function read(all) {
  const at = all.indexOf(10);
  const reply = JSON.parse(decode.decode(all.subarray(0, at)));
  const file = all.subarray(at + 1);
  return Object.assign(reply, { bytes: file.length ? file : null });
}

async function sent(body, slow) {
  const given = new AbortController();
  if (slow) {
    stop(slow);
    lanes[slow] = { end: () => given.abort() };
  }
  const r = await fetch("answer", { method: "POST", body, headers: { "Content-Type": "application/octet-stream" }, signal: given.signal }).catch((e) => {
    if (e.name === "AbortError") throw e;
    throw new Error("The program does not answer: is it still running where it was started? What was typed is kept.");
  });
  if (!r.ok) throw new Error((await r.text()).trim());
  return new Uint8Array(await r.arrayBuffer());
}

async function worked(all, slow) {
  await ready();
  const l = slow ? (lanes[slow] ??= lane(module)) : lanes.quick;
  await l.up;
  return l.ask(all);
}

// lane is a worker that answers one question after the other.
function lane(compiled) {
  const w = new Worker("worker.js");
  const open = [];
  let start, fail;
  const up = new Promise((yes, no) => { start = yes; fail = no; });
  const down = (e) => {
    fail(e);
    for (const o of open.splice(0)) o.no(e);
  };
  w.onmessage = ({ data }) => {
    if (data.loaded !== undefined) told(data.loaded, data.of);
    else if (data.module) { module = data.module; start(); }
    else if (data.up) start();
    else if (data.failed) down(new Error(data.failed));
    else open.shift().yes(new Uint8Array(data.reply));
  };
  w.onerror = () => down(new Error("The program could not be started here. Load the page again; what was typed is kept."));
  w.postMessage({ start: true, module: compiled, bytes: how.bytes });
  return {
    up,
    ask: (all) => new Promise((yes, no) => { open.push({ yes, no }); w.postMessage({ ask: all.buffer }, [all.buffer]); }),
    end: () => { w.terminate(); down(new DOMException("stopped", "AbortError")); },
  };
}

// keep has the service worker keep all files, so that the page opens without a network.
async function keep() {
  if (!navigator.serviceWorker) return false;
  try {
    await navigator.serviceWorker.register("sw.js", { updateViaCache: "none" });
    await navigator.serviceWorker.ready;
    return true;
  } catch { return false; } // a private window, or no room: the page works all the same
}
