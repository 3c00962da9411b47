// Making what is seen: elements, pictures with their tags, dialogs.
import { say } from "./labels.js";

// h makes an element: h("button.big", {onclick: f, "aria-label": "x"}, "text", child), the
// attributes left out where there are none. Words are always text, never markup.
export function h(what, ...children) {
  const [name, ...classes] = what.split(".");
  const attributes = Object.getPrototypeOf(children[0] ?? "") === Object.prototype ? children.shift() : {};
  const el = document.createElement(name || "div");
  if (classes.length) el.className = classes.join(" ");
  for (const [k, v] of Object.entries(attributes)) {
    if (k.startsWith("on")) el.addEventListener(k.slice(2), v);
    else if (k === "value" || k === "checked" || k === "disabled" || k === "hidden") el[k] = v;
    else if (v !== undefined && v !== false && v !== null) el.setAttribute(k, v === true ? "" : v);
  }
  el.append(...children.flat(9).filter((c) => c !== undefined && c !== null && c !== false));
  return el;
}

export const byId = (id) => document.getElementById(id);
// sentence begins with a capital and ends with a full stop, as what is said in the middle of
// a line does not.
export const sentence = (s) => s ? s[0].toUpperCase() + s.slice(1) + (/[.:!?…]$/.test(s) ? "" : ".") : "";

const marks = { fits: "✓", doubt: "!", two: "2", none: "✕", words: "✕", missing: "…" };

// verdict is a box whose mark says the same as its colour, the first sentence large.
export const verdict = (kind, ...said) => h("div.verdict." + kind, h("span.mark", { "aria-hidden": "true" }, marks[kind] ?? "…"),
  h("div", said.filter(Boolean).map((s, i) => h(i ? "p" : "p.first", sentence(s)))));

export const button = (key, onclick, names, classes = "") => h("button" + classes, { onclick, type: "button" }, say(key, names));
export const field = (key, input, names) => h("label", h("span", say(key, names)), input);

// choice is a select of [value, words].
export function choice(options, value, onchange, attributes = {}) {
  const s = h("select", { ...attributes, onchange: () => onchange(s.value) }, options.map(([v, w]) => h("option", { value: v }, w)));
  s.value = value;
  return s;
}

const usual = 16; // px of a letter's em that pictures are reckoned in
export const em = () => parseFloat(getComputedStyle(document.documentElement).fontSize) || usual;

// room is the width that a picture may have there, in its own pixels: with large type
// there are fewer of them.
export function room(id, most = 1440) {
  const el = byId(id).querySelector(".work > div") ?? byId(id);
  return Math.max(160, Math.min(most, Math.floor((el.clientWidth || innerWidth) / (em() / usual))));
}

export const rem = (n) => n / usual + "rem";

const parser = new DOMParser();

// drawing is the picture's SVG as an element; what is no SVG, or holds a script, is none.
export function drawing(picture) {
  const text = typeof picture === "string" ? picture : picture?.svg;
  if (!text) return null;
  const root = parser.parseFromString(text, "image/svg+xml").documentElement;
  if (root.nodeName !== "svg" || root.querySelector("script,foreignObject,image,use,a")) return null;
  return document.importNode(root, true);
}

// figure is a picture of plot/screen at its size, with a button for each tag.
export function figure(picture, tapped) {
  const box = h("figure.sketch");
  const svg = drawing(picture);
  if (!svg) return box;
  box.style.width = rem(picture.width);
  box.style.height = rem(picture.height);
  box.append(svg);
  if (!tapped) return box;
  svg.addEventListener("click", (e) => {
    const of = e.target.dataset?.of, tag = picture.tags.find((t) => t.of === of);
    if (tag) tapped(tag);
  });
  for (const t of picture.tags ?? []) box.append(tagButton(t, tapped));
  return box;
}

function tagButton(t, tapped) {
  const known = t.given ? "given" : t.say ? "worked" : "unknown";
  const b = h("button.tag." + known + (t.doubt ? ".doubt" : ""), { type: "button", "data-of": t.of, onclick: () => tapped(t),
    "aria-label": `${say(t.kind, { of: t.of })}: ${t.say || say("unknown")}${t.say ? ", " + say(known) : ""}${t.doubt ? ", " + say("doubt") : ""}` },
  h("span", t.row ? h("b", t.of, " ") : null, t.say || "?", t.doubt ? h("i", "!") : null));
  for (const [k, v] of [["left", t.x], ["top", t.y], ["width", t.w], ["height", t.h]]) b.style[k] = rem(v);
  return b;
}

// dialog opens one with a heading; it closes by Escape, its cross, and what is returned.
export function dialog(title, children, classes = "") {
  const d = h("dialog" + classes, { "aria-label": title });
  const close = () => d.close();
  d.append(h("div.head", h("h2", title), h("button.plain", { type: "button", onclick: close, "aria-label": say("close") }, "✕")), ...children.flat(9).filter(Boolean));
  d.addEventListener("close", () => d.remove());
  d.addEventListener("click", (e) => { if (e.target === d) close(); });
  document.body.append(d);
  d.showModal();
  return { el: d, close };
}

// tell says something for a while, to the eye and to a screen reader.
let quiet;
export function tell(text, classes = "") {
  const p = byId("state");
  p.className = "note " + classes;
  p.textContent = text;
  p.hidden = !text;
  clearTimeout(quiet);
  if (text && !classes.includes("stays")) quiet = setTimeout(() => { p.hidden = true; p.textContent = ""; }, 6000);
}
