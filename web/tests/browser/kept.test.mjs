// Nothing typed is lost: on whatever screen, whether it is left, reloaded or the server is away.
// Twenty seconds and more: every form is filled in, left and reloaded, and the server goes away and comes back.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, amount, for_later, keeps_the_rules, no_drafts, phone, picture, settled, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const drafts = (page) => page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("barm.draft.")));

test("where two devices change the same field, both are shown and the baker decides", async () => {
  const { id, revision } = await bakery.ask("POST", "/api/bottles", { title: "Dyke stout", ingredient: "stout", size_mL: 750, remark: "" });
  const visitor = await bakery.visit();
  const page = await visitor.page("#/larder");
  await page.locator("summary", { hasText: "Dyke stout" }).click();
  const sheet = page.locator(".sheet", { hasText: "Dyke stout" });
  await sheet.getByRole("textbox", { name: "Remarks" }).fill("flat by Monday");
  await bakery.ask("PUT", `/api/bottles/${id}`, { revision, remark: "still lively" });
  await sheet.getByText("yours “flat by Monday”, theirs “still lively”").waitFor();
  await sheet.getByRole("button", { name: "Keep mine", exact: true }).click();
  await bakery.until(`/api/bottles/${id}`, ({ remark }) => remark === "flat by Monday");
  await visitor.leave();
});

test("a reading taken and reloaded while the server is away is counted and taken into account as soon as it is back", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 5, state: "live" });
  await bakery.read(id, 5, 40);
  await bakery.read(id, 2, 44);
  const visitor = await bakery.visit({ keeps: true });
  const page = await for_later(visitor, `#/bake/${id}/read`);
  await page.getByText("All readings (2)").waitFor();
  const port = await bakery.stop();
  await page.getByRole("textbox", { name: "Height now (mm)" }).fill("52");
  await page.getByRole("button", { name: "Note it" }).click();
  await page.getByText("1 reading is kept here").waitFor();
  await page.reload();
  await page.getByText("All readings (3)").waitFor();
  // Meanwhile another device noted one too.
  await bakery.start(port);
  await bakery.read(id, 1, 48);
  await page.getByText("The server is away").waitFor({ state: "detached" });
  await page.getByText("All readings (4)").waitFor();
  await page.getByTestId("narrowed").waitFor();
  await page.getByText("kept here, not sent yet").waitFor({ state: "detached" });
  assert.deepEqual((await bakery.readings(id)).map((r) => r.height_mm).sort(), [40, 44, 48, 52]);
  await visitor.leave();
});

for (const [name, size] of sizes) {
  test(`a new bake is in nobody's daybook before it is saved, and is not lost either (${name})`, async () => {
    const before = (await bakery.ask("GET", "/api/bakes")).total;
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("#/new");
    await page.getByRole("button", { name: "Begin with flour, water, salt and levain" }).click();
    await page.getByTestId("ready").first().waitFor();
    await page.getByRole("textbox", { name: "Name" }).fill(`Sluice loaf ${name}`);
    await (await amount(page, "salt")).fill("1.9");
    await settled(page);
    await picture(page, `new_bake_unsaved-${name}`);
    await keeps_the_rules(page, `unsaved bake, ${name}`);
    await page.goto(`${bakery.url}/#/bakes`);
    await settled(page);
    assert.equal((await bakery.ask("GET", "/api/bakes")).total, before, "nothing is stored before the baker says so");
    await picture(page, `bakes_not_saved-${name}`);
    await keeps_the_rules(page, `bakes with one not saved, ${name}`);
    await page.reload();
    await page.getByRole("region", { name: "Not saved yet" }).getByRole("link", { name: `Sluice loaf ${name}` }).click();
    await page.getByTestId("ready").first().waitFor();
    assert.equal(await (await amount(page, "salt")).inputValue(), "1.9");
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByRole("navigation", { name: "Parts of this bake" }).waitFor();
    const { bakes, total } = await bakery.ask("GET", "/api/bakes");
    assert.equal(total, before + 1);
    assert.deepEqual(bakes.filter((b) => b.title === `Sluice loaf ${name}`).map((b) => b.state), ["planned"]);
    await no_drafts(page);
    await visitor.leave();
  });
}

test("a new bake that is given up is gone, and can be had again", async () => {
  const before = (await bakery.ask("GET", "/api/bakes")).total;
  const visitor = await bakery.visit();
  const page = await visitor.page("#/new");
  await page.getByRole("button", { name: /^Cold coffee loaf/ }).first().click();
  await page.getByRole("button", { name: "Discard it" }).click();
  await page.getByText("Cold coffee loaf is given up.").waitFor();
  await page.getByRole("region", { name: "Not saved yet" }).waitFor({ state: "detached" });
  await no_drafts(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("region", { name: "Not saved yet" }).getByRole("link", { name: "Cold coffee loaf" }).waitFor();
  assert.equal((await bakery.ask("GET", "/api/bakes")).total, before);
  await visitor.leave();
});

test("what is typed into any form is there again after the screen is left and reloaded", async () => {
  // Nothing need be worked out of what is typed of a dough whose hour of mixing is not known.
  const id = await bakery.jar();
  const late = await bakery.bake("plain-loaf", { hours_ago: 2, state: "live" });
  const culture = await bakery.ask("POST", "/api/cultures", { title: "Marsh mother", starter: "stiff ripe levain", feed: "1:2:1", flour: "white bread flour", temperature_C: 26 });
  await bakery.ask("POST", "/api/loaves", { bake: id, baked_at: "2026-11-01T08:00:00Z" });
  const box = (name) => (page) => page.getByRole("textbox", { name, exact: true });
  const forms = [
    ["#/larder", "Add a bottle", [[box("Name of the bottle"), "Sea porter"]]],
    ["#/cultures", "Add a culture", [[box("Name"), "Polder"]]],
    ["#/tests", "A new question", [[box("Name"), "Why so late?"], [box("The question, in your words"), "the salt?"]]],
    [`#/bake/${id}/read`, "Another time, warmth, pH", [[box("Height now (mm)"), "47"], [box("pH"), "5.1"], [box("Remark"), "a skin on it"]]],
    [`#/bake/${late.id}/rescue`, "Other hours, other places", [[(page) => page.getByRole("textbox", { name: /Places there are/ }), "28; 4"]]],
    [`#/culture/${culture.id}`, "This culture", [[box("Ripe : flour : water"), "1:3:2"], [box("Remarks"), "smells of pears"]]],
    [`#/bake/${id}/loaf`, "Scores", [[box("The crumb"), "tight below"], [(page) => page.getByRole("textbox", { name: /A score of your own/ }), "salt"]]],
  ];
  const visitor = await bakery.visit();
  const page = await visitor.page("");
  for (const [hash, folded, fields] of forms) {
    await page.goto(`${bakery.url}/${hash}`);
    await settled(page);
    if (folded) await page.locator("summary", { hasText: folded }).first().click();
    for (const [field, text] of fields) await field(page).first().fill(text);
  }
  await page.goto(`${bakery.url}/#/more`);
  await page.reload();
  for (const [hash, , fields] of forms) {
    await page.goto(`${bakery.url}/${hash}`);
    await settled(page);
    for (const [field, text] of fields) {
      await field(page).first().waitFor();
      assert.equal(await field(page).first().inputValue(), text, hash);
    }
  }
  // All of it stands in the settings, with its age, and can be dropped there.
  await page.goto(`${bakery.url}/#/settings`);
  const unsaved = page.getByRole("region", { name: "Typed here, not saved yet" });
  await unsaved.getByRole("link", { name: "a reading of a dough" }).waitFor();
  await keeps_the_rules(page, "settings with drafts");
  await picture(page, "settings_unsaved-phone");
  while ((await unsaved.getByRole("button").count()) > 0) await unsaved.getByRole("button").first().click();
  await no_drafts(page);
  await page.getByRole("button", { name: "Undo" }).click();
  assert.equal((await drafts(page)).length, 1);
  await visitor.leave();
});
