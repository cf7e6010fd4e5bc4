// One dough, one answer: the recipe, the reading and today say the same, and move together.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import ICAL from "ical.js";
import { Bakery, local, settled, unfolded } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const minutes_of = (hour) => 60 * Number(hour.slice(0, 2)) + Number(hour.slice(3));

const head = async (page) => {
  const shown = page.getByTestId("head");
  await shown.waitFor();
  return (await shown.innerText()).replace(/\s+/g, " ").trim();
};

/** The head of a screen once it says something else than before. */
async function head_after(page, was) {
  await page.waitForFunction((text) => {
    const shown = document.querySelector("[data-testid=head]");
    return shown !== null && shown.textContent.replace(/\s+/g, " ").trim() !== text;
  }, was);
  return head(page);
}

test("a dough that was read says the same on its recipe as where it is read", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 5, state: "live" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  const unread = await head(page);
  await bakery.ask("POST", "/api/marks", { bake: id, what: "weigh", of: "salt", poured_g: 15, at: new Date(Date.now() - 4 * 3_600_000).toISOString() });
  for (const [h, mm] of [[5, 40], [3, 44], [1.5, 50], [0.2, 58]]) await bakery.read(id, h, mm);
  await page.getByText("as its 4 readings have it").waitFor();
  const recipe = await head(page);
  assert.notEqual(recipe, unread);
  // What slows it makes that hour too.
  const read = await bakery.ask("POST", "/api/read", { bake_id: id });
  const { bare_h, as_it_is_h, costs } = read.in_the_way;
  assert.equal(as_it_is_h, read.after.ready.p50_h);
  assert.ok(Math.abs(costs.reduce((sum, { costs_h }) => sum + costs_h, bare_h) - as_it_is_h) < 1e-6);
  const bare_at = new Date(Date.parse(read.mixed_at) + bare_h * 3_600_000);
  const bare = (await page.getByText("With nothing in the way, ready at").innerText()).match(/\d\d:\d\d/)[0];
  const off_min = (minutes_of(bare) - minutes_of(local(bare_at).slice(11, 16)) + 1440) % 1440;
  assert.ok(Math.min(off_min, 1440 - off_min) <= 8, `${bare} for ${local(bare_at)}`);
  const ready = await page.getByTestId("ready").first().innerText();
  for (const tab of ["read", "drink", "bench"]) {
    await page.goto(`${bakery.url}/#/bake/${id}/${tab}`);
    await settled(page);
    assert.equal(await head(page), recipe, tab);
  }
  // The sheet and the picture have no room for the ruler: the words are the same.
  const line = await page.getByTestId("ready-said").locator("p").last().innerText();
  assert.ok(line.startsWith(`Ready ${ready} most likely · `), `${line} for ${ready}`);
  assert.match(line, / · likely between .*\d\d:\d\d and /);
  await page.goto(`${bakery.url}/#/bake/${id}/show`);
  await page.getByRole("img", { name: new RegExp(`wide: .*${line.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}`) }).waitFor();
  const dough = (await bakery.ask("GET", "/api/today")).doughs.find((d) => d.bake === id);
  for (const time of recipe.match(/\d\d:\d\d/g)) assert.ok(dough.head.includes(time), `${dough.head} lacks ${time} of: ${recipe}`);
  await visitor.leave();
});

// What was remembered from before it was read must not be told as if it were so, not even for a moment.
test("a recipe opened after its dough was read elsewhere never shows the head of the unread dough", async () => {
  const { id } = await bakery.bake("plain-loaf", { hours_ago: 5, state: "live" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  const unread = await head(page);
  await page.goto(`${bakery.url}/#/bakes`);
  await settled(page);
  for (const [h, mm] of [[5, 40], [3, 44], [1.5, 50], [0.2, 58]]) await bakery.read(id, h, mm);
  await page.route("**/api/readings?*", async (route) => {
    await new Promise((later) => setTimeout(later, 400));
    await route.continue();
  });
  await page.evaluate(() => {
    window.heads = [];
    const see = () => {
      const shown = document.querySelector("[data-testid=head]");
      if (shown !== null) window.heads.push(shown.textContent.replace(/\s+/g, " ").trim());
    };
    new MutationObserver(see).observe(document.body, { childList: true, subtree: true, characterData: true });
  });
  await page.goto(`${bakery.url}/#/bake/${id}`);
  await page.getByText("as its 4 readings have it").waitFor();
  const heads = await page.evaluate(() => window.heads);
  assert.ok(heads.length > 0);
  assert.ok(!heads.includes(unread), `${unread} among ${heads.join(" | ")}`);
  await visitor.leave();
});

test("an hour of mixing that was typed stays as it was typed, on today and on the recipe", async () => {
  const soon = new Date(Date.now() + 5 * 3_600_000);
  soon.setMinutes(soon.getMinutes() < 30 ? 11 : 41, 0, 0);
  const { id, title } = await bakery.bake("plain-loaf", { hours_ago: (Date.now() - soon.getTime()) / 3_600_000 });
  const typed = local(soon).slice(11, 16);
  const visitor = await bakery.visit();
  const page = await visitor.page("");
  const row = page.getByRole("listitem").filter({ has: page.getByRole("link", { name: title, exact: true }) }).first();
  await row.waitFor();
  const dough = (await bakery.ask("GET", "/api/today")).doughs.find((d) => d.bake === id);
  assert.ok(dough.head.includes(`mix `) && dough.head.includes(typed), dough.head);
  const recipe = await visitor.page(`#/bake/${id}`);
  assert.ok((await head(recipe)).includes(typed), await head(recipe));
  await visitor.leave();
});

test("a fold ticked off is done on the recipe too, and mixing need not be ticked", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 1.1, state: "live" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  const before_it = await head(page);
  assert.match(before_it, /^fold now · into the oven about /);
  await page.goto(`${bakery.url}/#/bake/${id}/read`);
  assert.ok(await page.getByRole("checkbox", { name: /^mix/ }).isChecked());
  await page.getByRole("checkbox", { name: /^fold/ }).click();
  const next = await head_after(page, before_it);
  await page.goto(`${bakery.url}/#/bake/${id}`);
  assert.equal(await head_after(page, before_it), next);
  await visitor.leave();
});

// ical.js reads the file as a telephone does.
test("the calendar of a dough that was read names the moments of its head, whatever zone asks for it", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 5, state: "live" });
  for (const [h, mm] of [[4.9, 50], [3, 53], [1.5, 57], [0.2, 64]]) await bakery.read(id, h, mm);
  const { to_do } = await bakery.ask("POST", "/api/read", { bake_id: id });
  const oven = to_do.find((one) => one.act === "into_the_oven");
  const { mixed_at } = await bakery.ask("GET", `/api/bakes/${id}`);
  const wanted_ms = Date.parse(mixed_at) + 3_600_000 * oven.p50_h;
  for (const zone of ["Europe/Berlin", "Pacific/Auckland"]) {
    const answer = await fetch(`${bakery.url}/api/bakes/${id}/calendar.ics?zone=${encodeURIComponent(zone)}`);
    const events = new ICAL.Component(ICAL.parse(await answer.text())).getAllSubcomponents("vevent").map((one) => new ICAL.Event(one));
    const event = events.find((one) => one.summary.startsWith("Into the oven"));
    assert.ok(Math.abs(event.startDate.toJSDate().getTime() - wanted_ms) <= 30_000, `${zone}: ${event.startDate}`);
  }
  await bakery.ask("DELETE", `/api/bakes/${id}`);
});

test("a finished bake foretells nothing of itself", async () => {
  const { id } = await bakery.bake("mead-loaf", { hours_ago: 30, state: "finished" });
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await page.getByText("This bake is finished. Baked again, it would go like this:").waitFor();
  assert.equal(await page.getByTestId("head").count(), 0);
  await visitor.leave();
});

test("bread for an hour of the oven is worked back to the mixing", async () => {
  const { id } = await bakery.bake("plain-loaf");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#/bake/${id}`);
  await unfolded(page, "When to mix");
  await page.getByRole("button", { name: "Find the hour" }).click();
  const when = page.getByTestId("when");
  await when.getByText(/^mix .*\d\d:\d\d/).last().waitFor();
  await visitor.leave();
});
