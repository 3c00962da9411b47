// Asking the program: of each kind the newest question wins, the one before it is let go.
import * as carrier from "./carrier.js";
import { state } from "./store.js";

const running = {}, waiting = {};

// question asks with all that every question carries.
export function question(what) {
  return { version: 1, job: state.job, printers: state.printers, ...what };
}

export const ask = (what, bytes) => carrier.ask(question(what), bytes);
export const { stop } = carrier;

// newest asks, or where one of its kind runs, waits for it with the latest question alone;
// sheets that are being laid are given up. What is no longer asked is answered with null.
export function newest(kind, what) {
  waiting[kind]?.(null);
  delete waiting[kind];
  if (running[kind] && kind === "pages") carrier.stop(kind);
  if (running[kind]) return new Promise((give) => { waiting[kind] = (go) => give(go && newest(kind, what)); });
  running[kind] = true;
  const done = () => {
    running[kind] = false;
    const next = waiting[kind];
    delete waiting[kind];
    next?.(true);
    return !next;
  };
  return ask(what).then((r) => (done() ? r : null), (e) => { done(); throw e; });
}

// later runs f when for so many milliseconds nobody called it again.
export function later(f, ms) {
  let timer;
  return () => { clearTimeout(timer); timer = setTimeout(f, ms); };
}
