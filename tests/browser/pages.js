// What the tests of pages share: a headless browser, pages that tell what they asked for, and axe.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

export const folder = process.env.REPORTS;
export const phone = { width: 360, height: 740 };
export const desktop = { width: 1280, height: 900 };

export function launch() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM,
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
}

// A page of the folder, and what went wrong or was asked for while it was opened.
export async function openPage(browser, name, viewport, options = {}) {
  const page = await browser.newPage({ viewport, ...options });
  const seen = { problems: [], requests: [] };
  page.on("console", (message) => seen.problems.push(message.text()));
  page.on("pageerror", (error) => seen.problems.push(String(error)));
  page.on("request", (request) => seen.requests.push(request.url()));
  const address = pathToFileURL(join(folder, name)).href;
  await page.goto(address);
  return { page, seen, address };
}

// Wider than the window: what makes the whole page scroll sideways.
export const overflow = () =>
  document.documentElement.scrollWidth - document.documentElement.clientWidth;

// The page must have been opened without its policy, since the axe program is put in from outside.
export async function assertAccessible(page) {
  await page.evaluate(axe);
  const { violations } = await page.evaluate(() => window.axe.run());
  const grave = violations.filter(({ impact }) => ["serious", "critical"].includes(impact));
  assert.deepEqual(grave.map(({ id, nodes }) => [id, nodes[0].html.slice(0, 200)]), []);
}
