// The page: four screens of one job. What was kept is seen at once, the program comes
// after; each edit is solved first, sheets are laid when nobody has touched a key a while.
import { byId, h, tell } from "./dom.js";
import { say } from "./labels.js";
import { state, changed, kept, keep } from "./store.js";
import { newest, ask, later } from "./asking.js";
import * as carrier from "./carrier.js";
import * as measures from "./measures.js";
import * as paper from "./paper.js";
import * as hand from "./hand.js";
import * as setout from "./setout.js";
import { jobDialog, linked, linkIn } from "./files.js";

const screens = { measures, paper, hand, setout };
let tab = kept("tab", "measures"), ready = false;
if (!screens[tab]) tab = "measures";

const pause = 250; // ms after the last edit, before sheets are laid and steps are told

const afterwards = later(() => { if (ready && tab !== "measures") screens[tab].refresh().catch(failed); }, pause);

async function solve(again) {
  byId("job").textContent = state.job.job || say("noName");
  document.title = (state.job.job ? state.job.job + " – " : "") + "trammel";
  if (!ready) return;
  for (const s of [paper, hand, setout]) s.stale();
  afterwards();
  try {
    const width = measures.width(), r = await newest("solve", { do: "solve", width });
    if (!r) return;
    measures.answered(r);
    if (measures.width() !== width && !again) await solve(true);
  } catch (e) { failed(e); }
}

function failed(e) {
  if (e?.name === "AbortError") return;
  byId("trouble").replaceChildren(h("p.note.doubt", say("noProgram", { why: String(e?.message ?? e) })));
}

function show(name) {
  tab = name;
  keep("tab", tab);
  for (const [n] of Object.entries(screens)) {
    byId(n).hidden = n !== tab;
    byId("tab-" + n).toggleAttribute("aria-current", n === tab);
    if (n === tab) byId("tab-" + n).setAttribute("aria-current", "page");
  }
  if (ready) tell("");
  if (tab !== "setout") setout.hidden();
  screens[tab].draw();
  if (ready && tab !== "measures") screens[tab].refresh().catch(failed);
}
state.show = () => show(tab);

function keyed(e) {
  const typing = e.target.closest?.("input,select,textarea,dialog");
  if ((e.ctrlKey || e.metaKey) && e.key === "z" && !typing) { measures.undoIt(); e.preventDefault(); }
  if (tab === "hand" && !typing && !e.ctrlKey && !e.metaKey && !e.altKey) hand.key(e);
}

async function start() {
  const came = linked();
  byId("tabs").append(...Object.keys(screens).map((n) => h("button", { type: "button", id: "tab-" + n, onclick: () => show(n) }, say(n))));
  byId("job").addEventListener("click", jobDialog);
  document.body.append(h("div.away", { id: "heard", role: "status", "aria-live": "polite" }));
  document.addEventListener("keydown", keyed);
  changed(() => solve());
  measures.before(kept("looks", []));
  show(tab);
  solve();
  tell(say("loading"), "stays");
  try {
    await carrier.ready?.((done, all) => tell(say("loadingPart", { done: (done / 1e6).toFixed(1), all: (all / 1e6).toFixed(1) }), "stays"));
    const r = await ask({ do: "lists" });
    state.lists = r.lists ?? null;
    if (r.fault) throw new Error([r.fault.what, r.fault.hint].filter(Boolean).join(" "));
  } catch (e) { tell(""); return failed(e); }
  ready = true;
  tell("");
  await solve();
  show(tab);
  await linkIn(came);
  addEventListener("hashchange", () => linkIn());
  document.documentElement.dataset.ready = "yes";
  let last = innerWidth;
  addEventListener("resize", later(() => { if (innerWidth !== last) { last = innerWidth; solve(); } }, pause));
}

start();
