// Keeps the whole site on the tablet, so that it opens with the server gone.
// The builder fills in the two values: a digest over every file, and the files.
const VERSION = "%VERSION%";
const FILES = %FILES%;

// One origin may hold several copies of the site in different folders.
const PREFIX = `ringland ${self.registration.scope} `;
const CACHE = PREFIX + VERSION;

self.addEventListener("install", (event) => {
  // `reload` goes past the browser's own cache, which may hold a file of the last version.
  const fresh = FILES.map((file) => new Request(file, { cache: "reload" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  const old = (name) => name.startsWith(PREFIX) && name !== CACHE;
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter(old).map((name) => caches.delete(name))))
      // The page of the very first visit is served from here at once, too.
      .then(() => self.clients.claim()),
  );
});

// A new version waits until the page says so: nobody's work is reloaded away.
self.addEventListener("message", (event) => {
  if (event.data === "skip-waiting") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  const scope = new URL(self.registration.scope);
  if (request.method !== "GET" || url.origin !== scope.origin) return;
  const home = url.pathname === scope.pathname || url.pathname === `${scope.pathname}index.html`;
  const wanted = request.mode === "navigate" && home ? "./" : request;
  event.respondWith(
    caches
      .open(CACHE)
      .then((cache) => cache.match(wanted, { ignoreSearch: true, ignoreVary: true }))
      .then((kept) => kept ?? fetch(request)),
  );
});
