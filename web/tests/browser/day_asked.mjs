// How a day is asked for on the page, for the tests of it.
import { set_when, unfolded } from "./house.mjs";

export const count = (page, label) => page.getByRole("textbox", { name: label, exact: true });

/** The morning after tomorrow: time enough for a levain, a dough and an oven. */
export const morning = (days, hour) => new Date(new Date().setHours(hour, 0, 0, 0) + days * 86_400_000);

/** Only the planned bakes of these names; none that is baked already, and none under way but `live`. */
export async function tick_only(page, names, live = []) {
  for (const title of ["Which bakes", "When", "The house"]) await unfolded(page, title);
  for (const box of await page.locator(".day-bake").getByRole("checkbox").all()) {
    const { title, kind } = await box.evaluate((one) => ({ title: one.closest("label").innerText.trim(), kind: one.closest("ul").dataset.kind }));
    const wanted = kind === "planned" ? names.includes(title) : kind === "live" && live.includes(title);
    if ((await box.isVisible()) && (await box.isChecked()) !== wanted) await box.click();
  }
}

/** The day of two breads, planned on that page; the plan's region. `no_night`: whatever the hour, somebody is up. */
export async function planned_day(bakery, page, names, { no_night = false } = {}) {
  await page.goto(`${bakery.url}/#/day`);
  await tick_only(page, names);
  await set_when(page, "Bread cooled by", morning(3, 8));
  if (no_night) await count(page, "Nobody works from").fill("");
  await page.getByRole("button", { name: "Plan it" }).click();
  const plan = page.getByRole("region", { name: /^Bread for/ });
  await plan.getByText(/counted on 2000 fresh draws/).waitFor();
  await see_all_of(page);
  return plan;
}

/** Opens what a phone folds of a plan. */
export async function see_all_of(page) {
  for (const title of ["Already started", "After that", "Who and what is taken"])
    if ((await page.getByRole("heading", { name: title }).count()) > 0) await unfolded(page, title);
}

export const two = ["Stout loaf", "Plain marsh loaf"];

export const row_of = (page, step, bake) => page.getByRole("row").filter({ has: page.getByRole("button", { name: `${step}: ${bake}, move it` }) });
