// What a preview has in the place of the worker: it lets go of what a guide at this address kept, and of itself.
"use strict";
const ours = `shedbook:${encodeURIComponent(new URL("./", self.location).pathname)}:`;

async function letGo() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(ours)).map((name) => caches.delete(name)));
  await self.clients.claim(); // open pages load again, from the preview
  await self.registration.unregister();
}

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(letGo()));
