/* package_test.mjs - the calculation package as its readers use it: a designer moves through the steps, a checker follows a figure, a
 * student reads values off a picture, somebody without sight or without scripts reads it too. Values are held against
 * `kernline table --csv`.
 * SPDX-License-Identifier: MIT */
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { chromium } from "playwright-core";
import axe from "axe-core";
import { csvOf, kernline, runTests, test } from "./harness.mjs";

const WORK = process.env.WORK;
const CAP = "models/caps/long_skewed_cap.kline";
const FIVE_DIGITS = 2e-5; /* the page's data have six digits */

/* A page of its own with what must not happen written down. */
async function openPage(browser, name, options) {
    const context = await browser.newContext({ viewport: { width: 1300, height: 900 }, ...options });
    const page = await context.newPage();
    page.setDefaultTimeout(120000); /* on a busy machine */
    page.trouble = [];
    page.on("console", (m) => ["error", "warning"].includes(m.type()) && page.trouble.push(m.text()));
    page.on("pageerror", (e) => page.trouble.push(e.message));
    page.on("dialog", (d) => { page.trouble.push(`dialog ${d.message()}`); d.dismiss(); });
    page.on("request", (r) => page.trouble.push(...(r.url() === `file://${WORK}/${name}` ? [] : [`request ${r.url()}`])));
    await page.goto(`file://${WORK}/${name}`);
    return page;
}

async function withPage(browser, name, options, act) {
    const page = await openPage(browser, name, options);
    try {
        await act(page);
        assert.deepEqual(page.trouble, []);
    } finally {
        await page.context().close();
    }
}

const setStep = (sheet, at) => sheet.locator(".steps input").evaluate((range, value) => {
    range.value = value;
    range.dispatchEvent(new Event("input"));
}, String(at));

test("a slider moves every picture of its sheet to one step", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    const names = csvOf(kernline("table", CAP, "steps", "--csv")).length;
    for (const id of ["actions", "stresses", "movements"]) {
        const sheet = page.locator(`#sheet-${id}`);
        const count = Number(await sheet.locator(".steps input").getAttribute("max"));
        assert.ok(count > 1 && count <= names, `${count} positions for ${names} steps`);
        for (const at of [0, count - 1]) {
            await setStep(sheet, at);
            const seen = await sheet.evaluate((s) => [...s.querySelectorAll(".has-steps")].map((picture) => {
                const groups = [...picture.querySelectorAll("g.step")];
                const visible = groups.filter((g) => getComputedStyle(g).display !== "none").map((g) => g.dataset.step);
                return { visible: [...new Set(visible)], has: groups.some((g) => g.dataset.step === s.dataset.step), step: s.dataset.step };
            }));
            assert.ok(seen.length >= 3);
            for (const picture of seen) {
                assert.deepEqual(picture.visible, picture.has ? [picture.step] : []);
            }
            const told = await sheet.locator(".steps output").textContent();
            const steps = await page.evaluate(() => JSON.parse(document.getElementById("courses").textContent).steps);
            assert.equal(told, `${at + 1} of ${count}: ${steps[Number(seen[0].step)].name}`);
        }
        await setStep(sheet, count);
        assert.ok(await sheet.evaluate((s) => [...s.querySelectorAll(".has-steps")].every((p) => {
            const visible = [...p.querySelectorAll("g.step")].filter((g) => getComputedStyle(g).display !== "none");
            return visible.length > 0 && visible.every((g) => !g.classList.contains("folded"));
        })), "all that have room are shown together");
    }
}));

/* quantity of a picture: table and column that print it */
const COLUMNS = {
    moment: ["actions", "moment_total"], shear: ["actions", "shear_total"], axial: ["actions", "axial_total"], stress_top: ["stresses", "stress_top"],
    stress_bottom: ["stresses", "stress_bottom"], deflection: ["deflections", "deflection"], moment_from_prestress: ["actions", "moment_secondary"],
};

/* Read a picture from end to end by keys, in the page, which is quicker: [{station, side, quantity, step, value}]. */
const readAlong = (picture) => picture.evaluate((p) => {
    const scroll = p.querySelector(".scroll");
    const readings = [];
    let last = "";
    for (;;) {
        scroll.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight" }));
        const { station, side } = p.querySelector(".reading p").dataset;
        const now = [...p.querySelectorAll(".reading table")].flatMap((t) => [...t.querySelectorAll("tr")].map((tr) => (
            { station, side, quantity: t.dataset.quantity, step: tr.cells[0].textContent, value: tr.cells[1].dataset.value })));
        if (JSON.stringify(now) === last) {
            return readings;
        }
        last = JSON.stringify(now);
        readings.push(...now);
    }
});

test("what a picture reads is what the tables say", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    const tables = {};
    for (const name of ["actions", "stresses", "deflections"]) {
        tables[name] = csvOf(kernline("table", CAP, name, "--steps", "--member", "cap", "--csv"));
    }
    for (const [id, name, quantities] of [["actions", "moment", ["moment"]], ["actions", "shear", ["shear"]], ["actions", "axial", ["axial"]],
        ["stresses", "stresses", ["stress_top", "stress_bottom"]], ["movements", "deflection", ["deflection"]]]) {
        const picture = page.locator(`#sheet-${id} .picture[data-name="${name}"][data-member="cap"]`).first();
        const readings = await readAlong(picture);
        for (const quantity of quantities) {
            const [table, column] = COLUMNS[quantity];
            const rows = tables[table];
            const largest = Math.max(...rows.map((r) => Math.abs(Number(r[column]))));
            let compared = 0;
            for (const r of readings.filter((x) => x.quantity === quantity)) {
                const row = rows.find((x) => x.state === r.step && Math.abs(Number(x.station) - Number(r.station)) < 1e-4 && x.side === r.side);
                if (row) {
                    compared++;
                    assert.ok(Math.abs(Number(row[column]) - Number(r.value)) <= FIVE_DIGITS * largest, `${quantity} at ${r.station}, ${r.step}: ${r.value}, not ${row[column]}`);
                }
            }
            assert.ok(compared >= 100, `${quantity}: only ${compared} compared`);
        }
    }
}));

test("a pointer reads the station under it, of the step that is shown", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    const sheet = page.locator("#sheet-actions");
    const picture = sheet.locator(".picture[data-name=moment][data-member=cap]").first();
    await setStep(sheet, 5);
    await picture.scrollIntoViewIfNeeded();
    const drawn = await picture.locator("svg").boundingBox();
    const field = await picture.locator("g.field").evaluate((g) => Object.fromEntries(Object.entries(g.dataset).map(([k, v]) => [k, Number(v)])));
    for (const share of [0.1, 0.5, 0.93]) {
        const x = field.px0 + share * (field.px1 - field.px0);
        await page.mouse.move(drawn.x + x / 900 * drawn.width, drawn.y + 0.5 * drawn.height);
        const station = Number(await picture.locator(".reading p").getAttribute("data-station"));
        const length = field.x1 - field.x0;
        assert.ok(Math.abs(station - (field.x0 + share * length)) < 0.015 * length, `${station} at ${share} of ${length}`);
        assert.equal(await picture.locator(".reading tr").count(), 1);
    }
    await page.mouse.move(5, 5);
    assert.ok(await picture.locator(".reading").isHidden());
}));

/* What the open panel says. */
const readPanel = (page) => page.locator("#derivation").evaluate((panel) => {
    const number = (td) => Number(td.dataset.value);
    return {
        open: panel.open, sum: number(panel.querySelector("tfoot td")),
        parts: [...panel.querySelectorAll("tbody tr")].map((tr) => ({
            from: tr.cells[0].textContent, value: number(tr.cells[1]),
            worked: [...(tr.cells[2]?.textContent ?? "").matchAll(/= (-?[\d.]+) \S+$/gm)].map((m) => Number(m[1])),
        })),
    };
});

test("a figure opens what it is the sum of", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    let onGross = 0;
    for (const [table, every] of [["stresses", 37], ["actions", 83], ["checks", 3], ["glance_stresses", 2], ["glance_checks", 1]]) {
        const cells = page.locator(`table[data-name=${table}] td.opens`);
        const count = await cells.count();
        assert.ok(count >= 4, `${count} figures of ${table} open`);
        for (let i = 0; i < count; i += every) {
            const printed = Number(await cells.nth(i).getAttribute("data-value"));
            await cells.nth(i).click();
            const panel = await readPanel(page);
            await page.keyboard.press("Escape");
            assert.ok(panel.open);
            const largest = Math.max(1e-9, Math.abs(printed), ...panel.parts.map((p) => Math.abs(p.value)));
            const sum = panel.parts.reduce((all, p) => all + p.value, 0);
            assert.ok(Math.abs(sum - panel.sum) <= 1e-9 * largest);
            assert.ok(Math.abs(sum - printed) <= FIVE_DIGITS * largest, `${table} ${i}: ${sum}, printed ${printed}`);
            for (const part of panel.parts.filter((p) => /^(primary|secondary)/.test(p.from) && p.worked.length > 0)) {
                const worked = part.worked.reduce((all, v) => all + v, 0);
                onGross++;
                assert.ok(Math.abs(worked - part.value) <= 1e-4 * Math.max(largest, ...part.worked.map(Math.abs)), `${part.from}: ${worked}, not ${part.value}`);
            }
        }
    }
    assert.ok(onGross > 20, `${onGross} parts worked out on the gross section`);
}));

test("every stress at a glance opens, at midspans that are no tenths too", ({ browser }) => withPage(browser, "deck.html", {}, async (page) => {
    const closed = await page.locator("table[data-name=glance_stresses]").evaluate((t) => [...t.querySelectorAll("td[data-value]")]
        .filter((cell) => t.tHead.rows[0].cells[cell.cellIndex].dataset.key.startsWith("stress") && !cell.classList.contains("opens")).length);
    assert.equal(closed, 0);
}));

test("without scripts every table and the default pictures are there", ({ browser }) => withPage(browser, "cap.html", { javaScriptEnabled: false }, async (page) => {
    const tables = page.locator("figure.table table");
    assert.ok(await tables.count() > 20);
    assert.ok((await page.locator("#sheet-actions .picture svg").count()) >= 9);
    await page.locator("#sheet-losses").scrollIntoViewIfNeeded();
    assert.ok(await page.locator("table[data-name=losses] tbody tr").nth(1).isVisible());
    assert.equal(await page.locator("td.opens, .steps, .copier").count(), 0);
}));

test("a table copies as the program's CSV, and sorts within its groups", ({ browser }) => withPage(browser, "cap.html", { permissions: ["clipboard-read", "clipboard-write"] }, async (page) => {
    for (const name of ["losses", "stressing", "audit"]) {
        const figure = page.locator("figure.table", { has: page.locator(`table[data-name=${name}]`) }).last();
        await figure.locator(".copier").click();
        assert.equal(await page.evaluate(() => navigator.clipboard.readText()), kernline("table", CAP, name, "--csv"), name);
    }
    const figure = page.locator("figure.table", { has: page.locator("table[data-name=stresses]") }).first();
    const column = () => figure.evaluate((f) => [...f.querySelectorAll("tbody")].map((b) => [...b.querySelectorAll("tr:not(.group) td:nth-child(4)")].map((c) => Number(c.dataset.value))));
    const before = await column();
    const head = figure.locator("th[data-key=stress_top]");
    await head.locator("button").click();
    assert.deepEqual(await column(), before.map((rows) => rows.toSorted((a, b) => a - b)));
    assert.equal(await head.getAttribute("aria-sort"), "ascending");
    await head.locator("button").click();
    assert.deepEqual(await column(), before.map((rows) => rows.toSorted((a, b) => b - a)));
    await head.locator("button").click();
    assert.deepEqual(await column(), before);
}));

test("words are found and shown", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    await page.keyboard.press("/");
    await page.keyboard.type("girders_set");
    const found = Number((await page.locator("#found-count").textContent()).split(" ")[0]);
    assert.ok(found > 3, `${found} places`);
    await page.keyboard.press("Enter");
    await page.keyboard.press("Enter");
    const shown = page.locator(".found");
    assert.equal(await shown.count(), 1);
    assert.match((await shown.textContent()).toLowerCase(), /girders_set/);
    await page.waitForTimeout(700); /* scrolling is smooth */
    const place = await shown.boundingBox();
    assert.ok(place.y > -place.height && place.y < 900, `found at ${place.y}`);
    await page.fill("#search", "no such word in there");
    assert.equal(await page.locator("#found-count").textContent(), "0 places");
}));

test("the list of sheets leads to each", ({ browser }) => withPage(browser, "cap.html", { reducedMotion: "reduce" }, async (page) => {
    const links = await page.locator("#contents ul:last-of-type a").all();
    assert.ok(links.length > 15);
    for (const link of links) {
        await link.click();
        const sheet = page.locator(await link.getAttribute("href"));
        const top = await sheet.evaluate((s) => s.getBoundingClientRect().top);
        const last = await page.evaluate(() => window.scrollY + window.innerHeight >= document.documentElement.scrollHeight - 2);
        assert.ok(Math.abs(top - 16) < 4 || last, `${await link.textContent()} stands at ${top}`);
    }
}));

test("everything is reached by keys", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    await page.keyboard.press("Tab");
    assert.equal(await page.evaluate(() => document.activeElement.className), "skip");
    const cell = page.locator("#sheet-stresses table[data-name=stresses] td.opens").first();
    await cell.focus();
    await page.keyboard.press("ArrowRight");
    await page.keyboard.press("ArrowDown");
    const at = await page.evaluate(() => document.activeElement.dataset.value);
    await page.keyboard.press("Enter");
    assert.ok(await page.locator("#derivation").evaluate((d) => d.open));
    await page.keyboard.press("Escape");
    assert.ok(!await page.locator("#derivation").evaluate((d) => d.open));
    assert.equal(await page.evaluate(() => document.activeElement.dataset.value), at, "the focus comes back");
    const slider = page.locator("#sheet-actions .steps input");
    await slider.focus();
    await page.keyboard.press("ArrowLeft");
    assert.match(await slider.getAttribute("aria-valuetext"), /^\d+ of \d+: /);
}));

test("nothing serious hinders those who read by other means", async ({ browser }) => {
    for (const options of [{ colorScheme: "light" }, { colorScheme: "dark" }]) {
        await withPage(browser, "cap.html", { ...options, bypassCSP: true }, async (page) => {
            await page.evaluate(axe.source);
            for (const opened of [false, true]) {
                if (opened) {
                    await page.locator("#sheet-stresses table[data-name=stresses] td.opens").first().click();
                }
                const found = await page.evaluate((panel) => window.axe.run(panel ? "#derivation" : document, { resultTypes: ["violations"] }), opened);
                const serious = found.violations.filter((v) => ["serious", "critical"].includes(v.impact)).map((v) => `${v.id}: ${v.nodes[0].html} (${v.nodes.length})`);
                assert.deepEqual(serious, [], options.colorScheme);
            }
        });
    }
});

/* Pages of the print, and the text of each. */
function printed(path) {
    const count = Number(/^Pages:\s+(\d+)/m.exec(execFileSync("pdfinfo", [path], { encoding: "utf8" }))[1]);
    const pages = execFileSync("pdftotext", ["-layout", path, "-"], { encoding: "utf8", maxBuffer: 1e8 }).split("\f").slice(0, -1);
    return { count, pages };
}

test("it prints on Letter and A4 with page numbers and sheet titles", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    const titles = await page.locator(".sheet > h2").evaluateAll((all) => all.map((h) => h.textContent.trim().replace(/\s+/g, " ")));
    for (const format of ["Letter", "A4"]) {
        const path = `${WORK}/cap_${format}.pdf`;
        await page.pdf({ path, format, preferCSSPageSize: false });
        const { count, pages } = printed(path);
        assert.equal(pages.length, count);
        assert.ok(count >= titles.length && count < 150, `${count} pages`);
        pages.forEach((text, i) => {
            assert.match(text, new RegExp(`page ${i + 1} of ${count}`));
            assert.match(text, /Never stand behind a jack/);
            if (/^\s*bents .* (bears|erected)/m.test(text)) { /* a table that goes on has its head on every page */
                assert.match(text, /condition/, `page ${i + 1}`);
            }
        });
        for (const title of titles) {
            assert.ok(pages.some((text) => text.split("\n").slice(0, 4).join(" ").replace(/\s+/g, " ").includes(title)), `${title} at the head of no page`);
        }
    }
}));

const HOSTILE = "</title></script><script>window.broken = 1</script><img src=x onerror=alert(1)> & ' ]]> --> \u202eleft";

test("what somebody wrote into a model is shown, never run", ({ browser }) => withPage(browser, "hostile.html", {}, async (page) => {
    assert.equal(await page.evaluate(() => window.broken), undefined);
    assert.equal(await page.locator("img").count(), 0);
    const shown = HOSTILE.replace("\u202e", "").replace(/\s+/g, " ");
    const title = (await page.locator("h1").textContent()).replace(/[\u202e\ufffd]|<U\+202E>|\u2426/g, "").replace(/\s+/g, " ");
    assert.ok(title.includes(shown.slice(0, 90)), title);
    await page.fill("#search", "window.broken");
    assert.ok(await page.locator("#found li").count() > 0);
}));

test("on a telephone what is wider than the window says so, and the step control keeps its buttons together", ({ browser }) =>
    withPage(browser, "cap.html", { viewport: { width: 390, height: 844 } }, async (page) => {
        for (const sheet of ["stressing", "stages", "posts"]) {
            const wide = await page.locator(`#sheet-${sheet} .scroll`).evaluateAll((all) => all.map((s) => ({
                wide: s.scrollWidth > s.clientWidth + 2, said: s.previousElementSibling.matches(".sideways:not([hidden])"),
                fades: getComputedStyle(s).maskImage !== "none" || getComputedStyle(s).webkitMaskImage !== "none" })));
            assert.ok(wide.some((s) => s.wide));
            for (const s of wide) {
                assert.deepEqual([s.said, s.fades], [s.wide, s.wide]);
            }
        }
        const region = page.locator("#sheet-stressing .scroll").first();
        await region.evaluate((s) => { s.scrollLeft = s.scrollWidth; });
        await page.waitForFunction((s) => s.classList.contains("more-left") && !s.classList.contains("more-right"), await region.elementHandle());
        const boxes = await page.locator("#sheet-posts .steps").locator("button, input").evaluateAll((all) => all.map((b) => {
            const box = b.getBoundingClientRect();
            return { top: box.top, bottom: box.bottom, left: box.left, right: box.right };
        }));
        assert.equal(boxes.length, 3);
        for (const box of boxes) {
            assert.ok(box.top < boxes[0].bottom && box.bottom > boxes[0].top, "in one row");
            assert.ok(box.right <= 390);
        }
        assert.ok(boxes[0].right <= boxes[1].left && boxes[1].right <= boxes[2].left);
    }));

test("pictures for a person to look at", ({ browser }) => withPage(browser, "cap.html", {}, async (page) => {
    for (const sheet of await page.locator(".sheet").all()) {
        await sheet.scrollIntoViewIfNeeded();
        await sheet.screenshot({ path: `${WORK}/${await sheet.getAttribute("id")}.png` });
    }
    await page.setViewportSize({ width: 390, height: 800 });
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= window.innerWidth + 1), "a narrow window does not scroll sideways");
    await page.screenshot({ path: `${WORK}/narrow.png` });
}));

kernline("report", CAP, "-o", `${WORK}/cap.html`);
kernline("report", "models/decks/double_deck.kline", "-o", `${WORK}/deck.html`);
writeFileSync(`${WORK}/hostile.kline`, readFileSync(CAP, "utf8").replace(/^title .*$/m, () => `title "${HOSTILE}"`));
kernline("report", `${WORK}/hostile.kline`, "-o", `${WORK}/hostile.html`);
const browser = await chromium.launch({ executablePath: process.env.CHROMIUM, args: ["--no-sandbox", "--disable-dev-shm-usage"] });
const failed = await runTests({ browser });
await browser.close();
process.exit(failed > 0 ? 1 : 0);
