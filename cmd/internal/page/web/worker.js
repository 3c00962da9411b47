// The program in a worker of its own: a reckoning of seconds never holds up the page.
importScripts("wasm_exec.js");

onmessage = async ({ data }) => {
  if (data.ask) {
    const reply = trammelAnswer(new Uint8Array(data.ask));
    postMessage({ reply: reply.buffer }, [reply.buffer]);
    return;
  }
  try {
    if (typeof WebAssembly !== "object") throw new Error("This browser is too old, or WebAssembly is switched off in it: trammel cannot reckon here.");
    const go = new Go();
    const { module, instance } = await made(data.module, data.bytes, go.importObject);
    go.run(instance); // sets trammelAnswer and stays
    postMessage(data.module ? { up: true } : { module });
  } catch (e) { postMessage({ failed: String(e.message ?? e) }); }
};

async function made(module, all, imports) {
  if (module) return { module, instance: await WebAssembly.instantiate(module, imports) };
  const r = await fetch("trammel.bin").catch(() => null);
  if (!r?.ok) throw new Error("The program could not be loaded: is there a network? What was typed is kept.");
  // Some hosts unpack what is packed, some do not: the first two bytes tell.
  const [head, body] = counted(r.body, all).tee();
  const peek = head.getReader();
  const { value } = await peek.read();
  peek.cancel();
  const packed = value?.[0] === 0x1f && value?.[1] === 0x8b;
  if (packed && !self.DecompressionStream) throw new Error("This browser is too old: it cannot unpack the program.");
  const plain = packed ? body.pipeThrough(new DecompressionStream("gzip")) : body;
  return WebAssembly.instantiateStreaming(new Response(plain, { headers: { "Content-Type": "application/wasm" } }), imports);
}

// counted tells how much has come, at most ten times a second.
function counted(stream, all) {
  let n = 0, last = 0;
  return stream.pipeThrough(new TransformStream({
    transform(part, out) {
      n += part.length;
      const now = performance.now();
      if (now - last > 100) { last = now; postMessage({ loaded: Math.min(n, all || n), of: all || n }); }
      out.enqueue(part);
    },
  }));
}
