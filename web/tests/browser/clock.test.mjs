// A device whose clock is wrong: told, put right with a tap; and no reading of what is still to come.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, keeps_the_rules, phone, picture, settled, set_when } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const hour = 3_600_000;
const minutes_off = (reading) => Math.abs(Date.parse(reading.at) - Date.now()) / 60_000;
const note = (page) => page.getByRole("button", { name: "Note it" }).click();
const height = (page, mm) => page.getByRole("textbox", { name: "Height now (mm)" }).fill(String(mm));

for (const [name, size, ahead_h, words] of [["phone", phone, 1.25, /1 h 15 min ahead of the server's/], ["desk", desk, -26, /26 h behind the server's/]]) {
  test(`a clock that is wrong is told on every screen, and a tap puts it right (${name})`, async () => {
    const id = await bakery.jar();
    const visitor = await bakery.visit({ size, clock: new Date(Date.now() + ahead_h * hour) });
    const page = await visitor.page(`#/bake/${id}/read`);
    await settled(page);
    const strip = page.getByText(/This device's clock is/);
    await strip.waitFor();
    assert.match(await strip.innerText(), words);
    await picture(page, `clock_apart-${name}`);
    await keeps_the_rules(page, `clocks apart, ${name}`);
    await page.goto(`${bakery.url}/#/larder`);
    await strip.waitFor();
    await page.getByRole("button", { name: "Go by the server's" }).click();
    await strip.waitFor({ state: "detached" });
    await page.goto(`${bakery.url}/#/bake/${id}/read`);
    await page.reload();
    await settled(page);
    assert.equal(await strip.count(), 0, "the choice holds");
    await height(page, 52);
    await note(page);
    await page.getByText(/Noted: 52 mm/).waitFor();
    const { readings } = await bakery.until(`/api/readings?owner=${id}`, (all) => all.readings.length === 2);
    assert.ok(minutes_off(readings.find((r) => r.height_mm === 52)) < 3);
    await page.goto(`${bakery.url}/#/settings`);
    await page.getByText("the server's holds here.").waitFor();
    await visitor.leave();
  });
}

test("a reading by a clock that is ahead is refused until it is said which clock is right", async () => {
  const id = await bakery.jar();
  const visitor = await bakery.visit({ clock: new Date(Date.now() + 2 * hour) });
  const page = await visitor.page(`#/bake/${id}/read`);
  await page.getByText(/This device's clock is/).waitFor();
  await height(page, 55);
  await note(page);
  await page.getByText(/By the server's clock .* is still to come/).waitFor();
  assert.equal((await bakery.readings(id)).length, 1);
  assert.equal(await page.getByRole("textbox", { name: "Height now (mm)" }).inputValue(), "55", "what was typed stays");
  await page.getByRole("button", { name: "Go by the server's" }).click();
  await note(page);
  const { readings } = await bakery.until(`/api/readings?owner=${id}`, (all) => all.readings.length === 2);
  assert.ok(minutes_off(readings.find((r) => r.height_mm === 55)) < 3);
  await visitor.leave();
});

test("a reading typed for a time that is still to come is refused with the reason, and nothing is lost", async () => {
  const id = await bakery.jar();
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/read`);
  await settled(page);
  await height(page, 61);
  await page.getByText("Another time, warmth, pH").click();
  await set_when(page, "When", new Date(Date.now() + 3 * hour));
  await note(page);
  await page.getByRole("alert").filter({ hasText: /is still to come; it is/ }).waitFor();
  await picture(page, "reading_to_come-phone");
  assert.equal((await bakery.readings(id)).length, 1);
  await set_when(page, "When", new Date(Date.now() - hour));
  await note(page);
  await bakery.until(`/api/readings?owner=${id}`, ({ readings }) => readings.some((r) => r.height_mm === 61));
  assert.equal(await page.getByText(/This device's clock is/).count(), 0, "a clock that is right is not spoken of");
  await visitor.leave();
});

test("a device in another zone than the bakery's is told what the clock says in both, on every screen, until it is seen", async () => {
  const here = Intl.DateTimeFormat().resolvedOptions().timeZone;
  const elsewhere = here === "Asia/Kathmandu" ? "America/St_Johns" : "Asia/Kathmandu";  // no other clock is at its quarters
  const visitor = await bakery.visit();
  const page = await visitor.page("#/larder");
  await settled(page);
  const strip = page.getByText(/The bakery goes by/);
  assert.equal(await strip.count(), 0, "nobody has said where the bakery is");
  const { revision } = await bakery.ask("PUT", "/api/settings/house", { revision: 0, value: JSON.stringify({ zone: elsewhere }) });
  await strip.waitFor();
  const clock = (timeZone) => new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", timeZone }).format(new Date());
  const [, there, at_this] = /it is \w{3} (\d\d:\d\d)\. This device goes by \S+: \w{3} (\d\d:\d\d),/.exec(await strip.innerText());
  const minutes = (text) => 60 * Number(text.slice(0, 2)) + Number(text.slice(3));
  const off = (a, b) => Math.min((minutes(a) - minutes(b) + 1440) % 1440, (minutes(b) - minutes(a) + 1440) % 1440);
  assert.ok(off(there, clock(elsewhere)) <= 2 && off(at_this, clock(here)) <= 2, `${there} and ${at_this}`);
  await keeps_the_rules(page, "zones apart");
  await picture(page, "zones_apart-phone");
  await page.goto(`${bakery.url}/#/settings`);
  await settled(page);
  await strip.waitFor();
  await strip.getByRole("button", { name: "Seen" }).click();
  await strip.waitFor({ state: "detached" });
  await page.reload();
  await settled(page);
  assert.equal(await strip.count(), 0);
  await bakery.ask("PUT", "/api/settings/house", { revision, value: JSON.stringify({ zone: here }) });
  await visitor.leave();
});
