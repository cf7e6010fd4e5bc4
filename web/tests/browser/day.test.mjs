// The day of several bakes: planned on the page, read as a sentence, a list and a picture; told why there is no plan.
// Half a minute: a dozen days are planned, each with the forecasts of its doughs.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { count, morning, see_all_of, tick_only } from "./day_asked.mjs";
import { Bakery, keeps_its_colours, keeps_the_rules, phone, picture, set_when, settled, sizes, unfolded } from "./house.mjs";

let bakery;
before(async () => {
  bakery = await Bakery.open({ demo: true });
  for (const key of ["mead-loaf", "stout-loaf"]) await bakery.bake(key);
});
after(() => bakery?.close());

const titles = async () => (await bakery.ask("GET", "/api/bakes?limit=200")).bakes.filter((bake) => bake.state === "planned").map((bake) => bake.title);

for (const [name, size] of sizes) {
  test(`two planned bakes become a day (${name})`, async () => {
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("");
    await settled(page);
    await page.getByRole("link", { name: "Plan the day" }).last().click();
    const planned = (await titles()).filter((title) => /mead|stout/i.test(title)).slice(-2);
    assert.equal(planned.length, 2);
    await tick_only(page, planned);
    assert.equal(await page.locator(".day-bake").getByRole("checkbox", { checked: true }).count(), 2);
    await set_when(page, "Bread cooled by", morning(3, 8));
    await keeps_the_rules(page, `day asked ${name}`);
    await picture(page, `day-asked-${name}`);
    // However quick the planner is, its work can be stopped while it is not known to have ended.
    await page.route("**/api/jobs/*", async (route) => {
      await new Promise((later) => setTimeout(later, 1000));
      await route.continue();
    });
    await page.getByRole("button", { name: "Plan it" }).click();
    await page.getByRole("button", { name: "Stop" }).waitFor();
    const plan = page.getByRole("region", { name: /^Bread for/ });
    await plan.waitFor();
    await see_all_of(page);

    const [, share, low, high] = /(\d+) of 100 times \((\d+) to (\d+), counted on 2000 fresh draws\)/.exec(await plan.innerText()).map(Number);
    assert.ok(low <= share && share <= high && high <= 100, `${share} (${low} to ${high})`);

    const lines = page.getByRole("region", { name: "By the clock" }).getByRole("table").getByRole("row");
    const said = await lines.allInnerTexts();
    for (const title of planned) assert.ok(said.some((line) => line.includes(title)), `${title} in ${said.join("\n")}`);
    for (const step of [/\bmix /, /\bload /]) assert.equal(said.filter((line) => step.test(line)).length, 2, said.join("\n"));

    const drawn = page.getByRole("img", { name: /hands 1: taken \d+ times.*hands 2/ });
    await drawn.waitFor();
    // Every step that takes a pair of hands is a bar at least; what is taken is within the picture.
    const bars = await drawn.locator("rect.bar").evaluateAll((all) => all.map((bar) => bar.getBoundingClientRect()).map(({ left, right }) => ({ left, right })));
    assert.ok(bars.length >= said.filter((line) => line.includes("hands")).length, `${bars.length} bars`);
    const box = await drawn.boundingBox();
    assert.ok(bars.every(({ left, right }) => left >= box.x - 1 && right <= box.x + box.width + 4), JSON.stringify({ bars, box }));
    assert.equal(await page.locator(".day-key li").count(), 2);

    for (const [theme, holds] of [["light", keeps_the_rules], ["dark", keeps_its_colours]]) {
      await page.emulateMedia({ colorScheme: theme });
      await holds(page, `day ${name} ${theme}`);
      await picture(page, `day-${name}-${theme}`);
    }
    await unfolded(page, "The house");
    await count(page, "Mixers").fill("2");
    await page.getByText("The fields have changed since this plan").waitFor();
    await count(page, "Mixers").fill("1");
    await page.emulateMedia({ media: "print", colorScheme: "light" });
    assert.equal(await page.getByRole("button", { name: "Plan it" }).isVisible(), false);
    await drawn.waitFor();
    await picture(page, `day-${name}-paper`);
    await visitor.leave();
  });
}

test("a dough under way is laid into the day with what is done, and a reading of it is told (phone)", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  const { bakes } = await bakery.ask("GET", "/api/bakes?state=live&limit=50");
  const dough = bakes.find((one) => one.title === "Stout loaf") ?? bakes[0];
  await tick_only(page, [], [dough.title]);
  await set_when(page, "Bread cooled by", morning(2, 8));
  await page.getByRole("button", { name: "Plan it" }).click();
  const plan = page.getByRole("region", { name: /^Bread for/ });
  await plan.getByText(/counted on 2000 fresh draws|There is no plan/).first().waitFor();
  await see_all_of(page);
  const said = await plan.innerText();
  assert.match(said, /mix Stout loaf \(started\)/, said);
  await picture(page, "day-under-way-phone");
  await bakery.ask("POST", "/api/readings", { bake: dough.id, at: new Date(Date.now() - 60_000).toISOString().slice(0, 19) + "Z", height_mm: 100, remark: "a dome" });
  await plan.getByText(/^Looked at again by what was read|^Planned again, by what came in|cannot be held|^A dough was read/).first().waitFor();
  await visitor.leave();
});

test("an impossible day is told why", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  await tick_only(page, (await titles()).filter((title) => /mead/i.test(title)).slice(0, 1));
  const five_min = 300_000;
  await set_when(page, "Bread cooled by", new Date(Math.ceil((Date.now() + 24 * five_min) / five_min) * five_min));
  await page.getByRole("button", { name: "Plan it" }).click();
  await page.getByText("There is no plan.").waitFor();
  const why = page.getByRole("group", { name: "Why not" }).getByRole("listitem");
  assert.ok((await why.count()) >= 1);
  await keeps_the_rules(page, "day impossible");
  await picture(page, "day-impossible-phone");
  await visitor.leave();
});

test("a full house says where its bakes would meet (phone)", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  await tick_only(page, ["Stout loaf", "Mead loaf, half and half", "Cold coffee loaf", "Plain marsh loaf"]);
  assert.equal(await page.locator(".day-bake").getByRole("checkbox", { checked: true }).count(), 4);
  for (const [label, n] of [["Pairs of hands", 1], ["Decks of the oven", 1], ["Doughs on the bench at once", 1]]) await count(page, label).fill(String(n));
  await set_when(page, "Bread cooled by", morning(2, 8));
  await page.getByRole("button", { name: "Plan it" }).click();
  const plan = page.getByRole("region", { name: /^Bread for/ });
  await plan.waitFor();
  const tight = (await unfolded(page, /Where bakes would meet|Why not/)).getByRole("listitem");
  assert.ok((await tight.count()) >= 1, await plan.innerText());
  await keeps_the_rules(page, "day full");
  await picture(page, "day-full-phone");
  await visitor.leave();
});

test("a typed number survives a reload, and a wrong one is told", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  await unfolded(page, "The house");
  await count(page, "Pairs of hands").fill("3");
  await page.reload();
  await unfolded(page, "The house");
  assert.equal(await count(page, "Pairs of hands").inputValue(), "3");
  await count(page, "Pairs of hands").fill("0");
  await page.getByText("A whole number from 1 to 500.").waitFor();
  await set_when(page, "Bread cooled by", morning(-1, 8));
  await page.getByText("No time is left until then: choose a later hour.").waitFor();
  assert.ok(await page.getByRole("button", { name: "Plan it" }).isDisabled());
  await visitor.leave();
});

test("a day is asked for the daybook's bakes alone: no file is opened, and what is wrong is told with its line", async () => {
  const day = `name = "S"\nbegins = 2026-11-27T05:00:00\nbread = 2026-11-28T08:00:00\n[house]\n[[bake]]\nfile = "/etc/passwd"\n`;
  const answer = await fetch(`${bakery.url}/api/day`, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ day }) });
  const problem = await answer.json();
  assert.equal(problem.field, "/day");
  assert.equal(problem.line, 6);
  assert.match(problem.detail, /"\/etc\/passwd".*daybook/);
});

test("the fields make room each time a plan is asked for, and never under the hand (phone)", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  const is_open = (title) => page.locator("details.fold", { has: page.getByRole("heading", { name: title, exact: true }) }).evaluate((one) => one.open);
  const fields = async () => Promise.all(["Which bakes", "When", "The house"].map(is_open));
  await tick_only(page, (await titles()).slice(-1));
  await set_when(page, "Bread cooled by", morning(3, 8));
  await page.route("**/api/jobs/*", async (route) => {
    await new Promise((later) => setTimeout(later, 1000));
    await route.continue();
  });
  const plan = page.getByRole("region", { name: /^Bread for/ });
  for (const mixers of ["2", "3"]) {
    await unfolded(page, "The house");
    await count(page, "Mixers").fill(mixers);
    await page.getByRole("button", { name: "Plan it", exact: true }).click();
    await page.getByRole("button", { name: "Stop" }).waitFor();
    assert.deepEqual(await fields(), [false, false, false], "folded as soon as it is asked for");
    // What is opened while it is planned stays open, and what is half typed in it stays.
    await unfolded(page, "The house");
    await count(page, "Mixers").fill(`${mixers}x`);
    await page.getByRole("button", { name: "Stop" }).waitFor({ state: "detached" });
    await plan.waitFor();
    assert.deepEqual(await fields(), [false, false, true]);
    assert.equal(await count(page, "Mixers").inputValue(), `${mixers}x`);
  }
  await visitor.leave();
});
