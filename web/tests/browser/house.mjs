// A bakery for the tests: the real server on a fresh daybook and the real browser. Under tools/at_hour all of them, the browser
// too, live at its hour.
import assert from "node:assert/strict";
import { spawn, execFileSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { chromium } from "playwright-core";

export { keeps_its_colours, keeps_its_measures, keeps_the_rules, picture, pictures } from "./rules.mjs";

const root = fileURLToPath(new URL("../../..", import.meta.url));
export const barm = process.env.BARM ?? join(root, "build/release/bin/barm");

// libfaketime makes a browser crawl: it runs without, and its pages are told how far ahead the hour is.
const { LD_PRELOAD: _, FAKETIME: ahead_s = "0", ...browser_environment } = process.env;

/** Sets the clock of a page ahead: in the page, before its own scripts, which may set it further. */
function set_ahead(by_ms) {
  const True = Date;
  globalThis.Date = class Date extends True {
    static ahead_ms = by_ms;
    constructor(...of) {
      super(...(of.length === 0 ? [Date.now()] : of));
    }
    static now() {
      return True.now() + Date.ahead_ms;
    }
  };
}

function browser_here() {
  const found = ["chromium-headless-shell", "chromium"].flatMap((name) => process.env.PATH.split(":").map((folder) => join(folder, name))).find((path) => existsSync(path));
  assert.ok(found, "no browser is here: install Debian's chromium-headless-shell");
  return found;
}

// For quick rounds: the address of `npm run dev`, whose page is shown in place of the one in the program.
const page_from = process.env.BARM_PAGE_FROM;

async function from_elsewhere(route) {
  const { pathname, search } = new URL(route.request().url());
  if (pathname.startsWith("/api/")) return route.fallback();
  const answer = await fetch(page_from + pathname + search, { headers: { accept: route.request().headers().accept ?? "*/*" } });
  return route.fulfill({ status: answer.status, contentType: answer.headers.get("content-type") ?? undefined, body: Buffer.from(await answer.arrayBuffer()) });
}

// To find where a test is faster than a screen: BARM_SLOW=800 holds every answer that a page asks for, for up to 800 ms.
const slow_ms = Number(process.env.BARM_SLOW ?? 0);

function hold_answers(most_ms) {
  const ask = globalThis.fetch;
  globalThis.fetch = (...of) => ask(...of).then((answer) => new Promise((give) => setTimeout(() => give(answer), most_ms * Math.random())));
}

// Asked as the page asks: on the wall of the browser's zone.
const zone = Intl.DateTimeFormat().resolvedOptions().timeZone;

// Nothing that works comes near it, however busy the machine.
const patience = 60_000;

const flags = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];

export const phone = { width: 390, height: 844 };
export const desk = { width: 1280, height: 900 };

/** The windows in which a walk is gone that is the same in both: both, or the one that BARM_SIZE names (./test draws one). */
export const sizes = [["phone", phone], ["desk", desk]].filter(([name]) => [undefined, name].includes(process.env.BARM_SIZE));
assert.ok(sizes.length > 0, `BARM_SIZE: phone or desk, not ${process.env.BARM_SIZE}`);

/** Starts `barm open` on a daybook of its own, empty or the invented bakery; ends it with its own signal. */
export class Bakery {
  static async open({ demo = false, lan = false } = {}) {
    const bakery = new Bakery();
    bakery.lan = lan;
    bakery.folder = mkdtempSync(join(tmpdir(), "barm-page-"));
    bakery.daybook = join(bakery.folder, "test.daybook");
    if (demo) execFileSync(barm, ["daybook", "demo", bakery.daybook]);
    const executablePath = browser_here();
    const launch = chromium.launch({ executablePath, args: flags, env: browser_environment, timeout: patience });
    const [browser, server] = await Promise.allSettled([launch, bakery.start(0)]);
    bakery.browser = browser.value;
    const wrong = browser.reason ?? server.reason;
    if (wrong === undefined) return bakery;
    await bakery.close();
    throw wrong;
  }

  /** The server on that port, or on any for 0. */
  async start(port) {
    this.server = spawn(barm, ["open", "--daybook", this.daybook, "--port", String(port), "--no-browser", ...(this.lan ? ["--lan"] : [])], { stdio: ["ignore", "pipe", "pipe"] });
    let said = "";
    this.url = await new Promise((resolve, reject) => {
      const hear = (chunk) => {
        said += chunk;
        // Whole lines only: a chunk may end within the key.
        const found = /http:\/\/(?:localhost|127\.0\.0\.1):(\d+)\s/.exec(said);
        const key = /its key +(\S+)\n/.exec(said)?.[1];
        if (!found || (this.lan && !key)) return;
        this.key = key;
        // The machine itself need not pair: it is visited as a telephone would.
        const telephone = /on a telephone +(\S+)/.exec(said)?.[1];
        this.on_a_network = telephone !== undefined;
        resolve(this.lan ? (telephone ?? `https://localhost:${found[1]}`) : `http://127.0.0.1:${found[1]}`);
      };
      this.server.stdout.on("data", hear);
      this.server.stderr.on("data", hear);
      this.server.on("error", reject);
      this.server.on("exit", (code) => reject(new Error(`barm open ended with ${code}: ${said}`)));
    });
    this.server.removeAllListeners("exit");
    this.answers = true;
  }

  /** Stops the server and gives the port it had. */
  async stop() {
    this.answers = false;
    const ended = new Promise((resolve) => this.server.once("exit", resolve));
    this.server.kill("SIGTERM");
    await ended;
    return Number(new URL(this.url).port);
  }

  async close() {
    await this.browser?.close();
    const { answers } = this;
    const ended = this.server.signalCode ?? this.server.exitCode;
    if (this.server.pid !== undefined && ended === null) await this.stop();
    rmSync(this.folder, { recursive: true, force: true });
    if (answers) assert.equal(ended, null, "the server ended by itself");
  }

  async ask(method, path, body) {
    const response = await fetch(this.url + path, {
      method,
      headers: { "Barm-Zone": zone, ...(body === undefined ? {} : { "Content-Type": "application/json" }) },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const text = await response.text();
    assert.ok(response.ok, `${method} ${path}: ${response.status} ${text}`);
    return text === "" ? undefined : JSON.parse(text);
  }

  /** Asks until the answer is as it is wanted: what a page does reaches the server a little later. */
  async until(path, wanted) {
    for (const end = performance.now() + patience; ; await new Promise((again) => setTimeout(again, 30))) {
      const answer = await this.ask("GET", path);
      if (wanted(answer)) return answer;
      assert.ok(performance.now() < end, `${path} has come to no more than ${JSON.stringify(answer)}`);
    }
  }

  example_file(key) {
    return join(root, "examples", `${key}.toml`);
  }

  example(key) {
    return readFileSync(this.example_file(key), "utf8");
  }

  /** A bake of the daybook from an example, mixed so many hours ago. */
  async bake(key, { hours_ago, state = "planned" } = {}) {
    let { form } = await this.ask("POST", "/api/bake", { bake: this.example(key) });
    const mixed = hours_ago === undefined ? undefined : new Date(Date.now() - hours_ago * 3_600_000);
    if (mixed) form = { ...form, mixed: local(mixed) };
    const { text: toml } = await this.ask("POST", "/api/bake", { bake: form });
    return this.ask("POST", "/api/bakes", { toml, state, ...(mixed ? { mixed_at: utc(mixed) } : {}) });
  }

  /** A dough with its mark in the jar and no hour of mixing yet: nothing is worked out of what is read of it. */
  async jar(height_mm = 40) {
    const { form } = await this.ask("POST", "/api/bake", { bake: this.example("mead-loaf") });
    const { text: toml } = await this.ask("POST", "/api/bake", { bake: { ...form, mixed: undefined } });
    const { id, mixed_at } = await this.ask("POST", "/api/bakes", { toml, state: "planned" });
    assert.equal(mixed_at, null);
    await this.read(id, 3, height_mm);
    return id;
  }

  /** The bake's file as an object. */
  async form(id) {
    const { toml } = await this.ask("GET", `/api/bakes/${id}`);
    return (await this.ask("POST", "/api/bake", { bake: toml })).form;
  }

  /** Another device saves the bake, with its file changed so. */
  async change(id, how) {
    const { revision } = await this.ask("GET", `/api/bakes/${id}`);
    const { text: toml } = await this.ask("POST", "/api/bake", { bake: how(await this.form(id)) });
    return this.ask("PUT", `/api/bakes/${id}`, { revision, toml });
  }

  /** Keeps both workers for long questions busy, so that the next one waits, until the function that comes back is called. */
  async occupied(bake_id) {
    const jobs = await Promise.all([1, 2].map((seed) => this.ask("POST", "/api/jobs", { ask: "foresee", with: { bake_id, draws: 20000, seed } })));
    return () => Promise.all(jobs.map(({ id }) => this.ask("DELETE", `/api/jobs/${id}`)));
  }

  async readings(id) {
    return (await this.ask("GET", `/api/readings?owner=${id}`)).readings;
  }

  async read(id, hours_ago, height_mm) {
    return this.ask("POST", "/api/readings", { bake: id, at: utc(new Date(Date.now() - hours_ago * 3_600_000)), height_mm });
  }

  /** A finished bake of a culture that rose by so many mm an hour from the third hour on. */
  async taught(culture, key, { hours_ago, mm_an_hour }) {
    const { id } = await this.bake(key, { hours_ago, state: "finished" });
    const { revision } = await this.ask("GET", `/api/bakes/${id}`);
    await this.ask("PUT", `/api/bakes/${id}`, { revision, culture });
    for (let h = 0; h < 7; h++) await this.read(id, hours_ago - h, 40 + mm_an_hour * Math.max(0, h - 2));
    return id;
  }

  /**
   * A visitor: a browser of its own, which must ask nobody else and must not stumble. `clock`: what it is for it, if not now;
   * `keeps`: with the service worker, which keeps the page and the answers for when the server is away. Without it, as on a
   * plain address of the network, the test can stand between page and server.
   */
  async visit({ size = phone, theme = "light", clock, keeps = false } = {}) {
    const context = await this.browser.newContext({ viewport: size, colorScheme: theme, reducedMotion: "reduce", hasTouch: size === phone, bypassCSP: true, ignoreHTTPSErrors: this.lan, serviceWorkers: keeps && !page_from ? "allow" : "block" });
    context.setDefaultTimeout(patience);
    if (slow_ms > 0) await context.addInitScript(hold_answers, slow_ms);
    if (page_from) await context.route(`${this.url}/**`, from_elsewhere);
    await context.addInitScript(set_ahead, 1000 * Number(ahead_s) + (clock ? clock.getTime() - Date.now() : 0));
    const visitor = { context, troubles: [], streams: 0, pages: [] };
    visitor.page = async (hash = "") => {
      const page = await context.newPage();
      page.on("pageerror", (error) => visitor.troubles.push(`error on the page: ${error.stack}`));
      page.on("request", (request) => {
        if (request.url().endsWith("/api/events")) visitor.streams += 1;
        const { protocol, origin } = new URL(request.url());
        if (protocol.startsWith("http") && origin !== this.url) visitor.troubles.push(`a request to elsewhere: ${request.url()}`);
      });
      await page.goto(`${this.url}/${hash}`);
      visitor.pages.push(page);
      return page;
    };
    visitor.leave = async () => {
      await context.close();
      assert.deepEqual(visitor.troubles, []);
    };
    return visitor;
  }
}

/** 2026-11-28T07:00:00, the local time of a date. */
export function local(date) {
  const two = (n) => String(n).padStart(2, "0");
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}T${two(date.getHours())}:${two(date.getMinutes())}:00`;
}

/** The same as the daybook keeps it, 2026-11-28T06:00:00Z. */
export const utc = (date) => `${date.toISOString().slice(0, 19)}Z`;

/** The field of a line's amount; its line is opened for it. */
export async function amount(page, line) {
  const field = page.getByRole("textbox", { name: `Amount of ${line}` });
  const row = page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: new RegExp(`^${line}`) }).first();
  await row.waitFor();
  if ((await row.getAttribute("aria-expanded")) === "false") await row.click();
  await field.waitFor();
  return field;
}

/** A moment chosen as a baker does: the day from its list, the hour typed. */
export async function set_when(page, label, date) {
  const [day, hour] = local(date).split("T");
  await page.getByRole("combobox", { name: label, exact: true }).selectOption(day);
  await page.getByRole("textbox", { name: `Hour of: ${label}` }).fill(hour.slice(0, 5));
}

/** Opens the part of that title, which is folded on a phone; at a desk it may stand open. Gives the part. */
export async function unfolded(page, title) {
  const fold = page.locator("details.fold", { has: page.getByRole("heading", { name: title }) }).first();
  await fold.waitFor();
  if (!(await fold.evaluate((node) => node.open))) await fold.locator("summary").first().click();
  await fold.locator(":scope > div").waitFor();
  return fold;
}

/** Waits until the screen of the address is drawn and has its answers. */
export async function settled(page) {
  await page.waitForLoadState("domcontentloaded");
  // The screen before stands there until the next picture.
  await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => setTimeout(drawn))));
  await page.locator("main h1").first().waitFor();
  // What is on its way says so: "Fetching the bake…".
  await page.waitForFunction(() => !/^[A-Z][^.\n]*…$/m.test(document.querySelector("main")?.innerText ?? ""));
}

/** A page of a visitor who keeps it: it will open again while the server is away. */
export async function for_later(visitor, hash) {
  const page = await visitor.page(hash);
  await settled(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await page.reload();
  await settled(page);
  return page;
}

/** The server has a record a moment before the page has heard so and lets its draft go. */
export const no_drafts = (page) => page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("barm.draft.")));
