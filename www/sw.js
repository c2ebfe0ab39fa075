// Answers every request of the app from files kept on this device. A template: `cargo finish` fills in both constants.
"use strict";

const CACHE = "setday-/*BUILD*/";
const FILES = /*FILES*/[];

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const cache = await caches.open(CACHE);
    // `reload` goes past the browser's own cache: some files keep their name from build to build.
    await cache.addAll(FILES.map((file) => new Request(file, { cache: "reload" })));
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    for (const name of await caches.keys()) {
      if (name.startsWith("setday-") && name !== CACHE) await caches.delete(name);
    }
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  event.respondWith((async () => {
    const cache = await caches.open(CACHE);
    const wanted = event.request.mode === "navigate" ? "./index.html" : event.request;
    return (await cache.match(wanted, { ignoreSearch: true })) ?? fetch(event.request);
  })());
});
