// Opens reports in a headless browser: nothing is fetched, every chart is drawn, everybody can read
// them, on a phone and on paper. Screenshots and PDFs stay beside the reports.
//
// node --test report_test.js with REPORTS (a folder with audit_*.html) and CHROMIUM (its program).
import assert from "node:assert/strict";
import { readFileSync, readdirSync, statSync } from "node:fs";
import { createRequire } from "node:module";
import { basename, join } from "node:path";
import { after, before, describe, it } from "node:test";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";

const folder = process.env.REPORTS;
const axe = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const phone = { width: 360, height: 740 };
const desktop = { width: 1280, height: 900 };
const names = readdirSync(folder).filter((name) => /^audit_\w+\.html$/.test(name));

let browser;
before(async () => {
  browser = await chromium.launch({
    executablePath: process.env.CHROMIUM,
    args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
      "--disable-background-networking", "--disable-component-update", "--disable-sync"],
  });
});
after(() => browser?.close());

// A page with the report, and what went wrong or was asked for while it was opened. The policy of the
// report is set aside for the axe program alone, which is put in from outside.
async function open(name, viewport, options = {}) {
  const page = await browser.newPage({ viewport, ...options });
  const seen = { problems: [], requests: [] };
  page.on("console", (message) => seen.problems.push(message.text()));
  page.on("pageerror", (error) => seen.problems.push(String(error)));
  page.on("request", (request) => seen.requests.push(request.url()));
  const address = pathToFileURL(join(folder, name)).href;
  await page.goto(address);
  await page.waitForFunction(() => [...document.querySelectorAll(".drawing")]
    .every((drawing) => drawing.dataset.drawn === "yes"), null, { timeout: 30000 });
  return { page, seen, address };
}

function picture(name, kind) {
  return join(folder, `${basename(name, ".html")}_${kind}`);
}

// Wider than the window: what makes the whole page scroll sideways.
const overflow = () => document.documentElement.scrollWidth - document.documentElement.clientWidth;

it("there are reports", () => assert.ok(names.length >= 4, `only ${names}`));

for (const name of names) {
  describe(name, () => {
    for (const [kind, viewport] of [["desktop", desktop], ["phone", phone]]) {
      it(`opens on a ${kind} without a word, asking for nothing`, async () => {
        const { page, seen, address } = await open(name, viewport);
        await page.screenshot({ path: picture(name, `${kind}.png`), fullPage: true });
        assert.deepEqual(seen.problems, []);
        assert.deepEqual(seen.requests, [address]);
        assert.equal(await page.evaluate(overflow), 0);
        await page.close();
      });
    }

    it("does not scroll sideways when all is unfolded on the narrowest phones", async () => {
      for (const width of [360, 320]) {
        const { page } = await open(name, { width, height: 640 });
        await page.evaluate(() => document.querySelectorAll("details").forEach((each) => {
          each.open = true;
        }));
        assert.equal(await page.evaluate(overflow), 0, `${width} pixels`);
        await page.close();
      }
    });

    it("draws every chart, with marks in it, within its figure", async () => {
      const { page } = await open(name, phone);
      const charts = await page.$$eval(".drawing", (drawings) => drawings.map((drawing) => ({
        name: drawing.getAttribute("aria-label"),
        marks: drawing.querySelectorAll("svg .mark-symbol path, svg .mark-line path, svg .mark-rect path, svg .mark-rule line").length,
        wide: drawing.querySelector("svg").getBoundingClientRect().width,
        room: drawing.clientWidth,
        broken: / (d|x|y|x1|x2|y1|y2|transform)="[^"]*(NaN|undefined|Infinity)/.test(drawing.innerHTML),
      })));
      for (const chart of charts) {
        assert.ok(chart.marks > 0, `no marks: ${chart.name}`);
        assert.ok(chart.wide <= chart.room + 1, `too wide: ${chart.name}`);
        assert.ok(!chart.broken, `not a number: ${chart.name}`);
      }
      const expected = { "audit_full.html": 22, "audit_empty.html": 0 };
      if (name in expected) assert.equal(charts.length, expected[name]);
      await page.close();
    });

    for (const [kind, viewport] of [["desktop", desktop], ["phone", phone]]) {
      it(`has nothing serious for axe on a ${kind}`, async () => {
        const { page } = await open(name, viewport, { bypassCSP: true });
        await page.evaluate(() => document.querySelectorAll("details").forEach((each) => {
          each.open = true;
        }));
        await page.evaluate(axe);
        const { violations } = await page.evaluate(() => window.axe.run());
        const grave = violations.filter(({ impact }) => ["serious", "critical"].includes(impact));
        assert.deepEqual(grave.map(({ id, nodes }) => [id, nodes[0].html.slice(0, 200)]), []);
        await page.close();
      });
    }

    it("can be read and reached with the keyboard alone", async () => {
      const { page } = await open(name, desktop);
      await page.keyboard.press("Tab");
      assert.equal(await page.evaluate(() => document.activeElement.className), "skip");
      await page.keyboard.press("Enter");
      assert.equal(await page.evaluate(() => document.activeElement.id), "content");
      await page.close();
    });

    it("prints on A4 with all that was folded", async () => {
      const { page } = await open(name, desktop);
      const path = picture(name, "print.pdf");
      await page.pdf({ path, format: "A4", printBackground: false });
      assert.ok(statSync(path).size > 20000);
      assert.equal(readFileSync(path).subarray(0, 5).toString(), "%PDF-");
      await page.emulateMedia({ media: "print" });
      const unseen = await page.$$eval("table", (tables) => {
        dispatchEvent(new Event("beforeprint"));
        return tables.filter((table) => !table.checkVisibility()).length;
      });
      assert.equal(unseen, 0);
      await page.close();
    });
  });
}
