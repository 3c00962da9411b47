// The keypad: own keys on a screen that is touched, the keyboard elsewhere. What it gives
// is the text of a value as a job says it.
import { h, dialog } from "./dom.js";
import { say } from "./labels.js";

const eighths = [["⅛", "1/8"], ["¼", "1/4"], ["⅜", "3/8"], ["½", "1/2"], ["⅝", "5/8"], ["¾", "3/4"], ["⅞", "7/8"]];
const digits = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "⌫"];

// complete ends feet and inches as they are read: 5ft 3 is 5ft 3in, 3 1/2 of an inch job stays.
export function complete(text, kind) {
  let t = text.trim().replace(/\s+/g, " ").replace(",", ".");
  if (kind === "angle") return /[^\d.]/.test(t) || !t ? t : t + "deg";
  if (/ft/.test(t) && /ft *\d[\d ./]*$/.test(t)) t += "in";
  return t;
}

// keys are buttons that write into an input; changed is called at each.
export function keys(input, kind, unit, changed = () => {}) {
  const put = (text, apart) => {
    const [a, b] = [input.selectionStart, input.selectionEnd];
    const head = input.value.slice(0, a);
    const gap = apart && head && !/\s$/.test(head) && /\d/.test(head.at(-1)) ? " " : "";
    input.value = head + gap + text + input.value.slice(b);
    input.setSelectionRange(a + gap.length + text.length, a + gap.length + text.length);
    changed();
  };
  const erase = () => {
    const [a, b] = [input.selectionStart, input.selectionEnd], from = a === b ? Math.max(0, a - 1) : a;
    input.value = input.value.slice(0, from) + input.value.slice(b);
    input.setSelectionRange(from, from);
    changed();
  };
  const key = (face, act, classes = "", label) => h("button.key" + classes, { type: "button", tabindex: -1, "aria-label": label, onclick: act, onpointerdown: (e) => e.preventDefault() }, face);
  const small = h("div.keys.small", { hidden: !["in", "ft"].includes(unit) }, eighths.map(([face, text]) => key(face, () => put(text, true), "", text)));
  const mark = (u, text) => key(u, () => { if (u === "in" || u === "ft") small.hidden = false; put(text); }, ".unit");
  const units = kind === "angle" ? [mark("°", "deg"), mark("′", "'")] : [mark("mm", "mm"), mark("m", "m"), mark("ft", "ft "), mark("in", "in")];
  return [
    h("div.keys.units", units), kind === "angle" ? null : small,
    h("div.keys", digits.map((d) => d === "⌫" ? key(d, erase, ".erase", say("erase")) : key(d, () => put(d)))),
  ];
}

// field is where a value stands: on a screen that is touched its own keys come up and not
// the phone's.
export function valueField(value, attributes = {}) {
  const touched = matchMedia("(pointer: coarse)").matches;
  return h("input.value", { value, type: "text", inputmode: touched ? "none" : "decimal", autocomplete: "off", autocapitalize: "off", spellcheck: "false", enterkeyhint: "done", maxlength: 60, ...attributes });
}

// keypad asks for one value: give gets its text, or "" for not measured.
export function keypad({ title, kind, value, unit, hint, known }, give) {
  const input = valueField(value, { "aria-label": title });
  const { el, close } = dialog(title, [
    hint ? h("p.hint", hint) : null,
    h("div.reading", input, h("span", { "aria-hidden": "true" }, kind === "angle" ? "°" : unit)),
    keys(input, kind, unit),
    h("div.row", {},
      h("button", { type: "button", onclick: () => { close(); give(""); } }, say(known ? "none" : "cancel")),
      h("button.go", { type: "button", onclick: take }, say("take"))),
  ], ".keypad");
  function take() {
    close();
    give(complete(input.value, kind));
  }
  el.addEventListener("keydown", (e) => { if (e.key === "Enter" && e.target === input) { e.preventDefault(); take(); } });
  input.focus();
  input.select();
  return input;
}
