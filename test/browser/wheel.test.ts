/** Under the wheel: every question is answered, on a thread that stays. Expected: whatever is asked, the picture is of it soon. */
import {expect, test} from "vitest";
import {openStudy, solved, stage, toView} from "./harness.ts";
import {smallFiles} from "./smallStudy.ts";

const {open} = stage();

test("one change after another is answered, and what is shown of an older one is dimmed", async () => {
  const page = await open();
  await openStudy(page, smallFiles());
  await page.getByRole("heading", {level: 1, name: "Small road"}).waitFor();
  await solved(page);
  await toView(page, "Under the wheel");
  const picture = page.locator(".field-picture canvas");
  const dimmed = page.locator(".wheel .stale");
  await picture.waitFor();
  await expect.poll(() => dimmed.count(), {timeout: 30_000}).toBe(0);
  const temperature = page.getByRole("slider", {name: "Temperature"});
  for (const key of ["End", "Home", "PageUp", "ArrowRight", "End"]) {
    await temperature.press(key);
    await expect.poll(() => dimmed.count()).toBe(2); // the picture, and the strains of the tips beside it
    await expect.poll(() => dimmed.count(), {timeout: 30_000}).toBe(0);
  }
}, 240_000);
