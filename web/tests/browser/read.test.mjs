// Reading a dough: with one thumb, with the server away, with the window opening.
// Near half a minute: after each look the dough is read anew, and with the server away a page waits as long as it would for a baker.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, for_later, settled, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of sizes) {
  test(`slide, note; type, note; the jar follows (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf", { hours_ago: 3, state: "live" });
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}/read`);
    await page.getByText("First the mark").waitFor();
    await page.getByRole("textbox", { name: "Height at mixing (mm)" }).fill("40");
    await page.getByRole("button", { name: "Note the mark" }).click();
    await page.getByText(/Noted: 40 mm/).waitFor();
    await page.getByRole("textbox", { name: "Height now (mm)" }).waitFor();
    const slider = page.getByRole("slider", { name: "Slide the height, in millimetres" });
    await slider.focus();
    for (let i = 0; i < 5; i++) await page.keyboard.press("ArrowRight");
    assert.equal(await page.getByRole("textbox", { name: "Height now (mm)" }).inputValue(), "45");
    assert.match(await page.getByRole("img", { name: /Jar to scale/ }).getAttribute("aria-label"), /dough at 45 mm/);
    await page.getByRole("button", { name: "Note it" }).click();
    await page.getByText(/Noted: 45 mm/).waitFor();
    const all = await bakery.readings(id);
    assert.deepEqual(all.map((r) => r.height_mm).sort(), [40, 45]);
    await visitor.leave();
  });
}

test("a height that cannot be read is not noted, nor what stood there before it", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 3, state: "live" });
  await bakery.read(id, 3, 40);
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/read`);
  const height = page.getByRole("textbox", { name: "Height now (mm)" });
  await height.fill("52");
  for (const wrong of ["abc", "", "-5", "6.3 cm", "5000"]) {
    await height.fill(wrong);
    await page.getByRole("button", { name: "Note it" }).click();
    await height.press("Enter");
    assert.equal(await height.inputValue(), wrong, "what was typed stays");
  }
  await height.fill("53");
  await page.getByRole("button", { name: "Note it" }).click();
  await page.getByText(/Noted: 53 mm/).waitFor();
  assert.deepEqual((await bakery.readings(id)).map((r) => r.height_mm).sort(), [40, 53]);
  await visitor.leave();
});

test("readings typed while the server is away are kept, survive a reload, and are sent once when it is back", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 5, state: "live" });
  await bakery.read(id, 5, 40);
  const visitor = await bakery.visit({ keeps: true });
  const page = await for_later(visitor, `#/bake/${id}/read`);
  const port = await bakery.stop();
  await page.getByRole("textbox", { name: "Height now (mm)" }).fill("52");
  await page.getByRole("button", { name: "Note it" }).click();
  await page.getByText("1 reading is kept here and sent when it is back").waitFor();
  await page.reload();
  await page.getByRole("textbox", { name: "Height now (mm)" }).waitFor();
  await page.getByRole("textbox", { name: "Height now (mm)" }).fill("55");
  await page.getByRole("button", { name: "Note it" }).click();
  await page.getByText("2 readings are kept here and sent when it is back").waitFor();

  await bakery.start(port);
  await page.getByText("The server is away").waitFor({ state: "detached" });
  const { readings } = await bakery.until(`/api/readings?owner=${id}`, (all) => all.readings.length === 3);
  assert.deepEqual(readings.map((r) => r.height_mm).sort(), [40, 52, 55]);
  await visitor.leave();
});

test("a reading can be thrown away and taken back", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 2, state: "live" });
  await bakery.read(id, 0, 41);
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/read`);
  await page.getByText("All readings (1)").click();
  await page.getByRole("button", { name: /Throw the reading/ }).click();
  await bakery.until(`/api/readings?owner=${id}`, ({ readings }) => readings.length === 0);
  await page.goto(`${bakery.url}/#/trash`);
  await page.getByRole("button", { name: /Take it back: reading/ }).first().click();
  await bakery.until(`/api/readings?owner=${id}`, ({ readings }) => readings.length === 1);
  await visitor.leave();
});

test("the calendar file has an alarm", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 1, state: "live" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/read`);
  await unfolded(page, "How long it stays good");
  const href = await page.getByRole("link", { name: "Calendar file with alarms" }).getAttribute("href");
  const file = await (await fetch(bakery.url + href)).text();
  assert.match(file, /^BEGIN:VCALENDAR\r\n/);
  assert.match(file, /BEGIN:VALARM/);
  await settled(page);
  await visitor.leave();
});

test("the page flashes and sounds when a window opens while it is open", async () => {
  const { id, title } = await bakery.bake("cold-coffee-loaf", { hours_ago: 1, state: "live" });
  const today = await bakery.ask("GET", "/api/today");
  const opens = new Date(today.doughs.find((d) => d.bake === id).ready_p10_at);
  const visitor = await bakery.visit({ clock: new Date(opens.getTime() - 60_000) });
  await visitor.context.addInitScript(() => {
    const every = globalThis.setInterval;
    globalThis.setInterval = (look, ms) => every(look, ms / 50);  // so that nobody waits for the next look
    globalThis.struck = 0;
    const start = OscillatorNode.prototype.start;
    OscillatorNode.prototype.start = function (...at) {
      globalThis.struck += 1;
      return start.apply(this, at);
    };
  });
  const page = await visitor.page("#/larder");
  await settled(page);
  await page.mouse.click(5, 5);
  const strip = page.getByRole("alert").filter({ hasText: title });
  assert.equal(await strip.count(), 0);
  await page.evaluate(() => (Date.ahead_ms += 120_000));
  await strip.first().waitFor();
  assert.ok((await page.evaluate(() => globalThis.struck)) > 0, "it sounds");
  await strip.first().getByRole("button", { name: "Seen" }).click();
  await strip.first().waitFor({ state: "detached" });
  await visitor.leave();
});

test("a stage ticked off moves today's next thing to do", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 1, state: "live" });
  const next = async () => (await bakery.ask("GET", "/api/today")).doughs.find((d) => d.bake === id).next;
  const before = await next();
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/read`);
  const fold = page.getByRole("checkbox", { name: /^fold/ });
  await fold.check();
  await bakery.until(`/api/marks?owner=${id}`, ({ marks }) => marks.length === 1);
  assert.notEqual(await next(), before);
  await fold.uncheck();
  await bakery.until(`/api/marks?owner=${id}`, ({ marks }) => marks.length === 0);
  assert.equal(await next(), before);
  await visitor.leave();
});

test("a stage ticked off while the server is away stays ticked, through a reload, and is sent when it is back", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 1, state: "live" });
  const visitor = await bakery.visit({ keeps: true });
  const page = await for_later(visitor, `#/bake/${id}/read`);
  const fold = page.getByRole("checkbox", { name: /^fold/ });
  const port = await bakery.stop();
  await fold.check();
  await page.getByText("1 tick is kept here and sent when it is back").waitFor();
  await page.reload();
  await fold.waitFor();
  await page.waitForFunction(() => document.querySelector(".stage-marks input:checked:enabled") !== null);
  await bakery.start(port);
  await bakery.until(`/api/marks?owner=${id}`, ({ marks }) => marks.length === 1);
  // Off and on again in a moment: two changes go out, and there is another tick in the end.
  const { marks: before } = await bakery.ask("GET", `/api/marks?owner=${id}`);
  for (let i = 0; i < 2; i++) await fold.click();
  await bakery.until(`/api/marks?owner=${id}`, ({ marks }) => marks.length === 1 && marks[0].id !== before[0].id);
  await page.getByRole("checkbox", { name: /^fold/, checked: true }).waitFor();
  await visitor.leave();
});

test("readings narrow the window, and the height that is slid moves it at once", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 5, state: "live" });
  for (const [h, mm] of [[5, 40], [3, 46], [1, 62]]) await bakery.read(id, h, mm);
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/read`);
  await page.getByTestId("narrowed").waitFor();
  const hours = (words) => {
    const [, h, m] = /(\d+) h(?: (\d+))?/.exec(words) ?? [];
    return h === undefined ? Number(/(\d+) min/.exec(words)[1]) / 60 : Number(h) + Number(m ?? 0) / 60;
  };
  const [is, was] = (await page.getByTestId("narrowed").innerText()).split("; it was ");
  assert.ok(hours(is) < hours(was), `${is}; it was ${was}`);
  const ready = await page.getByTestId("ready").innerText();
  // No rise in an hour puts it off for sure; what was expected would leave the quarter hour it is said to.
  await page.getByRole("slider", { name: "Slide the height, in millimetres" }).fill("62");
  await page.waitForFunction((before) => document.querySelector("[data-testid=ready]").textContent !== before, ready);
  assert.equal((await bakery.readings(id)).length, 3, "sliding notes nothing");
  const slid = await page.getByTestId("ready").innerText();
  await page.getByRole("textbox", { name: "Height now (mm)" }).fill("78");
  await page.waitForFunction((before) => document.querySelector("[data-testid=ready]").textContent !== before, slid);
  await visitor.leave();
});
