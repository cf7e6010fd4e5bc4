// Nothing typed is lost: on whatever screen, whether it is left, reloaded or the server is away; and what is thrown away can be had
// again.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, amount, desk, keeps_the_rules, phone, picture, settled } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const sizes = [["phone", phone], ["desk", desk]];

/** A page that will open again while the server is away. */
async function for_later(visitor, hash) {
  const page = await visitor.page(hash);
  await settled(page);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await page.reload();
  await settled(page);
  return page;
}

const drafts = (page) => page.evaluate(() => Object.keys(localStorage).filter((key) => key.startsWith("barm.draft.")));
/** The server has a record a moment before the page has heard so and lets its draft go. */
const no_drafts = (page) => page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith("barm.draft.")));

let tests = 0;
async function a_test_bake(base_id) {
  const document = { base_id, doughs: [{ name: "mead", make: [] }, { name: "plain water", make: ["plain"] }], days: ["2026-11-28"], jars: 1, jar_mm: 60, amount_g: 400, within_h: 14, seed: 7, remark: "", looks: [] };
  const made = await bakery.ask("POST", "/api/test-bakes", { title: `Is it the alcohol? ${++tests}`, question: "Alcohol or acid?", state: "live", document: JSON.stringify(document) });
  return made.id;
}

const part = (page, name) => page.getByRole("group", { name: "Parts of this test bake" }).getByRole("button", { name, exact: true }).click();
const looks = async (id) => JSON.parse((await bakery.ask("GET", `/api/test-bakes/${id}`)).document).looks;

async function write_down(page, hours, mm) {
  await page.getByRole("textbox", { name: "Hours since mixing" }).fill(String(hours));
  await page.getByRole("textbox", { name: /^place 1 / }).fill(String(mm));
  await page.getByRole("button", { name: "Write them down" }).click();
}

const seen = (page, mm) => page.getByRole("button", { name: new RegExp(`^Take out ${mm} mm of jar`) });

for (const [name, size] of sizes) {
  test(`heights written down are in the daybook at once, and what is half typed is there again (${name})`, async () => {
    const bake = await bakery.bake("mead-loaf");
    const id = await a_test_bake(bake.id);
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/test/${id}`);
    await settled(page);
    await part(page, "Read");
    await write_down(page, 2, 64);
    await seen(page, 64).waitFor();
    await page.getByRole("textbox", { name: "Hours since mixing" }).fill("4");
    await page.goto(`${bakery.url}/#/bakes`);
    await settled(page);
    await bakery.until(`/api/test-bakes/${id}`, ({ document }) => JSON.parse(document).looks.length === 1);
    await page.goto(`${bakery.url}/#/test/${id}`);
    await settled(page);
    await part(page, "Read");
    await seen(page, 64).waitFor();
    assert.equal(Number(await page.getByRole("textbox", { name: "Hours since mixing" }).inputValue()), 4);

    await seen(page, 64).click();
    await bakery.until(`/api/test-bakes/${id}`, ({ document }) => JSON.parse(document).looks.length === 0);
    await page.getByText("64 mm at 2 h is taken out.").waitFor();
    await picture(page, `undo-${name}`);
    await keeps_the_rules(page, `undo, ${name}`);
    await page.getByRole("button", { name: "Undo" }).click();
    await seen(page, 64).waitFor();
    await bakery.until(`/api/test-bakes/${id}`, ({ document }) => JSON.parse(document).looks.length === 1);
    await visitor.leave();
  });
}

test("an hour is never made up, and what is typed for the next look stays while the last is written down", async () => {
  const bake = await bakery.bake("mead-loaf");
  const id = await a_test_bake(bake.id);
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${id}`);
  await part(page, "Read");
  await page.getByRole("textbox", { name: /^place 1 / }).fill("61");
  await page.getByRole("button", { name: "Write them down" }).click();
  await page.getByText("The hours are not known: type them, or press Mixed just now.").waitFor();
  await page.getByRole("textbox", { name: "Hours since mixing" }).fill("1");
  // Nothing is awaited between the press and the next hour.
  await page.evaluate(() => {
    document.querySelector("form button.main").click();
    const hours = [...document.querySelectorAll("label")].find((l) => l.textContent.startsWith("Hours since mixing")).control;
    hours.value = "3";
    hours.dispatchEvent(new Event("input", { bubbles: true }));
    hours.dispatchEvent(new Event("change", { bubbles: true }));
  });
  await seen(page, 61).waitFor();
  await bakery.until(`/api/test-bakes/${id}`, ({ document }) => JSON.parse(document).looks.length === 1);
  assert.deepEqual((await looks(id)).map((l) => [l.hours, l.height_mm]), [[1, 61]]);
  assert.equal(await page.getByRole("textbox", { name: "Hours since mixing" }).inputValue(), "3");
  await visitor.leave();
});

test("heights of one test bake from two devices, one of them with the server away, are all there in the end", async () => {
  const bake = await bakery.bake("mead-loaf");
  const id = await a_test_bake(bake.id);
  const [one, other] = [await bakery.visit({ keeps: true }), await bakery.visit()];
  const [a, b] = [await for_later(one, `#/test/${id}`), await other.page(`#/test/${id}`)];
  await settled(b);
  for (const page of [a, b]) {
    await part(page, "Read");
    await page.getByRole("textbox", { name: /^place 1 / }).waitFor();
  }
  const port = await bakery.stop();
  await write_down(a, 2, 64);
  await a.getByText("1 reading is kept here and sent when it is back").waitFor();
  await a.reload();
  await settled(a);
  // The jars stand there while nobody answers.
  await part(a, "Read");
  await seen(a, 64).waitFor();
  await bakery.start(port);
  await write_down(b, 4, 88);
  await seen(b, 88).waitFor();
  await write_down(b, 6, 122);
  await bakery.until(`/api/test-bakes/${id}`, ({ document }) => JSON.parse(document).looks.length === 3);
  assert.deepEqual((await looks(id)).map((l) => [l.hours, l.height_mm]).sort(([x], [y]) => x - y), [[2, 64], [4, 88], [6, 122]]);
  await one.leave();
  await other.leave();
});

test("what is changed of a test bake is there again after the screen is left, beside what another device changed", async () => {
  const bake = await bakery.bake("mead-loaf");
  const id = await a_test_bake(bake.id);
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/test/${id}`);
  await settled(page);
  await page.getByRole("textbox", { name: "The question" }).fill("Is it the sulphite?");
  await page.getByRole("textbox", { name: "Time allowed (h)" }).fill("18");
  await page.goto(`${bakery.url}/#/today`);
  await page.goto(`${bakery.url}/#/test/${id}`);
  await settled(page);
  assert.equal(await page.getByRole("textbox", { name: "The question" }).inputValue(), "Is it the sulphite?");

  const theirs = await bakery.ask("GET", `/api/test-bakes/${id}`);
  await bakery.ask("PUT", `/api/test-bakes/${id}`, { revision: theirs.revision, title: "Named elsewhere", document: JSON.stringify({ ...JSON.parse(theirs.document), amount_g: 450 }) });
  await page.getByRole("heading", { level: 1, name: "Named elsewhere" }).waitFor();
  await page.getByRole("button", { name: "Save", exact: true }).click();
  const now = await bakery.until(`/api/test-bakes/${id}`, ({ question }) => question === "Is it the sulphite?");
  assert.deepEqual([now.title, JSON.parse(now.document).within_h, JSON.parse(now.document).amount_g], ["Named elsewhere", 18, 450]);
  await no_drafts(page);
  await visitor.leave();
});

test("where two devices change the same field, both are shown and the baker decides", async () => {
  const { id, revision } = await bakery.ask("POST", "/api/bottles", { title: "Dyke stout", ingredient: "stout", size_mL: 750, remark: "" });
  const visitor = await bakery.visit();
  const page = await visitor.page("#/larder");
  await page.locator("summary", { hasText: "Dyke stout" }).click();
  const sheet = page.locator(".sheet", { hasText: "Dyke stout" });
  await sheet.getByRole("textbox", { name: "Remarks" }).fill("flat by Monday");
  await bakery.ask("PUT", `/api/bottles/${id}`, { revision, remark: "still lively" });
  await sheet.getByText("yours “flat by Monday”, theirs “still lively”").waitFor();
  await sheet.getByRole("button", { name: "Mine holds" }).click();
  await bakery.until(`/api/bottles/${id}`, ({ remark }) => remark === "flat by Monday");
  await visitor.leave();
});

test("a reading taken and reloaded while the server is away is counted and reckoned with as soon as it is back", async () => {
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
  await page.getByRole("button", { name: /^Begin with it: Cold coffee loaf/ }).click();
  await page.getByRole("button", { name: "Give it up" }).click();
  await page.getByText("Cold coffee loaf is given up.").waitFor();
  await page.getByRole("region", { name: "Not saved yet" }).waitFor({ state: "detached" });
  await no_drafts(page);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByRole("region", { name: "Not saved yet" }).getByRole("link", { name: "Cold coffee loaf" }).waitFor();
  assert.equal((await bakery.ask("GET", "/api/bakes")).total, before);
  await visitor.leave();
});

test("what is typed into any form is there again after the screen is left and reloaded", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 2, state: "live" });
  await bakery.read(id, 2, 40);
  const culture = await bakery.ask("POST", "/api/cultures", { title: "Marsh mother", starter: "stiff ripe levain", feed: "1:2:1", flour: "white bread flour", temperature_C: 26 });
  await bakery.ask("POST", "/api/loaves", { bake: id, baked_at: "2026-11-01T08:00:00Z" });
  const box = (name) => (page) => page.getByRole("textbox", { name, exact: true });
  const forms = [
    ["#/larder", "A bottle more", [[box("Name of the bottle"), "Sea porter"]]],
    ["#/cultures", "A culture more", [[box("Name"), "Polder"]]],
    ["#/tests", "A new question", [[box("Name"), "Why so late?"], [box("The question, in your words"), "the salt?"]]],
    [`#/bake/${id}/read`, "Another time, warmth, pH", [[box("Height now (mm)"), "47"], [box("pH"), "5.1"], [box("Remark"), "a skin on it"]]],
    [`#/bake/${id}/rescue`, undefined, [[(page) => page.getByRole("textbox", { name: /Places there are/ }), "28; 4"]]],
    [`#/culture/${culture.id}`, "This culture", [[box("Ripe : flour : water"), "1:3:2"], [box("Remarks"), "smells of pears"]]],
    [`#/bake/${id}/loaf`, undefined, [[box("The crumb"), "tight below"], [(page) => page.getByRole("textbox", { name: /A score of your own/ }), "salt"]]],
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

test("settings changed one upon the other all hold, here and in the daybook", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/settings");
  await settled(page);
  const rounds = [["F", "oz", "12", ","], ["C", "g", "24", "."], ["F", "oz", "24", ","], ["C", "g", "24", "."]];
  for (const chosen of rounds) {
    await page.evaluate((values) => {
      const labels = ["Warmth", "Weight", "Clock", "Decimal sign"];
      for (const [i, value] of values.entries()) {
        const label = [...document.querySelectorAll("label")].find((l) => l.textContent === labels[i]);
        const select = document.getElementById(label.htmlFor);
        select.value = value;
        select.dispatchEvent(new Event("change", { bubbles: true }));
      }
    }, chosen);
    await new Promise((done) => setTimeout(done, 150));
    const [warmth, weight, clock, decimal] = chosen;
    const kept = (record) => JSON.parse(record.value);
    const { value } = await bakery.until("/api/settings/habits", (r) => kept(r).warmth === warmth && kept(r).weight === weight && kept(r).clock === clock && kept(r).decimal === decimal);
    assert.deepEqual(JSON.parse(value), { warmth, weight, clock, decimal });
    for (const [label, is] of [["Warmth", warmth], ["Weight", weight], ["Clock", clock], ["Decimal sign", decimal]])
      assert.equal(await page.getByRole("combobox", { name: label }).inputValue(), is, label);
  }
  await visitor.leave();
});

test("two devices that change different settings at once both have their way", async () => {
  const [one, other] = [await bakery.visit(), await bakery.visit()];
  const [a, b] = [await one.page("#/settings"), await other.page("#/settings")];
  for (const page of [a, b]) await settled(page);
  for (const value of ["F", "C", "F", "C"]) {
    await Promise.all([
      a.getByRole("combobox", { name: "Warmth" }).selectOption(value),
      b.getByRole("combobox", { name: "Clock" }).selectOption(value === "F" ? "12" : "24"),
    ]);
    await bakery.until("/api/settings/habits", (r) => JSON.parse(r.value).warmth === value && JSON.parse(r.value).clock === (value === "F" ? "12" : "24"));
  }
  await one.leave();
  await other.leave();
});

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
