// What is thrown away, wiped or unticked is offered back at once; an address of what is not there says so.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, desk, keeps_the_rules, phone, picture, settled, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

for (const [name, size] of sizes) {
  test(`starting over on a dough that runs is asked first, and can be taken back (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf", { hours_ago: 1, state: "live" });
    for (const [of, poured_g] of [["dry mead", 1200], ["salt", null]])
      await bakery.ask("POST", "/api/marks", { bake: id, what: "weigh", of, at: "2026-11-01T08:00:00Z", ...(poured_g === null ? {} : { poured_g }) });
    const weighed = async () => (await bakery.ask("GET", `/api/marks?owner=${id}`)).marks.map((m) => [m.of, m.poured_g]).sort();
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}/bench`);
    await page.getByText("3 of 5 still to weigh.").waitFor();
    await page.getByRole("button", { name: "Start over" }).click();
    const question = page.getByRole("dialog", { name: "Start over?" });
    await question.getByText("This dough is mixed.").waitFor();
    assert.match(await question.innerText(), /2 ticks go[\s\S]*dry mead \d/);
    await picture(page, `start_over-${name}`);
    await question.getByRole("button", { name: "Leave it" }).click();
    await question.waitFor({ state: "detached" });
    assert.deepEqual(await weighed(), [["dry mead", 1200], ["salt", null]]);

    await page.getByRole("button", { name: "Start over" }).click();
    await question.getByRole("button", { name: "Wipe the sheet" }).click();
    await page.getByText("5 of 5 still to weigh.").waitFor();
    await bakery.until(`/api/marks?owner=${id}`, ({ marks }) => marks.length === 0);
    await page.getByRole("button", { name: "Undo" }).click();
    await page.getByText("3 of 5 still to weigh.").waitFor();
    assert.deepEqual(await weighed(), [["dry mead", 1200], ["salt", null]]);

    // A line unticked takes what was poured of it along; that too can be had again.
    await page.getByRole("checkbox", { name: /dry mead/ }).uncheck();
    await page.getByText("What was poured of dry mead is off the sheet.").waitFor();
    await page.getByRole("button", { name: "Undo" }).click();
    await bakery.until(`/api/marks?owner=${id}`, ({ marks }) => marks.some((m) => m.poured_g === 1200));
    await page.getByText("3 of 5 still to weigh.").waitFor();
    await visitor.leave();
  });
}

test("whatever is thrown away is offered back at once", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 2, state: "live" });
  await bakery.read(id, 1, 41);
  await bakery.ask("POST", "/api/loaves", { bake: id, baked_at: "2026-11-01T08:00:00Z" });
  const culture = await bakery.ask("POST", "/api/cultures", { title: "Groyne", starter: "stiff ripe levain", feed: "1:2:1", flour: "white bread flour", temperature_C: 26 });
  await bakery.ask("POST", "/api/feedings", { culture: culture.id, at: "2026-11-01T08:00:00Z", ripe_g: 75, flour_g: 150, water_g: 75, flour: "white bread flour", temperature_C: 26 });
  const bottle = await bakery.ask("POST", "/api/bottles", { title: "Groyne perry", ingredient: "perry", size_mL: 750 });
  const away = [
    [`#/bake/${id}/read`, "All readings (1)", (page) => page.getByRole("button", { name: /Throw the reading/ }), `/api/readings?owner=${id}`, (a) => a.readings.length],
    [`#/culture/${culture.id}`, undefined, (page) => page.getByRole("button", { name: /Throw the feeding/ }), `/api/feedings?owner=${culture.id}`, (a) => a.feedings.length],
    [`#/bake/${id}/loaf`, undefined, (page) => page.getByRole("button", { name: "Into the trash: loaf 1" }), `/api/loaves?owner=${id}`, (a) => a.loaves.length],
    ["#/larder", "Groyne perry", (page) => page.getByRole("button", { name: "Into the trash: Groyne perry" }), `/api/bottles/${bottle.id}`, (a) => Number(a.deleted_at === null)],
    [`#/culture/${culture.id}`, "This culture", (page) => page.getByRole("button", { name: "Into the trash", exact: true }), `/api/cultures/${culture.id}`, (a) => Number(a.deleted_at === null)],
    [`#/bake/${id}`, "This bake", (page) => page.getByRole("button", { name: "Into the trash", exact: true }), `/api/bakes/${id}`, (a) => Number(a.deleted_at === null)],
  ];
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("");
  for (const [hash, folded, button, route, there] of away) {
    await page.goto(`${bakery.url}/${hash}`);
    await settled(page);
    if (folded) await page.locator("summary", { hasText: folded }).first().click();
    await button(page).click();
    await bakery.until(route, (answer) => there(answer) === 0);
    await page.locator(".undo-bar").getByText("is in the trash.").waitFor();
    await page.getByRole("button", { name: "Undo" }).click();
    await bakery.until(route, (answer) => there(answer) === 1);
    await page.locator(".undo-bar").waitFor({ state: "detached" });
  }
  await visitor.leave();
});

test("an address that leads nowhere says what is not there, and the way back", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/bakes");
  const back = { bake: "To the bakes", "test bake": "To the test bakes", culture: "To the cultures" };
  const nowhere = [
    ...["", "/bench", "/read", "/drink", "/loaf", "/sell", "/show", "/rescue"].map((leaf) => [`#/bake/none${leaf}`, "bake"]),
    ["#/test/none", "test bake"],
    ["#/culture/none", "culture"],
  ];
  for (const [hash, what] of nowhere) {
    await page.goto(`${bakery.url}/${hash}`);
    await page.getByRole("heading", { level: 1, name: `No such ${what}`, exact: true }).waitFor();
    await page.getByText(`No ${what} is at this address`).waitFor();
    assert.equal(await page.getByRole("main").getByRole("link", { name: back[what] }).count(), 1, hash);
  }
  await keeps_the_rules(page, "no such culture");
  await page.goto(`${bakery.url}/#/guide/99`);
  await page.getByText("The guide has no page 99").waitFor();
  for (const hash of ["#/anything", "#/no/such/place"]) {
    await page.goto(`${bakery.url}/${hash}`);
    await page.getByRole("heading", { level: 1, name: "Nothing here" }).waitFor();
    await page.getByText("This address leads to no screen.").waitFor();
  }
  await page.getByRole("link", { name: "To today" }).click();
  await page.waitForFunction(() => location.hash === "#/");
  await visitor.leave();
});

test("a bake in the trash says so at its address, and is taken back there", async () => {
  const { id, title } = await bakery.bake("plain-loaf");
  await bakery.ask("DELETE", `/api/bakes/${id}`);
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByRole("heading", { level: 1, name: title, exact: true }).waitFor();
  await page.getByText("This bake is in the trash since").waitFor();
  await keeps_the_rules(page, "bake in the trash");
  await picture(page, "bake-in-trash-phone");
  await page.getByRole("button", { name: "Take it back" }).click();
  await page.getByRole("navigation", { name: "Parts of this bake" }).waitFor();
  assert.equal((await bakery.ask("GET", `/api/bakes/${id}`)).deleted_at, null);
  await visitor.leave();
});
