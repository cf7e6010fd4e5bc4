// What a culture has learned from its bakes: in words, left out and taken in again, learned anew and stopped; and a dough
// that starts from it.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, settled, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const a_culture = async (title) =>
  (await bakery.ask("POST", "/api/cultures", { title, starter: "stiff ripe levain", feed: "1:2:1", flour: "white bread flour", temperature_C: 26 })).id;

const middle = async (bake, culture_id) => (await bakery.ask("POST", "/api/foresee", { bake, culture_id, draws: 100 })).ready.p50_h;

for (const [name, size] of sizes) {
  test(`a bake left out has never taught, and taken in again it has (${name})`, async () => {
    const culture = await a_culture(`Marsh ${name}`);
    await bakery.taught(culture, "mead-loaf", { hours_ago: 60, mm_an_hour: 3 });
    const alone = await middle(bakery.example("mead-loaf"), culture);
    const odd = await bakery.taught(culture, "mead-loaf", { hours_ago: 40, mm_an_hour: 14 });
    const both = await middle(bakery.example("mead-loaf"), culture);
    assert.notEqual(both, alone);

    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/culture/${culture}`);
    await unfolded(page, "Its batches");
    assert.match(await page.getByTestId("against-the-book").innerText(), /after 12 h past its peak it starts about/);
    const batches = page.getByRole("checkbox", { name: "learns from it" });
    assert.equal(await batches.count(), 2);
    await batches.first().click();  // unticked when the server has it
    const { left_out } = await bakery.until(`/api/cultures/${culture}`, (it) => it.left_out.length === 1);
    assert.deepEqual(left_out, [odd]);
    assert.equal(await middle(bakery.example("mead-loaf"), culture), alone);
    await settled(page);
    await batches.first().click();
    await bakery.until(`/api/cultures/${culture}`, (it) => it.left_out.length === 0);
    assert.equal(await middle(bakery.example("mead-loaf"), culture), both);
    await visitor.leave();
  });
}

test("learning anew shows how far it is and can be stopped; what was known stays", async () => {
  const culture = await a_culture("The old one");
  for (let i = 0; i < 2; i++) await bakery.taught(culture, "mead-loaf", { hours_ago: 60 + 24 * i, mm_an_hour: 5 + i });
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page(`#/culture/${culture}`);
  await page.getByRole("button", { name: "Learn from all of them again" }).waitFor();
  const free = await bakery.occupied(id);
  await page.getByRole("button", { name: "Learn from all of them again" }).click();
  await page.getByRole("progressbar", { name: "Learning again…" }).waitFor();
  await page.getByRole("button", { name: "Stop" }).click();
  await page.getByRole("progressbar").waitFor({ state: "detached" });
  await free();
  assert.equal(await page.getByRole("checkbox", { name: "learns from it" }).count(), 2);
  await visitor.leave();
});

test("a culture nobody has read says how to begin", async () => {
  const culture = await a_culture("New");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/culture/${culture}`);
  await page.getByText("Nothing yet. Name this culture in a bake").waitFor();
  await visitor.leave();
});

test("a dough says from whose memory it starts, in its recipe, while it is read, and today", async () => {
  const culture = await a_culture("Sluice");
  await bakery.taught(culture, "mead-loaf", { hours_ago: 60, mm_an_hour: 4 });
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 4, state: "live" });
  const { revision } = await bakery.ask("GET", `/api/bakes/${id}`);
  await bakery.ask("PUT", `/api/bakes/${id}`, { revision, culture });
  for (const [h, mm] of [[4, 40], [2, 44], [1, 48]]) await bakery.read(id, h, mm);
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await unfolded(page, "The rise");
  await page.getByText("It starts from what Sluice has taught.").waitFor();
  await page.goto(`${bakery.url}/#/bake/${id}/read`);
  await unfolded(page, "How long it stays good");
  await page.getByText("It starts from what Sluice has taught.").waitFor();
  await page.goto(`${bakery.url}/#/`);
  await page.getByText("Each dough and levain in words").click();
  await page.getByText("from 3 readings and what Sluice has taught").waitFor();
  await visitor.leave();
});
