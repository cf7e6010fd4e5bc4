// What is typed of a test bake and of its jars is lost neither by a screen left nor by a server that is away.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, for_later, keeps_the_rules, no_drafts, picture, settled, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

let tests = 0;
async function a_test_bake(base_id) {
  const document = { base_id, doughs: [{ name: "mead", make: [] }, { name: "plain water", make: ["plain"] }], days: ["2026-11-28"], jars: 1, jar_mm: 60, amount_g: 400, within_h: 14, seed: 7, remark: "", looks: [] };
  const made = await bakery.ask("POST", "/api/test-bakes", { title: `Is it the alcohol? ${++tests}`, question: "Alcohol or acid?", state: "live", document: JSON.stringify(document) });
  return made.id;
}

async function part(page, name) {
  await page.getByRole("group", { name: "Parts of this test bake" }).getByRole("button", { name, exact: true }).click();
  await unfolded(page, "Seen so far");
}
const looks = async (id) => JSON.parse((await bakery.ask("GET", `/api/test-bakes/${id}`)).document).looks;

async function write_down(page, hours, mm) {
  await page.getByRole("textbox", { name: "Hours since mixing" }).fill(String(hours));
  await page.getByRole("textbox", { name: /place 1\)/ }).fill(String(mm));
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
  await page.getByRole("textbox", { name: /place 1\)/ }).fill("61");
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
    await page.getByRole("textbox", { name: /place 1\)/ }).waitFor();
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
