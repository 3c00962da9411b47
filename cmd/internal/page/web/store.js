// What is kept: the job (a job file in JSON), where somebody is in it, printers. Of a device
// that keeps nothing is told; the page goes on.
import { say } from "./labels.js";
import { tell } from "./dom.js";

const prefix = "trammel.";

export function kept(key, otherwise) {
  try {
    const text = localStorage.getItem(prefix + key);
    return text === null ? otherwise : JSON.parse(text);
  } catch { return otherwise; }
}

export function keep(key, value) {
  try { localStorage.setItem(prefix + key, JSON.stringify(value)); return true; } catch {
    if (document.getElementById("state").hidden) tell(say("keepsNothing"), "doubt stays");
    return false;
  }
}

export const blank = () => ({ unit: "mm", pieces: [{ measure: [] }] });

const before = kept("job");
export const state = {
  job: before?.pieces?.length ? before : blank(),
  piece: 0,
  lists: null,
  printers: kept("printers", {}),
};

const undos = [];
const listeners = [];
export const changed = (f) => listeners.push(f);
export const piece = () => state.job.pieces[state.piece] ??= { measure: [] };

// edit changes the job; it can be undone.
export function edit(change) {
  const old = JSON.stringify(state.job);
  const job = JSON.parse(old);
  state.job = change(job, job.pieces[state.piece] ??= { measure: [] }) ?? job;
  if (JSON.stringify(state.job) === old) return;
  undos.push({ job: old, piece: state.piece });
  if (undos.length > 200) undos.shift();
  tidy();
}

export function undo() {
  const last = undos.pop();
  if (!last) return false;
  state.job = JSON.parse(last.job);
  state.piece = last.piece;
  tidy();
  return true;
}
export const canUndo = () => undos.length > 0;

// replace puts another job in its place: what was made before is a job of its own.
export function replace(job) {
  edit(() => job);
  state.piece = 0;
  tidy();
}

function tidy() {
  state.piece = Math.max(0, Math.min(state.piece, state.job.pieces.length - 1));
  keep("job", state.job);
  listeners.forEach((f) => f());
}

// set puts a key of the job, or takes it out.
export function set(o, key, value) {
  if (value === "" || value === undefined || value === null) delete o[key];
  else o[key] = value;
}

// made is what a job says of how it is printed and has no key of its own for.
export const made = (key) => state.job.made_with?.[key] ?? "";
export function setMade(key, value) {
  edit((job) => {
    const m = { ...job.made_with };
    set(m, key, value);
    if (Object.keys(m).length) job.made_with = m; else delete job.made_with;
  });
}

// Names of points in a word that says what is measured: AB, C-AB, A1B2.
export const namesIn = (word) => word.match(/\p{L}\d*/gu) ?? [];
export const subject = (token) => token.split("=")[0].trim();
export const points = (p) => [...new Set([...(p.outline ?? []), ...p.measure.flatMap((t) => namesIn(subject(t)))])].sort(inOrder);
export const inOrder = (a, b) => a[0] === b[0] ? Number(a.slice(1) || 0) - Number(b.slice(1) || 0) : a < b ? -1 : 1;
