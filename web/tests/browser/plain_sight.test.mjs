// What must be seen without looking for it: the recipe and its answer on a phone, tabs, the order of the keyboard, a field that
// was refused, days and hours in the words of the house.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, amount, desk, phone, settled, utc, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const box = (locator) => locator.evaluate((e) => {
  const { top, bottom, left, right } = e.getBoundingClientRect();
  return { top, bottom, left, right };
});

test("six lines of a recipe and its answer stand on a phone at once, in letters of 16 px", async () => {
  const { id } = await bakery.bake("mead-loaf");
  await bakery.change(id, (form) => ({ ...form, bowl: { ...form.bowl, honey: "3 %" } }));
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  const rows = page.getByRole("list", { name: "The bowl" }).getByRole("button");
  await page.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^honey.* g$/ }).waitFor();
  assert.ok((await rows.count()) >= 6);
  const bar = await box(page.getByRole("navigation", { name: "Places" }));
  assert.ok((await box(page.getByTestId("ready").first())).top >= 0);
  assert.ok((await box(rows.nth(5))).bottom <= bar.top, `the sixth line ends at ${(await box(rows.nth(5))).bottom}, the bar begins at ${bar.top}`);
  const size = await rows.first().evaluate((e) => parseFloat(getComputedStyle(e).fontSize));
  assert.ok(size >= 16, `${size} px`);
  await visitor.leave();
});

test("every tab of a bake stands within the window of a phone", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await settled(page);
  for (const tab of await page.getByRole("navigation", { name: "Parts of this bake" }).getByRole("link").all()) {
    const { left, right } = await box(tab);
    assert.ok(left >= 0 && right <= phone.width, `${await tab.innerText()}: ${left} to ${right}`);
  }
  await visitor.leave();
});

test("the rail comes before the screen in the order of the keyboard", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("#/bakes");
  await settled(page);
  await page.keyboard.press("Tab");
  await page.keyboard.press("Tab");
  assert.equal(await page.evaluate(() => document.activeElement?.textContent?.trim()), "Today");
  await visitor.leave();
});

test("a field that was refused is brought into sight, out of what is folded and from under the head", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  const salt = await amount(page, "salt");
  await salt.fill("-2");
  await page.getByRole("alert").filter({ hasText: "cannot be below zero" }).waitFor();
  const { top, bottom } = await box(page.getByRole("alert").filter({ hasText: "cannot be below zero" }));
  const head = await box(page.locator(".head-of-all"));
  assert.ok(top >= head.bottom && bottom <= phone.height, `${top} to ${bottom} under a head to ${head.bottom}`);
  await visitor.leave();
});

test("a day has its weekday, and its hour is seen and typed as the house says it, on a phone too", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 2, state: "live" });
  await bakery.ask("PUT", "/api/settings/habits", { value: JSON.stringify({ warmth: "C", weight: "g", clock: "12", decimal: "." }), revision: 0 });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}/rescue`);
  await unfolded(page, "Other hours, other places");
  const day = page.getByRole("combobox", { name: "Needed by", exact: true });
  await day.waitFor();
  assert.match(await day.evaluate((e) => e.selectedOptions[0].textContent), /(Sun|Mon|Tue|Wed|Thu|Fri|Sat) \d{1,2} \w{3}/);
  const hour = page.getByRole("textbox", { name: "Hour of: Needed by" });
  await page.waitForFunction((e) => /^\d{1,2}:\d\d (am|pm)$/.test(e.value), await hour.elementHandle());
  const { left, right } = await box(hour);
  assert.ok(right - left > 80 && right <= phone.width);
  await hour.fill("7 pm");
  await page.getByRole("button", { name: "Ask again" }).click();
  await page.getByText(/by \w{3} 7:00 pm/).first().waitFor();
  await bakery.ask("PUT", "/api/settings/habits", { value: JSON.stringify({ warmth: "C", weight: "g", clock: "24", decimal: "." }), revision: 1 });
  await visitor.leave();
});

test("search looks into the words of loaves, and knows months", async () => {
  const { id, title } = await bakery.bake("perry-loaf", { hours_ago: 24 * 40, state: "finished" });
  await bakery.ask("POST", "/api/loaves", { bake: id, baked_at: utc(new Date()), taste: "like pears in hay" });
  const month = new Date(Date.now() - 40 * 86_400_000).toLocaleString("en-GB", { month: "long", timeZone: "UTC" });
  const visitor = await bakery.visit();
  const page = await visitor.page("#/bakes");
  for (const words of ["pears hay", `perry ${month}`]) {
    await page.getByRole("searchbox").fill(words);
    await page.getByRole("status").filter({ hasText: /^1 bakes?$/ }).waitFor();
    await page.getByRole("link", { name: new RegExp(title) }).waitFor();
  }
  await visitor.leave();
});

test("what there is of a bottle, and when a levain was fed last, stand in plain words", async () => {
  await bakery.ask("POST", "/api/bottles", { title: "Sea porter", ingredient: "stout", size_mL: 500, whole_bottles: 1 });
  const culture = await bakery.ask("POST", "/api/cultures", { title: "Polder", starter: "stiff ripe levain", feed: "1:2:1", flour: "white bread flour", temperature_C: 26 });
  for (const hours of [51, 3]) await bakery.ask("POST", "/api/feedings", { culture: culture.id, at: utc(new Date(Date.now() - hours * 3_600_000)), ripe_g: 75, flour_g: 150, water_g: 75, flour: "white bread flour", temperature_C: 26 });
  const visitor = await bakery.visit();
  const page = await visitor.page("#/larder");
  const row = page.locator("summary", { hasText: "Sea porter" });
  await row.waitFor();
  assert.match((await row.innerText()).replace(/\s+/g, " "), /Sea porter 1 full$/);
  await page.goto(`${bakery.url}/#/culture/${culture.id}`);
  const feedings = page.getByRole("region", { name: "Feedings" }).getByRole("listitem");
  await feedings.first().waitFor();
  assert.match(await feedings.first().innerText(), /· 3 h ago/);
  assert.doesNotMatch(await feedings.nth(1).innerText(), /ago/);
  await visitor.leave();
});
