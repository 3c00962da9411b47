// Files and links: a job comes in as a job, a table, a PDF or a link, and goes out the
// same ways. Nothing that comes in replaces the job before somebody has seen it.
import { h, button, dialog, figure, sentence, tell } from "./dom.js";
import { say } from "./labels.js";
import { state, replace, blank, set, keep } from "./store.js";
import { ask, stop } from "./asking.js";

const most = 64 << 20, mostLink = 1 << 20;

// give hands a file over: by the share sheet where asked for, else as a download.
export async function give(name, type, bytes, shared) {
  const file = new File([bytes], name, { type });
  if (shared && navigator.canShare?.({ files: [file] })) {
    try { await navigator.share({ files: [file], title: name }); return; } catch (e) { if (e.name === "AbortError") return; }
  }
  const a = h("a", { href: URL.createObjectURL(file), download: name });
  document.body.append(a);
  a.click();
  setTimeout(() => { URL.revokeObjectURL(a.href); a.remove(); }, 60000);
}

export const canShare = () => matchMedia("(pointer: coarse)").matches && Boolean(navigator.canShare);

// make asks for a document and hands it over; it can be stopped.
export async function make(what, as, title, more = {}, shared = false) {
  const waiting = dialog(say("working", { of: title }), [h("progress"), h("div.row", button("stop", () => { stop(); waiting.close(); tell(say("stopped")); }))]);
  try {
    const r = await ask({ do: "make", what, as, ...more });
    if (r.fault) return trouble(r.fault);
    await give(r.file, r.type, r.bytes, shared);
    tell([say("made", { of: r.file }), ...(r.summary ?? [])].slice(0, 3).map(sentence).join(" "), "stays");
  } catch (e) { if (e?.name !== "AbortError") trouble({ what: String(e?.message ?? e) }); } finally { waiting.close(); }
}

export function trouble(fault) {
  const { close } = dialog(fault.what, [fault.hint ? h("p", fault.hint) : null, h("div.row", button("close", () => close(), {}, ".go"))], ".trouble");
}

// open reads what somebody chose.
export async function open(file) {
  if (file.size > most) return trouble({ what: say("tooLarge", { of: file.name }) });
  try {
    const r = await ask({ do: "open", name: file.name, job: undefined }, new Uint8Array(await file.arrayBuffer()));
    if (r.fault) return trouble(r.fault);
    if (r.job.pieces) replace(r.job);
    else keep("tasks", r.job.tasks); // a class: it is on the screen of the paper
    tell((r.warnings ?? []).join(" "));
  } catch (e) { trouble({ what: String(e?.message ?? e) }); }
}

export function jobDialog() {
  const input = h("input", { type: "file", id: "file", hidden: true, accept: ".json,.yaml,.yml,.csv,.tsv,.txt,.pdf", onchange: () => { close(); if (input.files[0]) open(input.files[0]); } });
  const { close } = dialog(state.job.job || say("noName"), [
    input,
    h("div.stack", {},
      button("open", () => input.click(), {}, ".go"), h("p.quiet", say("openWhat")),
      button("saveJob", () => { close(); give((state.job.job || "job").replace(/[^\p{L}\p{N} _-]/gu, "") + ".json", "application/json", new TextEncoder().encode(JSON.stringify(state.job, null, 1) + "\n"), canShare()); }),
      button("link", () => { close(); linkOut(); }),
      button("fresh", () => { close(); replace(fresh()); }),
      h("p.quiet", say("localOnly"))),
  ]);
}

// fresh keeps what belongs to the person and not to the work.
function fresh() {
  const b = blank();
  for (const k of ["unit", "trade", "paper", "printer"]) set(b, k, state.job[k]);
  return b;
}

const to64 = (bytes) => btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join("")).replace(/\+/g, "-").replace(/\//g, "_").replace(/=+$/, "");
const from64 = (text) => Uint8Array.from(atob(text.replace(/-/g, "+").replace(/_/g, "/")), (c) => c.charCodeAt(0));

// through runs bytes through a stream and gives up beyond so many.
async function through(bytes, stream, limit) {
  const parts = [];
  let n = 0;
  const reader = new Blob([bytes]).stream().pipeThrough(stream).getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return new Uint8Array(await new Blob(parts).arrayBuffer());
    if ((n += value.length) > limit) { reader.cancel(); throw new Error("too large"); }
    parts.push(value);
  }
}

async function linkOut() {
  const packed = await through(new TextEncoder().encode(JSON.stringify(state.job)), new CompressionStream("deflate-raw"), mostLink);
  const url = location.href.split("#")[0] + "#job=" + to64(packed);
  try {
    if (canShare()) return await navigator.share({ url, title: state.job.job || "trammel" });
    await navigator.clipboard.writeText(url);
    tell(say("copied"));
  } catch (e) {
    if (e?.name === "AbortError") return;
    const box = h("textarea", { readonly: true, rows: 4 }, url);
    dialog(say("linkShown"), [box]);
    box.select();
  }
}

// linked is what came with the address, which is clean from then on.
export function linked() {
  const found = location.hash.match(/^#job=(.*)$/);
  if (location.hash) history.replaceState(null, "", location.pathname + location.search);
  return found;
}

// linkIn shows the job of a link by its sketch, and asks.
export async function linkIn(found = linked()) {
  if (!found) return;
  try {
    if (found[1].length > mostLink) throw new Error("too large");
    const job = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(await through(from64(found[1]), new DecompressionStream("deflate-raw"), mostLink)));
    if (!Array.isArray(job?.pieces)) throw new Error("no job");
    const r = await ask({ do: "solve", job, width: 320 });
    if (r.fault && !r.looks?.length) return trouble({ what: r.fault.what, hint: r.fault.hint });
    const { close } = dialog(say("linkAsk"), [
      h("p", h("b", typeof job.job === "string" ? job.job : say("noName"))),
      r.looks.slice(0, 6).map((l) => h("div", h("p", l.title), figure(l.picture), h("p", l.says))),
      h("div.row", button("linkLeave", () => close()), button("linkTake", () => { close(); replace(job); }, {}, ".go")),
    ]);
  } catch { trouble({ what: say("badLink") }); }
}
