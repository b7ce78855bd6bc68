// The service worker: the app's own files, and the last good copy of each page, for a yard without a signal. Never a POST, never the JSON.
import { clientsClaim } from "workbox-core";
import { cleanupOutdatedCaches, matchPrecache, precacheAndRoute } from "workbox-precaching";
import { registerRoute, setCatchHandler } from "workbox-routing";
import { NetworkFirst } from "workbox-strategies";

const PAGES = "woodreeve-pages";
const OFFLINE = "/static/offline.html";
const FILES = __STATIC_FILES__;
const fellBack = new Map();

self.skipWaiting();
clientsClaim();
cleanupOutdatedCaches();
// Each file is kept under its address with ?v=digest: a page newer than this worker asks for a digest it does not know, and gets it fresh.
precacheAndRoute(FILES.map(([url, digest]) => ({ url: `${url}?v=${digest}`, revision: null })), { directoryIndex: null, cleanURLs: false });

async function precached(pathname) {
  const known = FILES.find(([url]) => url === pathname);
  return known ? matchPrecache(`${known[0]}?v=${known[1]}`) : undefined;
}

registerRoute(
  ({ url, sameOrigin }) => sameOrigin && url.pathname.startsWith("/static/"),
  async ({ request, url }) => {
    try {
      return await fetch(request);
    } catch (failure) {
      const kept = await precached(url.pathname);
      if (kept) return kept;
      throw failure;
    }
  },
);

const onlyGoodPages = {
  cacheWillUpdate: async ({ response }) => {
    const isPage = (response.headers.get("Content-Type") ?? "").startsWith("text/html");
    const mayStay = !/no-store/.test(response.headers.get("Cache-Control") ?? "");
    return response.status === 200 && !response.redirected && isPage && mayStay ? response : null;
  },
  cachedResponseWillBeUsed: async ({ request, cachedResponse }) => {
    if (cachedResponse) fellBack.set(request.url, cachedResponse.headers.get("Date") ?? "");
    return cachedResponse;
  },
  requestWillFetch: async ({ request }) => {
    fellBack.delete(request.url);
    return request;
  },
};

const pages = new NetworkFirst({ cacheName: PAGES, networkTimeoutSeconds: 6, plugins: [onlyGoodPages] });
const isPageOrPart = ({ request, url, sameOrigin }) =>
  sameOrigin &&
  !url.pathname.startsWith("/api/") &&
  !url.pathname.startsWith("/static/") &&
  (request.mode === "navigate" || request.headers.get("HX-Request") === "true");

registerRoute(isPageOrPart, pages, "GET");

setCatchHandler(async ({ request }) => {
  if (request.mode === "navigate") return (await precached(OFFLINE)) ?? Response.error();
  return Response.error();
});

async function keep(urls) {
  const cache = await caches.open(PAGES);
  for (const url of urls) {
    if (new URL(url, self.location.href).origin !== self.location.origin || (await cache.match(url))) continue;
    try {
      const response = await fetch(url, { credentials: "same-origin", headers: { Accept: "text/html" } });
      if (await onlyGoodPages.cacheWillUpdate({ response })) await cache.put(url, response);
    } catch {
      return;
    }
  }
}

self.addEventListener("message", (event) => {
  const { forget, keep: urls, storedCopyOf } = event.data ?? {};
  if (forget) event.waitUntil(caches.delete(PAGES));
  if (Array.isArray(urls)) event.waitUntil(keep(urls));
  if (storedCopyOf) event.ports[0]?.postMessage({ stored: fellBack.get(storedCopyOf) ?? null });
});
