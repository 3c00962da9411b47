// Asks the program as built for browsers, without a browser: node answers.cjs FOLDER ASKS OUT
// writes a line for each ask with the reply in base64.
const fs = require("fs"), path = require("path"), zlib = require("zlib");
const [folder, asks, out] = process.argv.slice(2);
require(path.join(folder, "wasm_exec.js"));
const go = new Go();
WebAssembly.instantiate(zlib.gunzipSync(fs.readFileSync(path.join(folder, "trammel.bin"))), go.importObject).then(({ instance }) => {
  go.run(instance);
  for (const name of fs.readdirSync(asks).filter((n) => n.endsWith(".json")).sort()) {
    const reply = trammelAnswer(new Uint8Array(fs.readFileSync(path.join(asks, name))));
    fs.appendFileSync(out, name + " " + Buffer.from(reply).toString("base64") + "\n");
  }
  const wrong = trammelAnswer("no bytes");
  fs.appendFileSync(out, "words " + new TextDecoder().decode(wrong).includes('"fault"') + "\n");
  process.exit(0);
});
