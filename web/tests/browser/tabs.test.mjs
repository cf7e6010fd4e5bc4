// Two tabs, two devices, one stream: nobody writes over anybody silently.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, amount, settled } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

test("three tabs of one browser hold one stream, and all hear the news", async () => {
  const visitor = await bakery.visit({ keeps: true });
  const pages = [await visitor.page("#/bakes"), await visitor.page("#/bakes"), await visitor.page("#/bakes")];
  for (const page of pages) await settled(page);
  const { title } = await bakery.bake("stout-loaf");
  for (const page of pages) await page.getByRole("link", { name: new RegExp(title) }).first().waitFor();
  assert.equal(visitor.streams, 1);
  // The tab that listens is closed: another takes its place.
  await pages[0].close();
  await bakery.bake("perry-loaf");
  for (const page of pages.slice(1)) await page.getByRole("link", { name: /Perry loaf/ }).first().waitFor();
  await visitor.leave();
});

test("a tab that takes over hears what changed while nobody listened", async () => {
  const visitor = await bakery.visit();
  const [first, second] = [await visitor.page("#/bakes"), await visitor.page("#/bakes")];
  for (const page of [first, second]) await settled(page);
  // The second tab's stream is let through only after the change.
  let let_through;
  const changed = new Promise((resolve) => (let_through = resolve));
  const asked = second.waitForRequest("**/api/events");
  await second.route("**/api/events", async (route) => {
    await changed;
    await route.continue();
  });
  await first.close();
  await asked;
  await bakery.bake("cold-coffee-loaf");
  let_through();
  await second.getByRole("link", { name: /coffee/i }).first().waitFor();
  await visitor.leave();
});

const change_salt = async (page, to) => {
  await page.getByTestId("ready").first().waitFor();
  await (await amount(page, "salt")).fill(to);
};
const save = (page) => page.getByRole("button", { name: "Save", exact: true }).click();
const salt_of = async (id) => (await bakery.form(id)).bowl.salt.replace(" ", "");

test("two devices on one bake: the second is asked, and both answers hold what they say", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const [phone, desk] = [await bakery.visit(), await bakery.visit()];
  const [a, b] = [await phone.page(`#/bake/${id}`), await desk.page(`#/bake/${id}`)];
  await change_salt(b, "1.6");
  await change_salt(a, "2.4");
  await save(a);
  await a.getByText("Saved.").waitFor();

  const question = b.getByRole("dialog", { name: "Changed elsewhere meanwhile" });
  await question.waitFor();
  assert.equal(await salt_of(id), "2.4%");
  assert.match(await question.getByRole("table").innerText(), /salt\s+1\.6 %\s+2\.4 %/);
  await question.getByRole("button", { name: "Keep mine", exact: true }).click();
  await question.waitFor({ state: "detached" });
  assert.equal(await salt_of(id), "1.6%");

  // The first device, with nothing unsaved, simply follows.
  await a.getByRole("list", { name: "The bowl" }).getByRole("button", { name: /^salt 1\.6 %/ }).waitFor();
  await phone.leave();
  await desk.leave();
});

test("theirs can hold, or mine become a bake of its own", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await change_salt(page, "1.6");
  await bakery.change(id, (form) => ({ ...form, bowl: { ...form.bowl, salt: "2.2 %" } }));
  const question = page.getByRole("dialog", { name: "Changed elsewhere meanwhile" });
  await question.getByRole("button", { name: "Keep mine as a new bake" }).click();
  await page.getByRole("heading", { level: 1, name: /my changes/ }).waitFor();
  assert.equal(await salt_of(id), "2.2%");
  const { bakes } = await bakery.ask("GET", "/api/bakes?text=my%20changes");
  assert.equal(await salt_of(bakes[0].id), "1.6%");
  await visitor.leave();
});

test("a change of state elsewhere is no question", async () => {
  const { id, revision } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await change_salt(page, "1.9");
  await bakery.ask("PUT", `/api/bakes/${id}`, { revision, state: "live" });
  await page.getByText("running").first().waitFor();
  await save(page);
  await page.getByText("Saved.").waitFor();
  assert.equal((await bakery.ask("GET", `/api/bakes/${id}`)).state, "live");
  assert.equal(await salt_of(id), "1.9%");
  await visitor.leave();
});
