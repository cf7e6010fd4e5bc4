// What the server says of itself is said on every screen: that it is another program, that nothing can be saved, that the daybook was
// put back from a copy. The test stands between page and server and lets it say so.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, amount, keeps_the_rules, picture, settled, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open()));
after(() => bakery?.close());

const problem = (status, code, detail, more = {}) => ({
  status,
  contentType: "application/problem+json",
  body: JSON.stringify({ type: `urn:barm:problem:${code}`, title: code, status, code, detail, ...more }),
});
/** What the server says of itself from now on, beside what it says truly. */
const says = (visitor, told) =>
  visitor.context.route("**/api/status", async (route) => {
    const response = await route.fetch().catch(() => undefined);
    if (response === undefined) return route.abort();
    return route.fulfill({ response, json: { ...(await response.json()), ...told } });
  });
const salt = (page) => amount(page, "salt");

for (const [name, size] of sizes) {
  test(`a page of another program than the server's is told to reload, and nothing typed is lost (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page(`#/bake/${id}`);
    await page.getByTestId("ready").first().waitFor();
    await (await salt(page)).fill("1.7");
    const told = page.getByText("The program was updated since this page was opened.");
    assert.equal(await told.count(), 0);
    await says(visitor, { version: "99.0.0" });
    const port = await bakery.stop();
    await (await salt(page)).fill("1.8");
    await page.getByText("The server is away").waitFor();
    await bakery.start(port);
    await told.waitFor();
    await picture(page, `updated-${name}`);
    await keeps_the_rules(page, `updated, ${name}`);
    await visitor.context.unroute("**/api/status");
    await page.getByRole("button", { name: "Reload" }).click();
    await told.waitFor({ state: "detached" });
    await page.getByText("Your unsaved changes were brought back.").waitFor();
    assert.equal(await (await salt(page)).inputValue(), "1.8");
    await visitor.leave();
  });

  test(`what a page of another program is not let send is kept, and sent when it is loaded anew (${name})`, async () => {
    const id = await bakery.jar();
    const visitor = await bakery.visit({ size });
    let of_page;
    await visitor.context.route("**/api/readings", (route) => {
      if (route.request().method() !== "POST") return route.continue();
      of_page = route.request().headers()["barm-page"];
      return route.fulfill(problem(409, "stale_page", "This page is of another barm."));
    });
    const page = await visitor.page(`#/bake/${id}/read`);
    await settled(page);
    await page.getByRole("textbox", { name: "Height now (mm)" }).fill("45");
    await page.getByRole("button", { name: "Note it" }).click();
    await page.getByText("The program was updated since this page was opened.").waitFor();
    const { version } = await bakery.ask("GET", "/api/status");
    assert.equal(of_page, version, "a page says of which program it is");
    await page.getByText("All readings (2)").click();
    await page.getByText("kept here, not sent yet").waitFor();
    await visitor.context.unroute("**/api/readings");
    await page.getByRole("button", { name: "Reload" }).click();
    await bakery.until(`/api/readings?owner=${id}`, ({ readings }) => readings.some((r) => r.height_mm === 45));
    await visitor.leave();
  });

  test(`that nothing can be saved, and why, is said on every screen, and what was noted is sent when it can (${name})`, async () => {
    const id = await bakery.jar();
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("#/larder");
    for (const [height_mm, saving, words] of [[44, "read_only", "the daybook can only be read"], [45, "disk_full", "the server's disk is full"], [46, "disk_fails", "The server's disk fails"]]) {
      await says(visitor, { saving });
      await visitor.context.route("**/api/readings", (route) =>
        route.request().method() === "POST" ? route.fulfill(problem(503, "unavailable", "Said by the server.", { saving })) : route.continue(),
      );
      await page.goto(`${bakery.url}/#/bake/${id}/read`);
      await page.reload();
      await settled(page);
      const told = page.getByText(words);
      await told.waitFor();
      await page.getByRole("textbox", { name: "Height now (mm)" }).fill(String(height_mm));
      await page.getByRole("button", { name: "Note it" }).click();
      await page.getByText("1 reading is kept here until it can.").waitFor();
      await picture(page, `${saving}-${name}`);
      await keeps_the_rules(page, `${saving}, ${name}`);
      for (const hash of ["#/bakes", "#/larder", "#/settings", `#/bake/${id}/bench`]) {
        await page.goto(`${bakery.url}/${hash}`);
        await settled(page);
        assert.equal(await told.count(), 1, hash);
      }
      await visitor.context.unroute("**/api/readings");
      await visitor.context.unroute("**/api/status");
      await page.getByRole("button", { name: "Try again" }).click();
      await bakery.until(`/api/readings?owner=${id}`, ({ readings }) => readings.some((r) => r.height_mm === height_mm));
      await told.waitFor({ state: "detached" });
      // The page hears a moment after the daybook has it.
      await page.goto(`${bakery.url}/#/bake/${id}/read`);
      await settled(page);
      await page.getByText("kept here, not sent yet").waitFor({ state: "detached" });
    }
    await visitor.leave();
  });

  test(`a conflict after a copy was put back is explained, and both hold what they say (${name})`, async () => {
    const { id } = await bakery.bake("mead-loaf");
    const visitor = await bakery.visit({ size });
    await says(visitor, { epoch: 1 });
    const page = await visitor.page(`#/bake/${id}`);
    await page.getByTestId("ready").first().waitFor();
    await (await salt(page)).fill("1.6");
    await page.waitForFunction(() => localStorage.getItem("barm.epoch") === "1");
    // The copy has another salt; a save over a revision of before is answered so.
    await bakery.change(id, (form) => ({ ...form, bowl: { ...form.bowl, salt: "2.2 %" } }));
    const current = await bakery.ask("GET", `/api/bakes/${id}`);
    let refused = false;
    await visitor.context.route(`**/api/bakes/${id}`, async (route) => {
      if (route.request().method() !== "PUT") return route.continue();
      if (refused) return route.continue();
      refused = true;
      return route.fulfill(problem(409, "restored", "The daybook was put back to an earlier copy.", { current, epoch: 2 }));
    });
    const question = page.getByRole("dialog");
    await question.waitFor();
    await question.getByRole("button", { name: "Close" }).click();
    await page.getByRole("button", { name: "Save", exact: true }).click();
    await page.getByText("This daybook is not as it was").waitFor();
    await page.getByRole("button", { name: "Look at both" }).click();
    const explained = page.getByRole("dialog", { name: "The daybook was put back" });
    assert.match(await explained.getByRole("table").innerText(), /in the copy\s+salt\s+1\.6 %\s+2\.2 %/);
    await picture(page, `restored-${name}`);
    await explained.getByRole("button", { name: "Keep mine", exact: true }).click();
    await explained.waitFor({ state: "detached" });
    assert.equal((await bakery.form(id)).bowl.salt.replace(" ", ""), "1.6%");
    await page.getByRole("button", { name: "OK", exact: true }).click();
    await page.getByText("This daybook is not as it was").waitFor({ state: "detached" });
    await visitor.leave();
  });
}

test("what the server says of its disk while a page is open is shown at once", async () => {
  const visitor = await bakery.visit();
  const page = await visitor.page("#/bakes");
  await settled(page);
  const told = page.getByText("the server's disk is full");
  assert.equal(await told.count(), 0);
  await visitor.context.route("**/api/events", (route) =>
    route.fulfill({ contentType: "text/event-stream", body: 'event: saving\ndata: {"saving": "disk_full"}\n\n' }),
  );
  const port = await bakery.stop();
  await bakery.start(port);
  await told.waitFor();
  await visitor.leave();
});

test("a server that has no place just now is asked again by itself", async () => {
  const visitor = await bakery.visit();
  let times = 0;
  await visitor.context.route("**/api/cultures", (route) => (++times < 3 ? route.fulfill(problem(503, "too_busy", "Come again.")) : route.continue()));
  const page = await visitor.page("#/cultures");
  await page.getByText("Come again.").waitFor();
  await page.getByText("Come again.").waitFor({ state: "detached" });
  await page.getByRole("heading", { level: 1, name: "Cultures" }).waitFor();
  assert.ok(times >= 3);
  await visitor.leave();
});
