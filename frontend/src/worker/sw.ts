/** The service worker: the whole app comes from the cache, the API never does, and a new version waits to be told. */
import { cleanupOutdatedCaches, createHandlerBoundToURL, precacheAndRoute } from "workbox-precaching";
import { NavigationRoute, registerRoute } from "workbox-routing";

declare const self: ServiceWorkerGlobalScope & {
  __WB_MANIFEST: { url: string; revision: string | null }[];
};

precacheAndRoute(self.__WB_MANIFEST);
cleanupOutdatedCaches();
registerRoute(new NavigationRoute(createHandlerBoundToURL("index.html"), { denylist: [/^\/api\//] }));

// Where the browser can, it takes the app's files from the cache itself, which saves a phone the way through this worker.
self.addEventListener("install", (event) => {
  const files = { condition: { urlPattern: new URLPattern({ pathname: "/assets/*" }) }, source: "cache" };
  if ("addRoutes" in event && typeof event.addRoutes === "function") event.addRoutes(files);
});

/** The page looks on this shelf for photos shared from another app. */
const SHELF = "shared-photos";

// Another app hands its photos over; they stay on the shelf until a card is chosen for them.
registerRoute(
  ({ url }) => url.pathname === "/bay/shared",
  async ({ request }) => {
    await shelve(await request.formData());
    return Response.redirect("/bay/shared", 303);
  },
  "POST",
);

async function shelve(form: FormData): Promise<void> {
  const shelf = await caches.open(SHELF);
  for (const file of form.getAll("photos")) {
    if (typeof file === "string") continue;
    const headers = { "Content-Type": file.type || "application/octet-stream" };
    await shelf.put(`/bay/shared/${crypto.randomUUID()}`, new Response(file, { headers }));
  }
}

// Only the page knows a safe moment (no open form, nothing being sent), so only its word makes the new version take over.
self.addEventListener("message", (event) => {
  if (isTakeOver(event.data)) void self.skipWaiting();
});

function isTakeOver(data: unknown): boolean {
  return typeof data === "object" && data !== null && "take" in data && data.take === "over";
}

// A notice about a countdown leads to its check: in the window that is open, or in a new one.
self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  const path: unknown = event.notification.data?.path;
  if (typeof path === "string") event.waitUntil(show(path));
});

async function show(path: string): Promise<void> {
  const [open] = await self.clients.matchAll({ type: "window" });
  if (!open) return void (await self.clients.openWindow(path));
  await open.focus();
  if (new URL(open.url).pathname !== path) await open.navigate(path);
}
