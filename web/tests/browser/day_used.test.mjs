// The plan of a day in use: a step moved by tap and by mouse, the plan kept for Today, its calendar, the paper for the wall.
// Half a minute: a plan is made anew at each move and at each thing that comes in.
import assert from "node:assert/strict";
import { writeFileSync } from "node:fs";
import { after, before, test } from "node:test";
import ICAL from "ical.js";
import { count, morning, planned_day, row_of, see_all_of, tick_only, two } from "./day_asked.mjs";
import { Bakery, desk, keeps_the_rules, phone, picture, pictures, set_when, unfolded } from "./house.mjs";

let bakery;
before(async () => {
  bakery = await Bakery.open({ demo: true });
  await bakery.bake("stout-loaf");
});
after(() => bakery?.close());

/** How long the server took for each move [ms]. */
async function time_moves(page) {
  const took = [];
  page.on("requestfinished", async (request) => {
    if (!request.url().endsWith("/api/day") || request.method() !== "POST") return;
    took.push(request.timing().responseEnd - request.timing().requestStart);
  });
  return took;
}

// One plan for both: with every move taken back it is as it was laid.
test("a step is moved by tap, what it breaks is said at once, and a move is taken back; the plan the house goes by stands on Today, and is there again when the screen is opened (phone)", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("");
  const plan = await planned_day(bakery, page, two);
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
  for (let i = 0; i < 72; i++) {
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

  const begins = await plan.getByRole("button", { name: /, move it$/ }).first().getAttribute("aria-label");
  await plan.getByRole("button", { name: "Go by this plan" }).click();
  await plan.getByText("Today shows what is next.").waitFor();
  await page.goto(`${bakery.url}/#/`);
  const next = page.getByRole("region", { name: /^By the plan/ });
  await next.waitFor();
  assert.ok((await next.locator("p").first().innerText()).endsWith(begins.replace(/, move it$/, "")), begins);
  await keeps_the_rules(page, "today by the plan");
  await picture(page, "day-on-today-phone");
  await next.getByRole("link").click();
  await page.getByRole("region", { name: /^Bread for/ }).waitFor();
  await bakery.ask("DELETE", "/api/settings/day-plan");
  await visitor.leave();
});

test("the calendar of a plan is read by a parser of others, each step at its hour with an alarm; a bar is drawn to another hour with the mouse (desk)", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("");
  const plan = await planned_day(bakery, page, two);
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
    assert.equal(event.startDate.zone.tzid, "UTC");
    const at = event.startDate.toJSDate();
    assert.ok(said[i].endsWith(` ${String(at.getHours()).padStart(2, "0")}:${String(at.getMinutes()).padStart(2, "0")}`), `${event.summary}: ${said[i]}`);
    const [alarm, ...more] = event.component.getAllSubcomponents("valarm");
    assert.equal(more.length, 0);
    assert.equal(alarm.getFirstPropertyValue("trigger").toSeconds(), -300);
    assert.equal(alarm.getFirstPropertyValue("action").toUpperCase(), "DISPLAY");
  }

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

test("a step that begins now is laid where it is, the rest anew around it, and it can be taken back (phone)", async () => {
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("");
  const plan = await planned_day(bakery, page, two, { no_night: true });
  await row_of(page, "mix", "Stout loaf").getByRole("button").click();
  await page.getByRole("button", { name: "It begins now: plan the rest again" }).click();
  await unfolded(page, "Already started");
  await plan.getByText(/mix Stout loaf \(started\)/).waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await plan.getByText("The fields have changed since this plan.").waitFor();
  await plan.getByRole("button", { name: "Plan it again" }).click();
  await unfolded(page, "After that");
  await row_of(page, "mix", "Stout loaf").waitFor();
  await visitor.leave();
});

test("what comes in makes the kept plan again: both are looked at, one is taken (phone)", async () => {
  const { id, title } = await bakery.bake("perry-loaf", { hours_ago: 4, state: "live" });
  const visitor = await bakery.visit({ size: phone });
  const page = await visitor.page("#/day");
  await tick_only(page, [], [title]);
  await set_when(page, "Bread cooled by", morning(3, 8));
  await count(page, "Nobody works from").fill("");
  await page.getByRole("button", { name: "Plan it" }).click();
  const plan = page.getByRole("region", { name: /^Bread for/ });
  await plan.getByText(/counted on 2000 fresh draws/).waitFor();
  await plan.getByRole("button", { name: "Go by this plan" }).click();
  await plan.getByText("Today shows what is next.").waitFor();
  const divides = () => row_of(page, "divide", title).locator("td").first().innerText();
  await see_all_of(page);
  const planned = await divides();

  // It rises far faster than such a dough does.
  for (const [hours_ago, mm] of [[4, 40], [2.5, 75], [1, 125]]) await bakery.read(id, hours_ago, mm);
  const again = plan.getByRole("region", { name: "Planned again, by what came in since" });
  const told = again.getByText(new RegExp(`^Moved: divide of the ${title} from .* to .*`));
  await told.waitFor();
  await see_all_of(page);
  const moved = await divides();
  assert.notEqual(moved, planned);
  const [, from, to] = /from (.*) to (.*)\./.exec(await told.innerText());
  assert.deepEqual([planned, moved].map(hour_of), [from, to].map(hour_of));
  await keeps_the_rules(page, "day planned again");
  await picture(page, "day-planned-again-phone");
  await again.getByRole("button", { name: "Plan before", exact: true }).click();
  await see_all_of(page);
  assert.equal(await divides(), planned);

  // Who stays with it hears of it no more, here and on Today, until something else comes in.
  await again.getByRole("button", { name: "Stay with the plan before" }).click();
  await again.waitFor({ state: "detached" });
  await page.reload();
  await plan.waitFor();
  await see_all_of(page);
  assert.equal(await divides(), planned);
  assert.equal(await again.count(), 0);
  assert.deepEqual((await bakery.ask("GET", "/api/today")).day.anew, []);
  await bakery.read(id, 0.1, 135);
  await page.goto(`${bakery.url}/#/`);
  const on_today = page.getByRole("region", { name: /^By the plan/ });
  await on_today.getByText(`Moved: divide of the ${title}`).waitFor();
  await on_today.getByRole("link", { name: "Look at both plans" }).click();
  await told.waitFor();
  await see_all_of(page);
  const newest = await divides();
  await again.getByRole("button", { name: "Take the new plan" }).click();
  await again.waitFor({ state: "detached" });
  const { day } = await bakery.ask("GET", "/api/today");
  assert.deepEqual(day.anew, []);
  await page.reload();
  await plan.waitFor();
  await see_all_of(page);
  assert.equal(await divides(), newest);
  await bakery.ask("DELETE", "/api/settings/day-plan");
  await visitor.leave();
});

/** "16:45" of "Sat 16:45". */
const hour_of = (words) => words.trim().slice(-5);

test("the wall paper is A4 and nothing of it is cut off", async () => {
  const visitor = await bakery.visit({ size: desk });
  const page = await visitor.page("");
  await planned_day(bakery, page, ["Stout loaf", "Mead loaf, half and half", "Cold coffee loaf", "Plain marsh loaf"]);
  const pdf = await page.pdf({ format: "A4", margin: { top: "12mm", bottom: "12mm", left: "12mm", right: "12mm" } });
  if (pictures !== undefined) writeFileSync(`${pictures}/day-wall.pdf`, pdf);
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
