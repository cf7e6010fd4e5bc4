// Keeps the page and the last answers, so that the page opens and takes readings while the server is away.
const kept = "barm-2"; // what an earlier one kept goes

self.addEventListener("install", (event) => {
  event.waitUntil(keep_all().then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(Promise.all([forget_earlier(), self.clients.claim()]));
});

async function forget_earlier() {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name !== kept).map((name) => caches.delete(name)));
}

// The page asks for this at every start: a newer program brings newer files, and the old ones go.
self.addEventListener("message", (event) => {
  if (event.data === "keep") event.waitUntil(keep_all().catch(() => undefined));
});

async function keep_all() {
  const cache = await caches.open(kept);
  const files = await (await fetch("/files.json", { cache: "no-cache" })).json();
  const there = await cache.keys();
  const names = new Set(there.map((request) => new URL(request.url).pathname));
  // One file that cannot be had must not cost all the others.
  await Promise.allSettled(["/", ...files.filter((name) => !names.has(name))].map((name) => cache.add(name)));
  const stale = there.filter((request) => {
    const { pathname } = new URL(request.url);
    return pathname.startsWith("/assets/") && !files.includes(pathname);
  });
  await Promise.all(stale.map((request) => cache.delete(request)));
}

function may_be_kept(response) {
  return response.ok && !(response.headers.get("Cache-Control") ?? "").includes("no-store");
}

async function forget_answers(cache) {
  const answers = (await cache.keys()).filter((request) => new URL(request.url).pathname.startsWith("/api/"));
  await Promise.all(answers.map((request) => cache.delete(request)));
}

// Where the browser has no room to keep an answer, the answer is given all the same.
async function keep_answer(cache, request, response) {
  if (may_be_kept(response)) await cache.put(request, response.clone()).catch(() => undefined);
  return response;
}

async function newest_or_kept(request, mark) {
  const cache = await caches.open(kept);
  try {
    const response = await fetch(request);
    // A device that is not paired any more keeps nothing of the daybook.
    if (response.status === 401) await forget_answers(cache);
    return await keep_answer(cache, request, response);
  } catch (error) {
    const old = await cache.match(request, { ignoreVary: true });
    if (!old) throw error;
    if (!mark) return old;
    const headers = new Headers(old.headers);
    headers.set("X-Barm-Kept", "1");
    return new Response(old.body, { status: old.status, headers });
  }
}

async function kept_or_newest(request) {
  const cache = await caches.open(kept);
  const old = await cache.match(request);
  if (old) return old;
  return keep_answer(cache, request, await fetch(request));
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { pathname, origin } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  if (pathname === "/api/events" || pathname.startsWith("/api/jobs") || pathname.endsWith(".ics")) return;
  if (pathname.startsWith("/api/")) event.respondWith(newest_or_kept(request, true));
  else if (pathname.startsWith("/assets/")) event.respondWith(kept_or_newest(request));
  else event.respondWith(newest_or_kept(request, false));
});
