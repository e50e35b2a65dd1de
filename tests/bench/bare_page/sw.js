// Caches everything once: the floor starts from the cache too.
self.addEventListener("install", (event) => {
  event.waitUntil(self.skipWaiting());
});
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  event.respondWith(
    caches.open("bare").then(async (cache) => {
      const held = await cache.match(event.request);
      if (held) return held;
      const answer = await fetch(event.request);
      await cache.put(event.request, answer.clone());
      return answer;
    }),
  );
});
