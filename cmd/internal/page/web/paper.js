// Paper: which, how many sheets, what would be fewer; the files; printers that are known.
import { h, byId, button, verdict, sentence, field, choice, figure, room, dialog } from "./dom.js";
import { say, labels } from "./labels.js";
import { state, edit, set, made, setMade, kept, keep } from "./store.js";
import { newest, ask } from "./asking.js";
import { make, give, canShare, trouble } from "./files.js";

let sheets = null, fault = null, warnings = [];

// ask for the sheets of the job as it is; solving came first.
export async function refresh() {
  const r = await newest("pages", { do: "pages", width: room("paper") });
  if (!r) return;
  byId("paper").classList.remove("pale");
  fault = r.fault ?? null;
  sheets = r.sheets ?? null;
  warnings = r.warnings ?? [];
  draw();
}

export function stale() { byId("paper").classList.add("pale"); }

export function draw() {
  const el = byId("paper"), l = state.lists;
  if (!l) return;
  const named = (list, none) => [["", none], ...list.map((x) => [x.name, x.says ? `${x.name} · ${x.says}` : x.name])];
  const known = [...new Set([...l.printers.map((p) => p.name), ...Object.keys(state.printers)])].map((name) => l.printers.find((p) => p.name === name) ?? { name });
  const keyed = (key) => (v) => edit((job) => set(job, key, v));
  el.replaceChildren(
    h("div.work", {},
      h("div", {},
        !fault && !sheets ? h("p.quiet", { role: "status" }, say("laying")) : null,
        fault ? verdict(fault.kind === "missing" ? "missing" : "none", fault.what, fault.hint ?? say("nothingYet")) : null,
        sheets ? h("div", { role: "status" }, (sheets.summary ?? []).map((s, i) => h(i ? "p" : "p.big", s))) : null,
        sheets?.pieces.filter((p) => p.picture).map((p) => h("div", sheets.pieces.length > 1 ? h("h3", p.title) : null, figure(p.picture))),
        sheets?.otherwise?.length ? h("div", h("h2", say("fewer")), h("ul.list", sheets.otherwise.map((o) => h("li", h("button", { type: "button", onclick: () => otherwise(o) }, o.says))))) : null,
        warnings.map((w) => h("p.note.doubt", w))),
      h("div.told", {},
        h("div.grid", {},
          field("size", choice(named(l.papers, `${l.default?.paper ?? ""} · ${say("usual")}`), state.job.paper ?? "", keyed("paper"))),
          field("printer", choice(named(known, say("usual")), state.job.printer ?? "", keyed("printer"))),
          field("cover", choice([["", say("usual")], ["full", say("coverFull")], ["outline", say("coverOutline")]], made("pages"), (v) => setMade("pages", v))),
          field("copies", h("input", { type: "text", inputmode: "numeric", maxlength: 3, value: made("copies") || "1", onchange: (e) => setMade("copies", e.target.value.trim() === "1" ? "" : e.target.value.trim()) })),
          h("label.check", h("input", { type: "checkbox", checked: made("landscape") === "yes", onchange: (e) => setMade("landscape", e.target.checked ? "yes" : "") }), h("span", say("landscape")))),
        h("p.quiet", say("steelRule")),
        h("div.stack", file("template", "pdf", "template", ".go"), file("template", "svg", "svg"), file("whole", "svg", "cutter"), h("div.row", button("picture", picture))),
        others(l), lesson(l), calibrate(l, known))));
}

// file is a button for a document, where the program makes it.
function file(what, as, key, classes = "") {
  const d = state.lists.documents.find((x) => x.name === what);
  if (!d?.as.includes(as)) return null;
  const go = (shared) => make(what, as, say(key), {}, shared);
  return h("div.row", button(key, () => go(false), {}, classes), canShare() ? button("share", () => go(true)) : null);
}

// picture is the whole piece as the program draws it, as points for a screen.
async function picture() {
  const r = await ask({ do: "make", what: "whole", as: "svg" });
  if (r.fault) return trouble(r.fault);
  const img = new Image(), url = URL.createObjectURL(new Blob([r.bytes], { type: "image/svg+xml" }));
  img.src = url;
  await img.decode();
  const k = 1600 / Math.max(img.naturalWidth, img.naturalHeight), c = h("canvas", { width: Math.ceil(img.naturalWidth * k), height: Math.ceil(img.naturalHeight * k) }), on = c.getContext("2d");
  on.fillStyle = "#fff";
  on.fillRect(0, 0, c.width, c.height);
  on.drawImage(img, 0, 0, c.width, c.height);
  URL.revokeObjectURL(url);
  c.toBlob((b) => give(r.file.replace(/svg$/, "png"), "image/png", b, canShare()));
}

// others are the documents that need nothing but the job, as the program lists them.
function others(l) {
  const some = l.documents.filter((d) => !d.readings && !d.printer && !["template", "whole", "tasks"].includes(d.name));
  if (!some.length) return null;
  return h("details", h("summary", say("others")), some.map((d) => h("div", h("h2", labels.docs[d.name] ?? d.name),
    h("div.row", d.as.map((as) => h("button", { type: "button", onclick: () => make(d.name, as, labels.docs[d.name] ?? d.name) }, labels.forms[as] ?? as.toUpperCase()))))));
}

function otherwise(o) {
  if (o.what) return make(o.what, "pdf", o.says);
  edit((job) => {
    for (const [k, v] of Object.entries(o.set ?? {})) {
      if (k === "made_with") job.made_with = { ...job.made_with, ...v };
      else set(job, k, v);
    }
  });
}

// lesson is what a class is to draw: it needs no piece of the job.
function lesson(l) {
  const d = l.documents.find((x) => x.name === "tasks"), asked = { pupils: 28, kinds: ["SSS", "SAS", "ASA"], seed: 1, ...kept("tasks", {}) };
  if (!d) return null;
  const input = (key, read, attributes = {}) => h("input", { type: "text", value: String(asked[key]), ...attributes, oninput: (e) => { asked[key] = read(e.target.value); keep("tasks", asked); } });
  const number = (v) => Number(v) || 0;
  return h("details", h("summary", say("lesson")), h("div.grid",
    field("pupils", input("pupils", number, { inputmode: "numeric" })), field("kinds", input("kinds", (v) => v.split(/[\s,]+/).filter(Boolean))), field("seed", input("seed", number, { inputmode: "numeric" }))),
  h("div.row", ["task", "key", "overlay"].map((sheets) => button(sheets, () => make("tasks", "pdf", say(sheets), { sheets, job: { job: say("lesson"), tasks: asked } }), {}, sheets === "task" ? ".go" : ""))));
}

// calibrate prints a sheet, takes what was measured on it, and keeps the printer here.
const asked = { printer: "", width: "", height: "", diagonal: "", other: "", sheet: null };
function calibrate(l) {
  const input = (key, attributes = {}) => h("input", { type: "text", value: asked[key], autocomplete: "off", maxlength: 60, oninput: (e) => { asked[key] = e.target.value.trim(); }, ...attributes });
  const about = () => ({ printer: asked.printer, ...(state.job.paper ? { paper: state.job.paper } : {}) });
  const learn = async () => {
    const r = await ask({ do: "learn", calibrate: { ...about(), found: `width=${asked.width},height=${asked.height},diagonal=${asked.diagonal},diagonal=${asked.other}`, date: new Date().toISOString().slice(0, 10) } });
    if (r.fault) return trouble(r.fault);
    state.printers[r.printer.name] = r.printer.text;
    keep("printers", state.printers);
    edit((job) => set(job, "printer", r.printer.name));
    draw();
    dialog(say("calKept", { of: r.printer.name }), (r.printer.says ?? []).map((s) => h("p", sentence(s))));
  };
  return h("details", { open: calibrate.open, ontoggle: (e) => { calibrate.open = e.target.open; } }, h("summary", say("calibrate")),
    field("calName", input("printer")),
    h("h2", say("calSheet")), button("makeIt", () => make("calibrate", "pdf", say("calibrate"), { calibrate: about() }), { of: "PDF" }),
    h("h2", say("calRead")),
    h("div.grid", field("calWidth", input("width", { inputmode: "decimal" })), field("calHeight", input("height", { inputmode: "decimal" })), field("calDiagonal", input("diagonal", { inputmode: "decimal" })), field("calOther", input("other", { inputmode: "decimal" }))),
    h("div.row", button("calKeep", learn, {}, ".go")),
    Object.keys(state.printers).map((name) => h("div.row", h("b", name),
      button("calFile", () => give(name + ".yaml", "application/yaml", new TextEncoder().encode(state.printers[name]))),
      button("calForget", () => { delete state.printers[name]; keep("printers", state.printers); draw(); }, { of: name }))));
}
