// Set out: one step a screen; what was read is judged at each key and kept at each stroke.
import { h, byId, button, verdict, figure, room } from "./dom.js";
import { say } from "./labels.js";
import { state, piece, kept, keep, subject } from "./store.js";
import { newest, ask } from "./asking.js";
import { keys, valueField, complete } from "./keypad.js";
import { make } from "./files.js";
import { unitOf } from "./measures.js";

let sheet = null, fault = null, checked = null, awake = null;
let at = { step: -1, readings: {} };

// Readings belong to what was measured: those of another piece, or of before an edit, are
// kept and come back with it.
const mine = () => JSON.stringify([state.piece, piece().measure, piece().outline ?? null, piece().base ?? null, state.job.unit ?? ""]);

export async function refresh() {
  const r = await newest("setout", { do: "setout", piece: state.piece, width: room("setout", 460) });
  if (!r) return;
  byId("setout").classList.remove("pale");
  sheet = r.setouts?.[0] ?? null;
  fault = r.fault ?? null;
  at = { step: -1, readings: {}, ...kept("pegs", {})[mine()] };
  draw();
}

export function stale() { byId("setout").classList.add("pale"); }

const mostKept = 8;

function store() {
  const { [mine()]: _, ...others } = kept("pegs", {});
  keep("pegs", Object.fromEntries([...Object.entries(others).slice(1 - mostKept), [mine(), at]]));
}

function go(to) {
  at.step = to;
  store();
  checked = null;
  draw();
  byId("main").scrollTo?.(0, 0);
  scrollTo(0, 0);
  byId("set-says")?.focus();
}

// The screen stays on while somebody pegs.
async function stayAwake(on) {
  try {
    if (on && !awake) { awake = await navigator.wakeLock?.request("screen"); awake?.addEventListener("release", () => { awake = null; }); } else if (!on && awake) { await awake.release(); awake = null; }
  } catch { awake = null; }
}
export const hidden = () => stayAwake(false);
document.addEventListener("visibilitychange", () => { if (!document.hidden && at.step >= 0 && !byId("setout").hidden) stayAwake(true); });

export function draw() {
  const el = byId("setout");
  if (!sheet) {
    stayAwake(false);
    el.replaceChildren(verdict("missing", fault?.what ?? say("nothingYet"), fault?.hint));
    return;
  }
  const n = sheet.steps.length;
  stayAwake(at.step >= 0 && at.step < n && !el.hidden);
  if (at.step < 0) first(el, n);
  else if (at.step < n) one(el, n);
  else last(el);
}

function first(el, n) {
  const same = Object.keys(at.readings).length;
  el.replaceChildren(
    h("h2", sheet.title),
    (sheet.warnings ?? []).map((w) => h("p.note.doubt", w)),
    (sheet.doubts ?? []).map((w) => h("p.note.doubt", w)),
    h("h3", say("bring")), h("ul", sheet.bring.map((b) => h("li", b))),
    h("h3", say("cautions")), h("ul", sheet.cautions.map((b) => h("li", b))),
    h("div.stack", {},
      same ? h("button.go", { type: "button", onclick: () => go(Math.min(n, at.furthest ?? 0)) }, say("goOn", { n: (at.furthest ?? 0) + 1 })) : null,
      button(same ? "afresh" : "begin", () => { at = { step: 0, furthest: 0, readings: {} }; go(0); }, {}, same ? "" : ".go"),
      button("sheet", () => make("setout", "pdf", say("sheet"), {}, false))));
}

function one(el, n) {
  const s = sheet.steps[at.step];
  at.furthest = at.step;
  store();
  el.replaceChildren(h("div.ground", {},
    h("p.count", say("step", { n: at.step + 1, all: n })),
    s.picture ? figure(s.picture) : null,
    h("p.says", { id: "set-says", tabindex: -1, "aria-live": "polite" }, s.says),
    s.check && s.token ? reading(s) : null,
    h("div.row.last", {},
      h("button", { type: "button", onclick: () => go(at.step - 1) }, "← ", say("back")),
      h("button.go", { type: "button", onclick: () => go(at.step + 1) }, at.step + 1 === n ? say("finish") : say("next"), " →"))));
}

// reading is what the tape shows, judged at each key by the program.
function reading(s) {
  const kind = s.angle ? "angle" : "distance";
  const said = h("div.judged", { role: "status" });
  const input = valueField(at.readings[s.token] ?? "", { "aria-label": say("reads"), id: "reads" });
  const judge = async () => {
    const text = complete(input.value, kind);
    if (text) at.readings[s.token] = input.value; else delete at.readings[s.token];
    store();
    if (!text) return said.replaceChildren();
    const r = await newest("judge", { do: "judge", piece: state.piece, check: s.check, found: [s.token + text] });
    if (!r) return;
    if (r.judged) said.replaceChildren(verdict(r.judged.good ? "fits" : "none", r.judged.says));
    else if (r.fault) said.replaceChildren(h("p.quiet", r.fault.what));
  };
  input.addEventListener("input", judge);
  judge();
  return h("div", h("label", { for: "reads" }, say("reads")), h("div.reading", input, h("span", { "aria-hidden": "true" }, s.angle ? "°" : unitOf())), said, keys(input, kind, unitOf(), judge));
}

const found = () => sheet.steps.filter((s) => s.token && at.readings[s.token]).map((s) => s.token + complete(at.readings[s.token], s.angle ? "angle" : "distance"));

// last holds all that was read against what was asked: the verdict, the move of a wrong
// peg, and the record.
async function last(el) {
  const tokens = found();
  const show = () => {
    const c = checked?.checks?.find((x) => x.piece === state.piece) ?? checked?.checks?.[0];
    el.replaceChildren(
      h("h2", sheet.title),
      h("div", { "aria-live": "polite" },
        c ? verdict(c.passed ? "fits" : "none", c.verdict, ...(c.advice ?? [])) : null,
        checked?.fault ? h("p.note.doubt", checked.fault.what, " ", checked.fault.hint ?? "") : null),
      h("h3", say("readings")),
      h("ul.list", sheet.steps.map((s, i) => s.token ? h("li", h("button" + (c?.readings.some((r) => subject(r.token) + "=" === s.token && !r.inside) ? ".bad" : ""), { type: "button", onclick: () => go(i) },
        h("b", s.token.slice(0, -1)), h("span", at.readings[s.token] ?? say("unread")), h("small", c?.readings.find((r) => subject(r.token) + "=" === s.token)?.says ?? ""))) : null)),
      h("div.stack", {},
        tokens.length ? button("record", () => make("check", "pdf", say("record"), { piece: state.piece, found: tokens }), {}, ".go") : null,
        tokens.length ? button("recordText", () => make("check", "txt", say("recordText"), { piece: state.piece, found: tokens })) : null,
        button("back", () => go(sheet.steps.length - 1)), button("start", () => go(-1))));
  };
  show();
  if (!checked && tokens.length) {
    checked = await ask({ do: "check", piece: state.piece, found: tokens });
    if (at.step >= sheet.steps.length) show();
  }
}
