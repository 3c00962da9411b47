// Measures: the sketch to tap, the verdict, what was measured, points and pieces.
import { h, byId, button, field, choice, figure, room, dialog, sentence, verdict, tell } from "./dom.js";
import { say } from "./labels.js";
import { state, edit, undo, canUndo, piece, set, points, subject, namesIn, inOrder, keep } from "./store.js";
import { keypad } from "./keypad.js";

let looks = [], fault = null;

export const look = () => looks.find((l) => l.piece === state.piece && l.picked) ?? looks.find((l) => l.piece === state.piece);
export const unitOf = () => state.job.unit || "mm";

// answered takes the program's answer to the newest edit.
export function answered(reply) {
  fault = reply.fault ?? null;
  if (fault?.kind !== "words" || !look()) looks = reply.looks ?? []; // of words that are wrong the picture of before stays, pale
  if (looks.length) keep("looks", looks.slice(0, 4));
  draw();
}

// before shows what was kept, until the program has started.
export function before(keptLooks) {
  looks = keptLooks ?? [];
  draw();
}

export function draw() {
  const el = byId("measures"), held = document.activeElement?.dataset?.of, mine = looks.filter((l) => l.piece === state.piece);
  const shown = mine[0];
  el.classList.toggle("pale", fault?.kind === "words");
  el.replaceChildren(...[
    pieces(),
    h("div.work", {},
      h("div", mine.length > 1 ? several(mine) : shown?.picture ? figure(shown.picture, tapped) : h("figure.sketch"),
        h("p.quiet", say("tap"))),
      h("div.told", judged(shown), warnings(shown), list(shown), actions(), settings())),
  ].filter(Boolean));
  if (held) el.querySelector(`button[data-of="${CSS.escape(held)}"]`)?.focus();
}

// width that a picture may have: half of it where two stand side by side.
export const width = () => {
  const all = room("measures");
  return all > 640 && looks.filter((l) => l.piece === state.piece).length > 1 ? Math.floor(all / 2) - 24 : all;
};

function pieces() {
  if (state.job.pieces.length < 2) return null;
  return field("pieceName", choice(state.job.pieces.map((p, i) => [i, p.name || say("piece", { n: i + 1 })]), state.piece, (v) => { state.piece = Number(v); draw(); state.show?.(); }));
}

// judged is never green beside a doubt.
let spoken = "";
function judged(l) {
  const other = fault?.piece !== undefined && fault.piece !== state.piece; // of another piece
  const kind = fault && !other && fault.kind !== "missing" ? (fault.kind === "many" ? "two" : fault.kind === "slip" ? "doubt" : fault.kind === "words" ? "words" : "none") : l?.verdict ?? "missing";
  const said = fault && !other ? [l?.says && l.says !== fault.what && fault.kind !== "words" ? l.says : null, fault.what, fault.hint] : [l?.says];
  const text = said.filter(Boolean).join(" ");
  if (text !== spoken) { spoken = text; byId("heard").textContent = text; }
  return verdict(kind, ...said);
}

function warnings(l) {
  if (!l) return null;
  const all = l.suspects ?? [], first = all.filter((s, i) => i === 0 || s.alike), rest = all.filter((s) => !first.includes(s));
  const one = (s) => h("div.suspect", h("p", s.says),
    h("div.row", button("look", () => measure(s.of), { of: s.of }),
      (s.likely ?? []).slice(0, 2).map((t) => button("likely", () => edit((_, p) => { p.measure[s.measure] = t; }), { of: t.replace("=", " ") }))));
  const said = [...all.map((s) => plain(s.says)), plain(fault?.what)];
  return h("div", first.map(one),
    (l.warnings ?? []).filter((w) => !said.includes(plain(w))).map((w) => h("p.note.doubt", sentence(w))),
    rest.length ? h("details", h("summary", say("rest")), rest.map(one)) : null);
}

const plain = (text) => (text ?? "").replace(/[.]$/, "").toLowerCase();

// several are drawn side by side: one is taken by a tap.
function several(mine) {
  return h("div.several", mine.map((l) => h("article", { "aria-label": l.title },
    figure(l.picture, tapped),
    Object.keys(l.choose ?? {}).length ? button("thisOne", () => edit((_, p) => Object.assign(p, l.choose)), {}, ".go") : null)));
}

const indexOf = (of) => piece().measure.findIndex((t) => subject(t) === of);

function tapped(tag) { measure(tag.of, tag.kind); }

const kindOf = (of) => (of.includes("-") ? "height" : namesIn(of).length === 2 ? "distance" : "angle");

// measure opens the keypad on one thing.
export function measure(of, kind = kindOf(of), first) {
  const i = indexOf(of), old = i < 0 ? "" : piece().measure[i].split("=").slice(1).join("=").trim();
  const suspect = look()?.suspects?.find((s) => s.of === of);
  const input = keypad({ title: say(kind, { of }), kind, value: old, unit: unitOf(), hint: suspect?.says, known: i >= 0 }, (text) => {
    edit((_, p) => {
      if (text && i >= 0) p.measure[i] = `${of}=${text}`;
      else if (text) p.measure.push(`${of}=${text}`);
      else if (i >= 0) p.measure.splice(i, 1);
      if (!text && i >= 0 || i < 0) delete p.pick; // another question: the answer to the last one does not hold
    });
    byId("measures").querySelector(`button[data-of="${CSS.escape(of)}"]`)?.focus();
  });
  if (first) { input.value = first; input.setSelectionRange(1, 1); }
}

function list(l) {
  if (!piece().measure.length) return null;
  const wrong = fault?.where?.match(/^\/pieces\/(\d+)\/measure\/(\d+)/);
  return h("div", h("h2", say("measured")), h("ul.list", piece().measure.map((token, i) => {
    const m = l?.measures?.[i]?.token === token ? l.measures[i] : null, of = subject(token);
    const bad = wrong && Number(wrong[1]) === state.piece && Number(wrong[2]) === i;
    return h("li", h("button" + (bad ? ".bad" : m?.suspect ? ".doubt" : ""), { type: "button", onclick: () => measure(of) },
      h("b", of), h("span", m?.figure ?? token.split("=").slice(1).join("=")), m?.comes && m.comes !== m.figure ? h("small", m.comes) : null),
    bad ? h("p.trouble", sentence(fault.what), " ", sentence(fault.hint)) : null);
  })));
}

function actions() {
  return h("div.row", button("addMeasure", addMeasure), button("addPoint", addPoint), canUndo() ? button("undo", undoIt) : null);
}

export function undoIt() { if (undo()) tell(say("undone")); }

function nextName(used) {
  for (let c = 65; c < 91; c++) if (!"IO".includes(String.fromCharCode(c)) && !used.includes(String.fromCharCode(c))) return String.fromCharCode(c);
  return "A" + used.length;
}

// corners are those of the sketch: of a triangle nobody has to name them.
function corners() {
  const known = look()?.outline;
  if (piece().outline?.length) return piece().outline;
  if (known?.length) return known;
  const p = points(piece());
  for (const n of ["A", "B", "C"]) if (p.length < 3 && !p.includes(n)) p.push(n);
  return p.sort(inOrder).slice(0, 3);
}

function addPoint() {
  const edge = corners(), of = nextName([...points(piece()), ...edge]);
  const at = edge.map((a, i) => [String(i), say("pointEdge", { a, b: edge[(i + 1) % edge.length] })]);
  let where = String(edge.length - 1);
  const { close } = dialog(say("addPoint"), [
    field("pointWhere", choice([...at, ["in", say("pointIn")]], where, (v) => { where = v; }), { of }),
    h("div.row", button("cancel", () => close()), button("done", () => {
      close();
      edit((_, p) => {
        p.outline = [...edge];
        if (where !== "in") p.outline.splice(Number(where) + 1, 0, of);
      });
      if (where === "in") addMeasure(of);
    }, {}, ".go")),
  ]);
}

function addMeasure(from) {
  const all = [...new Set([...corners(), ...points(piece())])].sort(inOrder);
  if (typeof from === "string" && !all.includes(from)) all.push(from);
  let kind = "length", one = typeof from === "string" ? from : all[0], two = all.find((n) => n !== one), three = all.find((n) => n !== one && n !== two);
  const options = all.map((n) => [n, n]);
  const box = h("div.grid");
  const fill = () => box.replaceChildren(
    ...(kind === "length" ? [field("from", choice(options, one, (v) => { one = v; })), field("to", choice(options, two, (v) => { two = v; }))]
      : [field(kind === "angle" ? "at" : "from", choice(options, one, (v) => { one = v; })), field(kind === "angle" ? "between" : "over", choice(options, two, (v) => { two = v; })), field("to", choice(options, three, (v) => { three = v; }))]));
  fill();
  const { close } = dialog(say("addMeasure"), [
    field("what", choice([["length", say("length")], ["angle", say("angle", { of: "" })], ["height", say("height", { of: "" })]], kind, (v) => { kind = v; fill(); })),
    box,
    h("div.row", button("cancel", () => close()), button("done", () => {
      close();
      const of = kind === "length" ? one + two : kind === "height" ? `${one}-${two}${three}` : all.length === 3 ? one : two + one + three;
      measure(of, kind === "length" ? "distance" : kind);
    }, {}, ".go")),
  ]);
}

function settings() {
  const p = piece(), l = state.lists, edited = (key) => (v) => edit((job) => set(job, key, v));
  const text = (value, put, attributes) => h("input", { value, type: "text", maxlength: 80, onchange: (e) => put(e.target.value.trim()), ...attributes });
  return h("details", { open: settings.open, ontoggle: (e) => { settings.open = e.target.open; } }, h("summary", say("names")), h("div.grid", {},
    field("jobName", text(state.job.job ?? "", edited("job"))),
    field("pieceName", text(p.name ?? "", (v) => edit((_, q) => set(q, "name", v)))),
    field("unit", choice((l?.units ?? ["mm", "cm", "m", "in", "ft"]).map((u) => [u, u]), unitOf(), edited("unit"))),
    l?.trades ? field("trade", choice([["", say("usual")], ...l.trades.map((t) => [t.name, t.name])], state.job.trade ?? "", edited("trade"))) : null,
    field("quantity", text(p.quantity ?? 1, (v) => edit((_, q) => set(q, "quantity", Number(v) > 1 ? Number(v) : "")), { inputmode: "numeric" })),
    points(p).map((of) => field("rename", text(of, (v) => { edit((_, q) => rename(q, of, v)); draw(); }, { maxlength: 4 }), { of }))),
  h("div.row", button("addPiece", () => { edit((job) => { job.pieces.push({ measure: [] }); }); state.piece = state.job.pieces.length - 1; draw(); state.show?.(); }),
    state.job.pieces.length > 1 ? button("dropPiece", () => edit((job) => { job.pieces.splice(state.piece, 1); })) : null,
    points(p).slice(3).map((of) => button("dropPoint", () => edit((_, q) => dropPoint(q, of)), { of }))));
}

// rename gives a point another name, in all that is said of the piece.
function rename(p, of, to) {
  if (!/^\p{Lu}\d{0,3}$/u.test(to) || points(p).includes(to)) return;
  const other = (text) => text.replace(/\p{Lu}\d*/gu, (n) => (n === of ? to : n));
  const token = (text) => other(subject(text)) + text.slice(text.indexOf("="));
  for (const [key, value] of Object.entries(p)) {
    if (["measure", "found", "levels"].includes(key)) p[key] = Array.isArray(value) ? value.map(token) : value;
    else if (["outline", "base", "side", "edges", "corners", "holes", "grain", "fixed"].includes(key)) p[key] = Array.isArray(value) ? value.map(other) : other(String(value));
  }
}

function dropPoint(p, of) {
  p.measure = p.measure.filter((t) => !namesIn(subject(t)).includes(of));
  p.outline = p.outline?.filter((n) => n !== of);
  if (!(p.outline?.length > 3)) delete p.outline;
}

// Whoever types a figure where a value stands means that value.
byId("measures").addEventListener("keydown", (e) => {
  const of = e.target.dataset?.of;
  if (of && /^[\d.]$/.test(e.key) && !e.ctrlKey && !e.metaKey && !e.altKey) { e.preventDefault(); measure(of, undefined, e.key); }
});
