// Keeps the page for later without a network: all files of one build, or none. In front of
// this the maker of the folder writes: version, the sum of all files, and files, their names.
const cache = "trammel-" + version;

self.addEventListener("install", (e) => e.waitUntil((async () => {
  const kept = await caches.open(cache);
  try {
    await kept.addAll(files.map((f) => new Request(f, { cache: "reload" })));
  } catch (error) {
    await caches.delete(cache);
    throw error;
  }
})()));

// A new build waits until no page of the old one is open: page and program are never of two.
self.addEventListener("activate", (e) => e.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith("trammel-") && name !== cache) await caches.delete(name);
})()));

self.addEventListener("fetch", (e) => {
  if (e.request.method !== "GET") return;
  e.respondWith((async () => {
    const kept = await caches.open(cache);
    const at = e.request.mode === "navigate" ? "./" : e.request;
    return (await kept.match(at, { ignoreSearch: true })) ?? fetch(e.request);
  })());
});
