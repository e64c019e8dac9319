// Opens reports in a headless browser: nothing is fetched, every chart is drawn, everybody can read
// them, on a phone and on paper. Screenshots and PDFs stay beside the reports.
//
// node --test report_test.js with REPORTS (a folder with audit_*.html) and CHROMIUM (its program).
import assert from "node:assert/strict";
import { readFileSync, readdirSync, statSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, describe, it } from "node:test";
import { assertAccessible, desktop, folder, launch, openPage, overflow, phone } from "./pages.js";

const names = readdirSync(folder).filter((name) => /^audit_\w+\.html$/.test(name));

let browser;
before(async () => { browser = await launch(); });
after(() => browser?.close());

// A page with the report, all of its charts drawn.
async function open(name, viewport, options) {
  const opened = await openPage(browser, name, viewport, options);
  await opened.page.waitForFunction(() => [...document.querySelectorAll(".drawing")]
    .every((drawing) => drawing.dataset.drawn === "yes"), null, { timeout: 30000 });
  return opened;
}

function picture(name, kind) {
  return join(folder, `${basename(name, ".html")}_${kind}`);
}

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

    it("draws every chart, with markers in it, within its figure", async () => {
      const { page } = await open(name, phone);
      const charts = await page.$$eval(".drawing", (drawings) => drawings.map((drawing) => ({
        name: drawing.getAttribute("aria-label"),
        markers: drawing.querySelectorAll("svg .mark-symbol path, svg .mark-line path, svg .mark-rect path, svg .mark-rule line").length,
        wide: drawing.querySelector("svg").getBoundingClientRect().width,
        room: drawing.clientWidth,
        broken: / (d|x|y|x1|x2|y1|y2|transform)="[^"]*(NaN|undefined|Infinity)/.test(drawing.innerHTML),
      })));
      for (const chart of charts) {
        assert.ok(chart.markers > 0, `no markers: ${chart.name}`);
        assert.ok(chart.wide <= chart.room + 1, `too wide: ${chart.name}`);
        assert.ok(!chart.broken, `not a number: ${chart.name}`);
      }
      const expected = { "audit_full.html": 22, "audit_empty.html": 0 };
      if (name in expected) assert.equal(charts.length, expected[name]);
      await page.close();
    });

    for (const [kind, viewport] of [["desktop", desktop], ["phone", phone]]) {
      it(`lays no words of a waterfall on others on a ${kind}`, async () => {
        const { page } = await open(name, viewport);
        const crossings = await page.$$eval('.drawing[aria-label^="Waterfall"]', (drawings) =>
          drawings.flatMap((drawing) => {
            const labels = [...drawing.querySelectorAll("svg text")]
              .filter((text) => text.textContent.trim() !== "" && text.checkVisibility({ opacityProperty: true }))
              .map((text) => ({ words: text.textContent, box: text.getBoundingClientRect() }));
            const cross = ({ box: a }, { box: b }) =>
              a.left < b.right - 1 && b.left < a.right - 1 && a.top < b.bottom - 1 && b.top < a.bottom - 1;
            return labels.flatMap((one, at) => labels.slice(at + 1)
              .filter((other) => cross(one, other)).map((other) => [one.words, other.words]));
          }));
        assert.deepEqual(crossings, []);
        await page.close();
      });

      it(`has nothing serious for axe on a ${kind}`, async () => {
        const { page } = await open(name, viewport, { bypassCSP: true });
        await page.evaluate(() => document.querySelectorAll("details").forEach((each) => {
          each.open = true;
        }));
        await assertAccessible(page);
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
