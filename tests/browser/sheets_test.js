// Opens listings and sheets in a headless browser: nothing is fetched or run, everybody can read
// them, each is one page of A4 whatever the book holds, and another program reads its code.
//
// node --test sheets_test.js with REPORTS (the folder), CHROMIUM and, to read codes, ZBARIMG.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { basename, join } from "node:path";
import { after, before, describe, it } from "node:test";
import { assertAccessible, desktop, folder, launch, openPage, overflow, phone } from "./pages.js";

const names = readdirSync(folder).filter((name) => /^(sheet|listing)_\w+\.html$/.test(name));
const sheets = names.filter((name) => name.startsWith("sheet_"));
const open = (name, viewport, options) => openPage(browser, name, viewport, options);

let browser;
before(async () => { browser = await launch(); });
after(() => browser?.close());

it("there are pages", () => assert.equal(names.length, 6, `only ${names}`));

for (const name of names) {
  describe(name, () => {
    for (const [kind, viewport] of [["desktop", desktop], ["phone", phone]]) {
      it(`opens on a ${kind} without a word, asking for nothing`, async () => {
        const { page, seen, address } = await open(name, viewport);
        await page.screenshot({
          path: join(folder, `${basename(name, ".html")}_${kind}.png`), fullPage: true,
        });
        assert.deepEqual(seen.problems, []);
        assert.deepEqual(seen.requests, [address]);
        assert.equal(await page.evaluate(overflow), 0);
        assert.notEqual(await page.title(), "taken");
        assert.equal(await page.$$eval("img", (images) => images.length), 0);
        await page.close();
      });

      it(`has nothing serious for axe on a ${kind}`, async () => {
        const { page } = await open(name, viewport, { bypassCSP: true });
        await assertAccessible(page);
        await page.close();
      });
    }
  });
}

for (const name of sheets) {
  it(`${name} is one sheet of A4`, async () => {
    const { page } = await open(name, desktop);
    const path = join(folder, `${basename(name, ".html")}.pdf`);
    await page.pdf({ path, preferCSSPageSize: true });
    const pdf = readFileSync(path).toString("latin1");
    assert.equal(pdf.match(/\/Type\s*\/Page\b(?!s)/g).length, 1);
    const [, width, height] = pdf.match(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/);
    assert.ok(Math.abs(width - 595) < 1 && Math.abs(height - 842) < 1, `${width} x ${height}`);
    await page.close();
  });
}

// The square on the page, four times as large as on a screen, as another program reads it.
async function decoded(name) {
  const { page } = await open(name, desktop, { deviceScaleFactor: 4 });
  const path = join(folder, `${basename(name, ".html")}_code.png`);
  await page.locator(".claim svg").screenshot({ path });
  const said = await page.locator(".claim code").textContent();
  await page.close();
  const read = execFileSync(process.env.ZBARIMG, ["--quiet", "--raw", path], { encoding: "utf8" });
  return { read: read.replace(/\n$/, ""), said };
}

for (const name of ["sheet_common.html", "sheet_longest.html", "sheet_hostile.html"]) {
  it(`${name} has a code that holds what stands beside it`,
    { skip: !process.env.ZBARIMG && "zbarimg is missing" }, async () => {
      const { read, said } = await decoded(name);
      assert.equal(read, said);
    });

  it(`${name} has modules over 15 millimetres at least`, async () => {
    const { page } = await open(name, desktop);
    const millimetres = await page.$eval(".claim svg", (svg) => {
      const all = svg.viewBox.baseVal.width;
      return (svg.getBoundingClientRect().width / 96) * 25.4 * ((all - 8) / all);
    });
    assert.ok(millimetres >= 15, `${millimetres}`);
    await page.close();
  });
}
