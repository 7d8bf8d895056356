// Keeps the Stage page for when the server is out of reach: the network first, else what was kept.

const KEPT = "thruline-stage-1";
const PATIENCE_MS = 2500;
const NEEDED = ["/colours.css", "/static/stage.css", "/static/stage.js", "/static/stage-set.js", "/static/make.js"];
const isMine = (path) => NEEDED.includes(path) || /^\/rig\/[^/]+\/stage(\.json)?$/.test(path);

addEventListener("install", (event) => {
  skipWaiting();
  event.waitUntil(caches.open(KEPT).then((kept) => kept.addAll(NEEDED)));
});

addEventListener("activate", (event) => {
  event.waitUntil(clients.claim().then(async () => {
    const kept = await caches.open(KEPT);
    for (const page of await clients.matchAll()) {
      const { pathname } = new URL(page.url);
      if (isMine(pathname)) await kept.addAll([pathname, `${pathname}.json`]);
    }
  }));
});

async function fresh(request) {
  const response = await fetch(request, { signal: AbortSignal.timeout(PATIENCE_MS) });
  if (response.ok) (await caches.open(KEPT)).put(request, response.clone());
  return response;
}

addEventListener("fetch", (event) => {
  const { pathname, origin } = new URL(event.request.url);
  if (event.request.method !== "GET" || origin !== location.origin || !isMine(pathname)) return;
  event.respondWith(fresh(event.request).catch(async (trouble) => {
    const kept = await caches.match(event.request, { ignoreSearch: true });
    if (!kept) throw trouble;
    return kept;
  }));
});
