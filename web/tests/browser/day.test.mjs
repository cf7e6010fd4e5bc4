// The day of several bakes: planned on the page, read as a sentence, a list and a picture; told why there is no plan.
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { after, before, test } from "node:test";
import ICAL from "ical.js";
import { Bakery, desk, keeps_the_rules, phone, picture, pictures, set_when, settled } from "./house.mjs";

let bakery;
before(async () => {
  bakery = await Bakery.open({ demo: true });
  for (const key of ["mead-loaf", "stout-loaf"]) await bakery.bake(key);
});
after(() => bakery?.close());

const count = (page, label) => page.getByRole("textbox", { name: label, exact: true });

/** The morning after tomorrow: time enough for a levain, a dough and an oven. */
const morning = (days, hour) => new Date(new Date().setHours(hour, 0, 0, 0) + days * 86_400_000);

/** Only the planned bakes of these names; none that is baked already, and none under way but `live`. */
async function tick_only(page, names, live = []) {
  await page.getByRole("heading", { name: "Which bakes" }).waitFor();
  for (const box of await page.locator(".day-bake").getByRole("checkbox").all()) {
    const { title, kind } = await box.evaluate((one) => ({ title: one.closest("label").innerText.trim(), kind: one.closest("ul").dataset.kind }));
    const wanted = kind === "planned" ? names.includes(title) : kind === "live" && live.includes(title);
    if ((await box.isVisible()) && (await box.isChecked()) !== wanted) await box.click();
  }
}

const titles = async () => (await bakery.ask("GET", "/api/bakes?limit=200")).bakes.filter((bake) => bake.state === "planned").map((bake) => bake.title);

for (const [name, size] of [["phone", phone], ["desk", desk]]) {
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
    await page.getByRole("button", { name: "Plan it" }).click();
    await page.getByRole("button", { name: "Stop" }).waitFor();
    const plan = page.getByRole("region", { name: /^Bread for/ });
    await plan.waitFor();

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

    for (const theme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme: theme });
      await keeps_the_rules(page, `day ${name} ${theme}`);
      await picture(page, `day-${name}-${theme}`);
    }
    await count(page, "Mixers").fill("2");
    await page.getByText("The fields say something else by now").waitFor();
    await count(page, "Mixers").fill("1");
    await page.emulateMedia({ media: "print", colorScheme: "light" });
    assert.equal(await page.getByRole("button", { name: "Plan it" }).isVisible(), false);
    assert.ok(await drawn.isVisible());
    await picture(page, `day-${name}-paper`);
    await visitor.leave();
  });
}

/** The day of two breads, planned on that page; the plan's region. */
async function planned_day(page, names) {
  await page.goto(`${bakery.url}/#/day`);
  await tick_only(page, names);
  await set_when(page, "Bread cooled by", morning(3, 8));
  await page.getByRole("button", { name: "Plan it" }).click();
  const plan = page.getByRole("region", { name: /^Bread for/ });
  await plan.getByText(/counted on 2000 fresh draws/).waitFor();
  return plan;
}

const two = ["Stout loaf", "Plain marsh loaf"];

/** How long the server took for each move [ms]. */
async function time_moves(page) {
  const took = [];
  page.on("requestfinished", async (request) => {
    if (!request.url().endsWith("/api/day") || request.method() !== "POST") return;
    took.push(request.timing().responseEnd - request.timing().requestStart);
  });
  return took;
}

const row_of = (page, step, bake) => page.getByRole("row").filter({ has: page.getByRole("button", { name: `${step}: ${bake}, move it` }) });

test("a step is moved by tap, what it breaks is said at once, and a move is taken back (phone)", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("");
  const plan = await planned_day(page, two);
  const took = await time_moves(page);
  const before = await plan.getByRole("table").first().innerText();
  const mix = row_of(page, "mix", "Stout loaf");
  const first = await mix.locator("td").first().innerText();
  await mix.getByRole("button").click();
  const sheet = page.getByRole("dialog", { name: "mix: Stout loaf" });
  await sheet.waitFor();
  await keeps_the_rules(page, "day move phone");
  await picture(page, "day-move-phone");
  let moved;
  for (const words of ["5 min later", "5 min earlier", "5 min earlier"]) {
    await sheet.getByRole("button", { name: words, exact: true }).click();
    const told = sheet.getByRole("status");
    await told.getByText(/^Moved: mix of the Stout loaf|cannot be moved/).first().waitFor();
    await sheet.getByRole("button", { name: words, exact: true }).isEnabled();
    moved = /Moved: mix/.test(await told.innerText());
    if (moved) break;
  }
  assert.ok(moved, "five minutes either way can be had");
  // Days away from its dough it cannot be.
  for (let i = 0; i < 12; i++) {
    await sheet.getByRole("button", { name: "1 h later" }).click();
    await page.waitForTimeout(50);
    await page.waitForFunction(() => !document.querySelector("dialog .day-taps button").disabled);
    if (/cannot be moved/.test(await sheet.getByRole("status").innerText())) break;
  }
  await sheet.getByText(/^It would break: /).first().waitFor();
  await picture(page, "day-move-refused-phone");
  await sheet.getByRole("button", { name: "Close" }).click();
  assert.notEqual(await mix.locator("td").first().innerText(), first);
  // The middle one: other tests run beside this one.
  assert.ok(took.length >= 2 && [...took].sort((a, b) => a - b)[took.length >> 1] < 200, `moves answered in ${took.map(Math.round)} ms`);
  console.log(`moves answered in ${took.map(Math.round)} ms`);
  const back = page.getByRole("button", { name: "Take the last move back" });
  while (await back.isVisible()) await back.click();
  assert.equal(await plan.getByRole("table").first().innerText(), before);
  await visitor.leave();
});

test("a bar is drawn to another hour with the mouse (desk)", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("");
  await planned_day(page, two);
  const bar = page.locator('.day-picture rect[data-step="mix"][data-bake="Stout loaf"]').first();
  const first = await row_of(page, "mix", "Stout loaf").locator("td").first().innerText();
  await bar.scrollIntoViewIfNeeded();
  const box = await bar.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  for (const by of [12, -24]) {
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + by / 2, y);
    await page.mouse.move(x + by, y);
    await page.getByText("mix: Stout loaf to ").waitFor();
    await page.mouse.up();
    await page.getByText(/^Moved: mix of the Stout loaf|cannot be moved there/).first().waitFor();
    if ((await page.getByText(/^Moved: mix of the Stout loaf/).count()) > 0) break;
  }
  await picture(page, "day-moved-desk");
  assert.notEqual(await row_of(page, "mix", "Stout loaf").locator("td").first().innerText(), first);
  await visitor.leave();
});

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
  const said = await plan.innerText();
  assert.match(said, /mix Stout loaf \(begun\)/, said);
  await picture(page, "day-under-way-phone");
  await bakery.ask("POST", "/api/readings", { bake: dough.id, at: new Date(Date.now() - 60_000).toISOString().slice(0, 19) + "Z", remark: "a dome" });
  await plan.getByText("A dough was read or something was ticked off since").waitFor();
  await plan.getByRole("button", { name: "Plan it again" }).click();
  await plan.getByText("A dough was read or something was ticked off since").waitFor({ state: "hidden" });
  await visitor.leave();
});

test("the plan the house goes by stands on Today, and is there again when the screen is opened", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("");
  const plan = await planned_day(page, two);
  const first = await plan.getByRole("button", { name: /, move it$/ }).first().getAttribute("aria-label");
  await plan.getByRole("button", { name: "Go by this plan" }).click();
  await plan.getByText("Today shows what is next.").waitFor();
  await page.goto(`${bakery.url}/#/`);
  const next = page.getByRole("region", { name: /^By the plan/ });
  await next.waitFor();
  assert.ok((await next.locator("p").first().innerText()).endsWith(first.replace(/, move it$/, "")), first);
  await keeps_the_rules(page, "today by the plan");
  await picture(page, "day-on-today-phone");
  await next.getByRole("link").click();
  await page.getByRole("region", { name: /^Bread for/ }).waitFor();
  await bakery.ask("DELETE", "/api/settings/day-plan");
  await visitor.leave();
});

test("its calendar is read by a parser of others: each step, at its hour, with an alarm", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("");
  const plan = await planned_day(page, two);
  const rows = await plan.getByRole("button", { name: /, move it$/ }).evaluateAll((all) => all.map((one) => one.getAttribute("aria-label").replace(/, move it$/, "")));
  const taken = page.waitForEvent("download");
  await plan.getByRole("button", { name: "Calendar with alarms" }).click();
  const file = await (await taken).createReadStream();
  const text = (await file.toArray()).map(String).join("");
  const calendar = new ICAL.Component(ICAL.parse(text));
  const events = calendar.getAllSubcomponents("vevent").map((one) => new ICAL.Event(one, { strictExceptions: true }));
  assert.deepEqual(events.map((event) => event.summary), rows);
  assert.equal(new Set(events.map((event) => event.uid)).size, events.length);
  const said = await plan.getByRole("row").filter({ has: page.getByRole("button", { name: /, move it$/ }) }).locator("td:first-child").allInnerTexts();
  for (const [i, event] of events.entries()) {
    assert.ok(event.endDate.compare(event.startDate) > 0, event.summary);
    const { hour, minute } = event.startDate;
    assert.ok(said[i].endsWith(` ${String(hour).padStart(2, "0")}:${String(minute).padStart(2, "0")}`), `${event.summary}: ${said[i]}`);
    const [alarm, ...more] = event.component.getAllSubcomponents("valarm");
    assert.equal(more.length, 0);
    assert.equal(alarm.getFirstPropertyValue("trigger").toSeconds(), -300);
    assert.equal(alarm.getFirstPropertyValue("action").toUpperCase(), "DISPLAY");
  }
  await visitor.leave();
});

test("the wall paper is A4 and nothing of it is cut off", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("");
  await planned_day(page, ["Stout loaf", "Mead loaf, half and half", "Cold coffee loaf", "Plain marsh loaf"]);
  const pdf = await page.pdf({ format: "A4", margin: { top: "12mm", bottom: "12mm", left: "12mm", right: "12mm" } });
  writeFileSync(`${pictures}/day-wall.pdf`, pdf);
  const boxes = [...pdf.toString("latin1").matchAll(/\/MediaBox \[([\d. ]+)\]/g)].map((found) => found[1].split(" ").map(Number));
  assert.ok(boxes.length >= 1);
  for (const [, , wide, high] of boxes) assert.ok(Math.abs(wide - 595) < 2 && Math.abs(high - 842) < 2, `${wide} x ${high} points`);
  // As wide as its paper between the margins, nothing stands out to the right and no words are cut.
  await page.setViewportSize({ width: Math.round(((210 - 2 * 12) / 25.4) * 96), height: 1000 });
  await page.emulateMedia({ media: "print" });
  const out = await page.locator(".day-plan *").evaluateAll((all) =>
    all.filter((one) => one.checkVisibility() && (one.getBoundingClientRect().right > innerWidth + 1 || (one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).overflowX === "hidden" && !one.closest(".unseen")))).map((one) => one.outerHTML.slice(0, 120)),
  );
  assert.deepEqual(out, []);
  const steps = page.locator(".day-list tbody tr");
  assert.ok((await steps.count()) >= 12);
  for (const line of await steps.all()) assert.ok(await line.locator("strong").isVisible(), `on paper: ${await line.innerText()}`);
  await visitor.leave();
});

test("an impossible day is told why", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  await tick_only(page, (await titles()).filter((title) => /mead/i.test(title)).slice(0, 1));
  await set_when(page, "Bread cooled by", morning(0, new Date().getHours() + 2));
  await page.getByRole("button", { name: "Plan it" }).click();
  await page.getByText("There is no plan.").waitFor();
  const why = page.getByRole("region", { name: "Why not" }).getByRole("listitem");
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
  const tight = plan.getByRole("region", { name: /Where bakes would meet|Why not/ }).getByRole("listitem");
  assert.ok((await tight.count()) >= 1, await plan.innerText());
  await keeps_the_rules(page, "day full");
  await picture(page, "day-full-phone");
  await visitor.leave();
});

test("a typed number survives a reload, and a wrong one is told", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  await count(page, "Pairs of hands").fill("3");
  await page.reload();
  await count(page, "Pairs of hands").waitFor();
  assert.equal(await count(page, "Pairs of hands").inputValue(), "3");
  await count(page, "Pairs of hands").fill("0");
  await page.getByText("A whole number from 1 to 500.").waitFor();
  await set_when(page, "Bread cooled by", morning(-1, 8));
  await page.getByText("That hour has gone by: choose a later one.").waitFor();
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
