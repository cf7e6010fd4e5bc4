// Another device of the house: nothing is shown before it has given the key of the terminal; then it remembers. Left out where the
// machine is on no network.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { Bakery, keeps_the_rules, settled, sizes } from "./house.mjs";

let bakery;
before(async () => (bakery = await Bakery.open({ demo: true, lan: true })));
after(() => bakery?.close());

for (const [name, size] of sizes) {
  test(`the key of the terminal opens the bakery, a wrong one does not, and a reload asks no more (${name})`, async (t) => {
    if (!bakery.on_a_network) return t.skip("on no network");
    const visitor = await bakery.visit({ size });
    const page = await visitor.page("");
    await page.getByRole("heading", { name: "Pair this device" }).waitFor();
    await keeps_the_rules(page, `pairing, ${name}`);
    assert.ok(!(await page.locator("body").innerText()).includes("Mead loaf"), "nothing of the bakery is shown yet");
    assert.equal(await page.evaluate(async () => (await fetch("/api/bakes")).status), 401);
    await page.getByRole("textbox", { name: "Key" }).fill("WRONG-KEY");
    await page.getByRole("button", { name: "Pair" }).click();
    await page.getByText("is not the key shown in the terminal").waitFor();
    await page.getByRole("textbox", { name: "Key" }).fill(bakery.key);
    await page.getByRole("button", { name: "Pair" }).click();
    await page.getByRole("heading", { name: "The next hours" }).waitFor();
    await page.reload();
    await page.getByRole("heading", { name: "The next hours" }).waitFor();
    await settled(page);
    await visitor.leave();
  });
}

test("the scanned code pairs by itself, and its key does not stay in the address", async (t) => {
  if (!bakery.on_a_network) return t.skip("on no network");
  const visitor = await bakery.visit();
  const page = await visitor.page(`#pair=${bakery.key}`);
  await page.getByRole("heading", { name: "The next hours" }).waitFor();
  assert.ok(!page.url().includes(bakery.key));
  await visitor.leave();
});

test("a refusal still on its way when the key is given does not shut the device out again", async (t) => {
  if (!bakery.on_a_network) return t.skip("on no network");
  const visitor = await bakery.visit();
  // The page asks for its settings before it has given the key, and is answered after the key was taken.
  let late;
  const taken = new Promise((resolve) => (late = resolve));
  let first = true;
  await visitor.context.route("**/api/settings/habits", async (route) => {
    if (!first) return route.continue();
    first = false;
    await taken;
    const problem = { type: "urn:barm:problem:not_paired", title: "Unauthorized", status: 401, code: "not_paired", detail: "this device is not paired" };
    return route.fulfill({ status: 401, contentType: "application/problem+json", body: JSON.stringify(problem) });
  });
  const page = await visitor.page(`#pair=${bakery.key}`);
  await page.getByRole("heading", { name: "The next hours" }).waitFor();
  const refused = page.waitForResponse((response) => response.url().endsWith("/api/settings/habits") && response.status() === 401);
  late();
  await refused;
  await settled(page);
  await page.getByRole("heading", { name: "The next hours" }).waitFor();
  assert.equal(await page.getByRole("heading", { name: "Pair this device" }).count(), 0);
  await visitor.leave();
});

test("the machine itself shows the key and the code for a telephone", async (t) => {
  if (!bakery.on_a_network) return t.skip("on no network");
  const context = await bakery.browser.newContext();
  const page = await context.newPage();
  await page.goto(`http://localhost:${new URL(bakery.url).port}/#/settings`);
  const section = page.getByRole("region", { name: "Let a telephone in" });
  await section.getByText(bakery.key).waitFor();
  const code = section.getByRole("img", { name: /Code to scan/ });
  assert.ok((await code.boundingBox()).width >= 150);
  assert.ok((await code.locator("rect").count()) > 200);
  await context.close();
});
