// A dough that is late: the ways out, best first, by what was read of it or by what is typed.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, keeps_its_colours, keeps_the_rules, picture, sizes, unfolded } from "./house.mjs";

let bakery;
let read;
before(async () => {
  bakery = await Bakery.open();
  read = await bakery.bake("stout-loaf", { hours_ago: 9, state: "live" });
  for (const [h, mm] of [[9, 50], [6, 51], [3, 54], [0.1, 58]]) await bakery.read(read.id, h, mm);
});
after(() => bakery?.close());

const chance = (words) => {
  if (/^(all|nearly all)/i.test(words)) return 1;
  const [, part, whole] = /(\d+) (?:of|in) (\d+)/.exec(words) ?? [];
  return part === undefined ? 0 : Number(part) / Number(whole);
};

for (const [name, size] of sizes) {
  test(`the ways are ranked, and the readings count (${name})`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${read.id}/rescue`);
    const otherwise = await unfolded(page, "Other hours, other places");
    await otherwise.getByText("from the last reading").waitFor();
    await page.getByRole("heading", { name: "The ways out, best first" }).waitFor();
    await page.getByText(/doughs that agree with what was read/).waitFor();
    const ways = page.locator("ol.ways > li");
    assert.ok((await ways.count()) >= 5);
    assert.equal(await page.getByText("our advice").count(), 1);
    assert.match(await ways.last().innerText(), /flatbread/);
    for (const [theme, holds] of [["light", keeps_the_rules], ["dark", keeps_its_colours]]) {
      await page.emulateMedia({ colorScheme: theme });
      await holds(page, `rescue ${name} ${theme}`);
      await picture(page, `rescue-ways-${name}-${theme}`);
    }
    const chances = [];
    for (const way of await ways.all()) chances.push(chance(await way.locator("strong.figure").innerText()));
    // Those that are good enough come before those that are not; the others fall.
    assert.ok(chances.some((p) => p > 0), String(chances));
    const short = chances.slice(0, -1).filter((p) => p < 0.8);
    assert.deepEqual(short, [...short].sort((a, b) => b - a));
    assert.ok(chances.slice(0, -1 - short.length).every((p) => p >= 0.8), String(chances));

    await page.getByRole("textbox", { name: /It stands now at/ }).fill("1.6");
    await page.getByRole("button", { name: "Ask again" }).click();
    await page.getByText(/doughs that agree with what was seen, 1.6 times its volume now/).waitFor();
    await visitor.leave();
  });
}

test("a late dough has the way to its rescue in the head of each of its screens", async () => {
  // It has risen, its fold was forgotten, and nobody has divided it.
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 14, state: "live" });
  for (const [h, mm] of [[14, 40], [10, 52], [7, 84], [5, 110]]) await bakery.read(id, h, mm);
  const { doughs } = await bakery.ask("GET", "/api/today");
  const late = doughs.find((d) => d.bake === id);
  assert.ok(late.late, late.head);
  const visitor = await bakery.visit();
  for (const tab of ["", "/bench", "/drink"]) {
    const page = await visitor.page(`#/bake/${id}${tab}`);
    await page.getByRole("link", { name: "Late or stuck: what can be done?" }).waitFor();
    // No hour that has passed is said as one to come; the server says the same.
    const head = (await page.getByTestId("head").innerText()).replace(/\s+/g, " ");
    assert.match(head, /^divide[^:]*: overdue since (\w{3} )?\d\d:\d\d · into the oven about .* after that$/);
    assert.equal(late.head, head);
    await page.close();
  }
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByRole("link", { name: "Late or stuck: what can be done?" }).click();
  await page.getByRole("heading", { name: "The ways out, best first" }).waitFor();
  await visitor.leave();
});

test("a late dough says so with its own answer, before the doughs of the house are asked for", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 40, state: "live" });
  const visitor = await bakery.visit();
  for (const tab of ["", "/read", "/drink"]) {
    const page = await visitor.page("");
    await page.route("**/api/today", () => undefined);
    await page.goto(`${bakery.url}/#/bake/${id}${tab}`);
    await page.reload();
    await page.getByRole("link", { name: "Late or stuck: what can be done?" }).waitFor({ timeout: 20_000 });
    await page.close();
  }
  await visitor.leave();
});
