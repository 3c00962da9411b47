// The page's own few words, all in one place: what is known of the work is said by the
// program and comes with its replies. A label is whole words; {name} is put in.
export const labels = {
  measures: "Measures", paper: "Paper", hand: "By hand", setout: "Set out",
  noName: "No name yet", jobName: "Name of the job", pieceName: "Name of the piece", piece: "Piece {n}",
  unit: "Unit", trade: "Trade", names: "Names and unit", usual: "as usual",
  loading: "Getting ready", loadingPart: "Getting ready: {done} of {all} MB",
  unknown: "not measured", given: "measured", worked: "worked out", doubt: "look again",
  side: "Side {of}", diagonal: "Length {of}", angle: "Angle {of}", height: "Height {of}", distance: "Length {of}",
  tap: "Tap a line, a corner or its figure and say what was measured.",
  take: "Take it", none: "Not measured", cancel: "Leave it", close: "Close", done: "Done", erase: "Erase",
  measured: "What was measured", addMeasure: "Add a measure", addPoint: "Add a point", addPiece: "Add a piece", undo: "Undo", undone: "Undone.",
  rename: "Corner {of} is called", dropPoint: "Take {of} away", dropPiece: "Take this piece away", pointWhere: "Where does {of} lie?", pointEdge: "a corner between {a} and {b}", pointIn: "inside, no corner",
  what: "What was measured?", length: "A length", from: "From", to: "to", at: "At", between: "between", over: "over the line",
  thisOne: "Take this one", likely: "Take {of}", look: "Open {of}",
  rest: "What else it could be",
  quantity: "How many are made", printer: "Printer", size: "Paper", cover: "Pages", coverFull: "all of it", coverOutline: "along the edges only", landscape: "Long side across", copies: "Copies",
  template: "Template (PDF)", share: "Share", svg: "Drawing (SVG)", cutter: "For a machine that cuts (SVG)", picture: "Picture (PNG)", others: "Other documents",
  lesson: "Sheets for a class", pupils: "Pupils", kinds: "What is given (SSS, SAS, ASA …)", seed: "Number of the set", task: "Task sheets (PDF)", key: "The key (PDF)", overlay: "Films that mark them (PDF)",
  docs: { setout: "Setting-out sheet", floor: "A floor of tiles", boards: "Boards" }, forms: { txt: "Text", csv: "Table (CSV)", json: "Report (JSON)" },
  steelRule: "Print at actual size. Then lay a steel rule on both bars before anything is cut.",
  laying: "Laying the sheets …", fewer: "With fewer sheets", makeIt: "Make it: {of}", working: "Making {of} …", stop: "Stop", made: "Made: {of}", stopped: "Stopped.",
  calibrate: "Calibrate a printer", calName: "Name of the printer", calSheet: "1. Print this sheet at actual size", calRead: "2. Measure it", calWidth: "Width", calHeight: "Height", calDiagonal: "Diagonal", calOther: "Other diagonal", calKeep: "Keep the printer", calFile: "Printer's file", calForget: "Forget {of}", calKept: "{of} is kept on this device.",
  back: "Back", next: "Next", start: "From the start", full: "Whole screen", step: "Step {n} of {all}", voice: "Said for", voices: { class: "a class", bench: "the bench", floor: "the floor", ground: "the ground" }, which: "Which one", stays: "Keys: → ← Page Up Page Down",
  bring: "Bring", cautions: "Before you begin", begin: "Begin", goOn: "Go on at step {n}", afresh: "From the start, readings away", reads: "What does it read?", unread: "not read",
  finish: "Check it all", record: "The record (PDF)", recordText: "The record (text)", readings: "Readings", sheet: "Setting-out sheet (PDF)",
  open: "Open", openWhat: "A job, a table of measures, or a PDF that trammel made", fresh: "New job", saveJob: "Save the job", link: "Link with the job in it", copied: "The link is copied.", linkShown: "Copy this link:",
  linkAsk: "A job came with the link. This is it:", linkTake: "Open this job", linkLeave: "Keep mine",
  tooLarge: "{of} is larger than 64 MB: that is no job. Choose a job, a table or a PDF that trammel made.",
  badLink: "The link is broken or was cut short: no job came with it. Ask for it once more. Yours is as it was.",
  keepsNothing: "This device keeps nothing (storage is full or forbidden): save the job before you leave.",
  noProgram: "The program did not start here: {why}. Reload the page; your job is kept.",
  nothingYet: "Measure first: the sketch is under Measures.",
  localOnly: "Nothing leaves this device.",
};

// say is a label with its names put in.
export function say(key, names = {}) {
  return String(labels[key] ?? key).replace(/\{(\w+)\}/g, (_, n) => names[n] ?? "");
}
