// A browser whose store is full: bakes open and are saved, readings are sent, and what is kept only while the page is open is said so.
// And what lies there goes when it is saved, given up, or old.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, amount, keeps_the_rules, phone, picture, settled } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

/** Leaves no room in the store of texts, to the last letter. */
const fill = (page) =>
  page.evaluate(() => {
    for (let size = 1 << 20; size >= 1; size >>= 1) {
      for (let i = 0; ; i++) {
        try {
          localStorage.setItem(`filler.${size}.${i}`, "x".repeat(size));
        } catch {
          break;
        }
      }
    }
  });

const salt = (page) => amount(page, "salt");

test("with the store of texts full a bake opens, is changed and saved, and what has no room is said", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page("#/larder");
  await settled(page);
  await fill(page);
  await page.goto(`${bakery.url}/#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  await (await salt(page)).fill("1.8");
  const told = page.getByText("This browser has no room left.");
  await told.waitFor();
  await picture(page, "no_room_here-phone");
  await keeps_the_rules(page, "no room here");
  await page.goto(`${bakery.url}/#/bakes`);
  await settled(page);
  await page.goto(`${bakery.url}/#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  assert.equal(await (await salt(page)).inputValue(), "1.8", "it is kept while the page is open");
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  assert.equal((await bakery.form(id)).bowl.salt.replace(" ", ""), "1.8%");
  await told.waitFor({ state: "detached" });
  await page.goto(`${bakery.url}/#/settings`);
  await page.getByRole("combobox", { name: "Light", exact: true }).selectOption("dark");
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), "dark");
  await visitor.leave();
});

test("with no room for anything a reading is sent and answers are shown", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 3, state: "live" });
  await bakery.read(id, 3, 40);
  const visitor = await bakery.visit({ keeps: true });
  const page = await visitor.page(`#/bake/${id}/read`);
  await settled(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  const devtools = await visitor.context.newCDPSession(page);
  await devtools.send("Storage.overrideQuotaForOrigin", { origin: bakery.url, quotaSize: 1 });
  await page.reload();
  await settled(page);
  await page.getByRole("textbox", { name: "Height now (mm)" }).fill("47");
  await page.getByRole("button", { name: "Note it" }).click();
  await page.getByText(/Noted: 47 mm/).waitFor();
  await bakery.until(`/api/readings?owner=${id}`, ({ readings }) => readings.some((r) => r.height_mm === 47));
  await page.goto(`${bakery.url}/#/larder`);
  await settled(page);
  assert.equal(await page.getByText("The server is away").count(), 0);
  await visitor.leave();
});

test("what was typed and saved, dropped, or left for a season, lies in the browser no more", async () => {
  const { id } = await bakery.bake("mead-loaf");
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByTestId("ready").first().waitFor();
  const drafts = () => page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("barm.draft.")).sort());
  await (await salt(page)).fill("1.8");
  assert.deepEqual(await drafts(), [`barm.draft.bake.${id}`]);
  await page.getByRole("button", { name: "Save", exact: true }).click();
  await page.getByText("Saved.").waitFor();
  assert.deepEqual(await drafts(), []);
  await (await salt(page)).fill("2.9");
  await page.reload();
  await page.getByRole("button", { name: "Drop them" }).click();
  assert.deepEqual(await drafts(), []);
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal(await (await salt(page)).inputValue(), "2.9");
  await page.evaluate(() => {
    const days_ago = (days) => new Date(Date.now() - days * 86_400_000).toISOString();
    for (const [name, days] of [["new.bottle", 91], ["new.culture", 89]])
      localStorage.setItem(`barm.draft.${name}`, JSON.stringify({ value: { name: "left" }, revision: 0, kept_at: days_ago(days) }));
  });
  await page.reload();
  await page.getByTestId("ready").first().waitFor();
  assert.deepEqual(await drafts(), [`barm.draft.bake.${id}`, "barm.draft.new.culture"]);
  await visitor.leave();
});
