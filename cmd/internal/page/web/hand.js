// By hand: the construction played step by step, forward and back; only what is drawn so
// far is seen, and the newest line draws itself unless somebody wants nothing to move.
import { h, byId, button, verdict, field, choice, figure, drawing, room, rem } from "./dom.js";
import { say, labels } from "./labels.js";
import { state, edit, set, kept, keep } from "./store.js";
import { newest } from "./asking.js";
import { look } from "./measures.js";

let plays = [], fault = null, at = kept("step", 0), which = 0;

export async function refresh() {
  const r = await newest("steps", { do: "steps", piece: state.piece, width: room("hand", 900) });
  if (!r) return;
  plays = r.plays ?? [];
  fault = r.fault ?? null;
  byId("hand").classList.remove("pale");
  which = Math.min(which, Math.max(0, plays.length - 1));
  draw();
}

export function stale() { byId("hand").classList.add("pale"); }

export function go(to, still = false) {
  const n = plays[which]?.steps.length ?? 0;
  at = Math.max(0, Math.min(n, to));
  keep("step", at);
  draw(still);
}
export const step = (by) => go(at + by, by < 0);

// picture of the step: the whole work with its later groups left out, or one of its own.
function picture(play, still) {
  if (at === 0) return null;
  const own = play.steps[at - 1].picture;
  const p = own ?? play.base, svg = drawing(p);
  if (!svg) return h("div");
  if (!own) {
    const last = at - 1;
    for (const g of svg.querySelectorAll("[data-step]")) {
      const n = Number(g.dataset.step);
      if (n > last) g.remove();
      else if (n === last) g.classList.add("new");
    }
  }
  if (still) svg.classList.add("still");
  const box = h("figure.play", { "aria-hidden": "true" }, svg);
  if (p.width) box.style.maxWidth = rem(p.width * 1.6);
  return box;
}

export function draw(still = true) {
  const el = byId("hand"), play = plays[which];
  if (!play) {
    el.replaceChildren(verdict("missing", fault?.what ?? say("nothingYet"), fault?.hint), look()?.picture ? figure(look().picture) : "");
    return;
  }
  const n = play.steps.length, held = document.activeElement?.id;
  at = Math.min(at, n);
  const says = at === 0 ? [...(play.bring ?? []), ...(play.cautions ?? [])] : [play.steps[at - 1].says];
  el.replaceChildren(
    h("div.stage", {},
      picture(play, still),
      h("div.words", {},
        h("p.count", at ? say("step", { n: at, all: n }) : play.title),
        h("div", { "aria-live": "polite", id: "said" }, says.length ? says.map((s) => h("p.big", s)) : h("p.big", play.title)),
        h("div.row", {},
          h("button", { type: "button", id: "hand-back", disabled: at === 0, onclick: () => step(-1) }, "← ", say("back")),
          h("button.go", { type: "button", id: "hand-next", disabled: at === n, onclick: () => step(1) }, say("next"), " →"),
          h("button", { type: "button", id: "hand-full", onclick: full }, say("full"))),
        h("input", { type: "range", id: "hand-at", min: 0, max: n, value: at, "aria-label": say("step", { n: at, all: n }), oninput: (e) => go(Number(e.target.value), true) }))),
    h("div.grid.below", {},
      plays.length > 1 ? field("which", choice(plays.map((p, i) => [i, p.title]), which, (v) => { which = Number(v); go(0); })) : null,
      field("voice", choice([["", say("usual")], ...(state.lists?.voices ?? []).map((v) => [v, labels.voices[v] ?? v])], state.job.voice ?? "", (v) => edit((job) => set(job, "voice", v)))),
      h("p.quiet", say("stays"))));
  if (held) byId(held)?.focus();
  if (held && document.activeElement?.id !== held) byId("hand-back").focus();
}

// full fills the projector; Escape leaves it.
function full() {
  const el = byId("hand");
  if (document.fullscreenElement) document.exitFullscreen();
  else el.requestFullscreen?.().catch(() => el.classList.toggle("filled"));
}

// keys are those of a keyboard and of a presenter.
export function key(e) {
  const on = { ArrowRight: 1, PageDown: 1, ArrowLeft: -1, PageUp: -1 }[e.key] ?? (e.key === " " && e.target.tagName !== "BUTTON" ? 1 : 0);
  if (e.key === "Home") go(0);
  else if (e.key === "End") go(Infinity, true);
  else if (e.key === "f") full();
  else if (on) step(on);
  else return;
  e.preventDefault();
}

// A finger drawn across turns over.
let from = null;
byId("hand").addEventListener("pointerdown", (e) => { from = e.pointerType === "touch" && e.target.closest(".stage") && !e.target.closest("button,input") ? [e.clientX, e.clientY] : null; });
byId("hand").addEventListener("pointerup", (e) => {
  if (from && Math.abs(e.clientX - from[0]) > 60 && Math.abs(e.clientY - from[1]) < 50) step(e.clientX < from[0] ? 1 : -1);
  from = null;
});
