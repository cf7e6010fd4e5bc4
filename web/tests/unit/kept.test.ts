// What the page keeps for when the line is down: the worker itself, with a cache and a line made of memory.
import { readFileSync } from "node:fs";
import { runInNewContext } from "node:vm";
import { describe, expect, it } from "vitest";

const source = readFileSync(new URL("../../public/sw.js", import.meta.url), "utf8");

function worker(answer: (path: string) => Response) {
  const kept = new Map<string, Response>();
  const path_of = (request: Request | string) => new URL(typeof request === "string" ? request : request.url, "http://marsh/").pathname;
  const cache = {
    put: async (request: Request, response: Response) => void kept.set(path_of(request), response),
    match: async (request: Request) => kept.get(path_of(request))?.clone(),
    keys: async () => [...kept.keys()].map((path) => new Request(`http://marsh${path}`)),
    delete: async (request: Request) => kept.delete(path_of(request)),
  };
  const heard: Record<string, (event: unknown) => void> = {};
  const self = { location: { origin: "http://marsh" }, addEventListener: (name: string, hear: (event: unknown) => void) => (heard[name] = hear) };
  const caches = { open: async () => cache };
  runInNewContext(source, { self, caches, fetch: async (r: Request) => answer(path_of(r)), URL, Set, Headers, Response, Promise });
  const ask = async (path: string) => {
    let given: Promise<Response> | undefined;
    heard["fetch"]!({ request: new Request(`http://marsh${path}`), respondWith: (r: Promise<Response>) => (given = r) });
    return given;
  };
  return { ask, kept };
}

const said = (cache_control: string, status = 200) => new Response("{}", { status, headers: { "Cache-Control": cache_control } });

describe("what is kept for when the line is down", () => {
  it("is what may be kept, and nothing marked no-store", async () => {
    const { ask, kept } = worker((path) => said(path === "/api/bakes" ? "private, no-cache" : "no-store"));
    for (const path of ["/api/bakes", "/api/bakes/b1/label.html", "/authority.crt", "/assets/a.js"]) await ask(path);
    expect([...kept.keys()]).toEqual(["/api/bakes"]);
  });

  it("is given back when the server is away, and marked", async () => {
    let there = true;
    const { ask } = worker(() => {
      if (!there) throw new TypeError("away");
      return said("private, no-cache");
    });
    await ask("/api/bakes");
    there = false;
    const old = await ask("/api/bakes");
    expect(old?.headers.get("X-Barm-Kept")).toBe("1");
  });

  it("goes when the device is not paired any more, but the page stays", async () => {
    let paired = true;
    const { ask, kept } = worker((path) => (paired || !path.startsWith("/api/") ? said("no-cache") : said("no-store", 401)));
    for (const path of ["/", "/api/bakes", "/api/today"]) await ask(path);
    expect(kept.size).toBe(3);
    paired = false;
    await ask("/api/today");
    expect([...kept.keys()]).toEqual(["/"]);
  });
});
