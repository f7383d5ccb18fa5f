// Keeps the whole guide on the phone: every file of one version, each checked, and none of another version among them.
// The next line is filled in when the guide is built: its key, its version, and every file with the start of its hash.
"use strict";
const GUIDE = null;

const home = new URL("./", self.location);
const files = new Map(Object.entries(GUIDE.files));
const ours = `shedbook:${encodeURIComponent(home.pathname)}:`; // caches of the guide at this address, and of no other
const cacheName = `${ours}${GUIDE.key}:${GUIDE.version}`;
const AT_ONCE = 6;
const RETURN = 13; // left out of hashes: some hosts turn line ends

function addressOf(name) {
  return new URL(name.split("/").map(encodeURIComponent).join("/"), home).href;
}

/** The file that an address means, if it is one of ours. Hosts may leave out "index.html", or the end ".html". */
function fileAt(address) {
  const { origin, pathname } = new URL(address);
  if (origin !== home.origin || !pathname.startsWith(home.pathname)) return undefined;
  try {
    const name = decodeURIComponent(pathname.slice(home.pathname.length));
    return [name, `${name}.html`, `${name}index.html`].find((one) => files.has(one));
  } catch {
    return undefined; // not an address that can be read
  }
}

async function isWhole(name, bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes.filter((byte) => byte !== RETURN)));
  const hex = Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return hex.startsWith(files.get(name));
}

/** The file to be kept, if `response` holds it as it must be. It is copied: a page may not come by a redirection. */
async function checked(name, response) {
  if (!response?.ok) return null;
  const bytes = new Uint8Array(await response.arrayBuffer());
  if (!(await isWhole(name, bytes))) return null;
  const headers = new Headers(response.headers);
  for (const header of ["vary", "content-encoding", "content-length"]) headers.delete(header);
  return new Response(bytes, { headers });
}

/** The file from the version kept before, if it has not changed: little is sent over a poor connection. */
async function fromBefore(name, before) {
  for (const other of before) {
    const found = await checked(name, await caches.match(addressOf(name), { cacheName: other }));
    if (found) return found;
  }
  return null;
}

/** The file from the network; a stale one in the browser's own store is passed over. */
async function fromNetwork(name) {
  for (const cache of ["default", "reload"]) {
    const found = await checked(name, await fetch(addressOf(name), { cache }));
    if (found) return found;
  }
  throw new Error(`not there, or not as it was built: ${name}`);
}

async function missing(cache) {
  const kept = new Set((await cache.keys()).map((request) => request.url));
  return [...files.keys()].filter((name) => !kept.has(addressOf(name)));
}

/** Fetch what is not kept yet. What came stays for the next try, and is shown to nobody until all is there. */
async function fill() {
  const cache = await caches.open(cacheName);
  const before = (await caches.keys()).filter((name) => name.startsWith(ours) && name !== cacheName);
  const wanted = await missing(cache);
  const take = async () => {
    for (let name = wanted.shift(); name !== undefined; name = wanted.shift()) {
      await cache.put(addressOf(name), (await fromBefore(name, before)) ?? (await fromNetwork(name)));
    }
  };
  const ends = await Promise.allSettled(Array.from({ length: AT_ONCE }, take));
  const failed = ends.find((end) => end.status === "rejected");
  if (failed) throw failed.reason;
}

async function install() {
  try {
    await fill();
  } catch (error) {
    if (error?.name === "QuotaExceededError") await caches.delete(cacheName); // half a guide must not fill the phone
    throw error;
  }
}

async function takeOver() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(ours) && name !== cacheName).map((name) => caches.delete(name)));
  await self.clients.claim();
}

/** Whether all is kept; what a browser has thrown away is fetched again if it can be. */
async function mended() {
  try {
    await fill();
    return true;
  } catch {
    return false;
  }
}

async function answer(name, request) {
  const kept = await caches.match(addressOf(name), { cacheName }).catch(() => undefined);
  return kept ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(takeOver()));
self.addEventListener("message", (event) => {
  if (event.data === "change over") self.skipWaiting();
  if (event.data === "whole?") event.waitUntil(mended().then((whole) => event.ports[0].postMessage(whole)));
});
self.addEventListener("fetch", (event) => {
  const { method, headers, url } = event.request;
  const name = method === "GET" && !headers.has("range") ? fileAt(url) : undefined;
  if (name !== undefined) event.respondWith(answer(name, event.request));
});
