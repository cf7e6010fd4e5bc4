// A loaf and its photo written down while the server is away: kept in the browser, through a reload too, and in the daybook once it
// is back.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { Bakery, keeps_the_rules, phone, picture, settled } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const photo = readFileSync(fileURLToPath(new URL("../../../docs/pictures/bakes-phone.png", import.meta.url)));

test("a loaf and its photo wait for the server, and are there once", async () => {
  const bake = await bakery.bake("plain-loaf", { hours_ago: 14, state: "finished" });
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page(`#/bake/${bake.id}/loaf`);
  await settled(page);
  const out = page.getByRole("button", { name: "A loaf out of the oven" });
  await out.waitFor();
  const port = await bakery.stop();
  await out.click();
  await page.getByText("Kept in this browser until the server is back").waitFor();
  await page.locator('input[type="file"]').setInputFiles({ name: "loaf.png", mimeType: "image/png", buffer: photo });
  await page.getByText("1 photo is kept in this browser until the server is back.").waitFor();
  await page.getByText("1 loaf and 1 photo are").waitFor();
  await keeps_the_rules(page, "loaf away");
  await picture(page, "loaf-away-phone");
  await bakery.start(port);
  const { loaves } = await bakery.until(`/api/loaves?owner=${bake.id}`, (answer) => answer.loaves.length > 0);
  assert.equal(loaves.length, 1);
  const { photos } = await bakery.until(`/api/photos?owner=${loaves[0].id}`, (answer) => answer.photos.length > 0);
  assert.equal(photos.length, 1);
  await page.getByRole("img", { name: /^Photo 1 of loaf 1/ }).waitFor();
  assert.equal(await page.getByText("Kept in this browser").count(), 0);
  await visitor.leave();
});
