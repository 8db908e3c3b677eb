/* 5_derivation.js - a printed moment or stress opens how it came to be: what each cause brought at that place and step, with the numbers
 * in it, adding up to the figure that was printed.
 * SPDX-License-Identifier: MIT */
(function () {
    const PARTS = { axial: 0, moment: 1, axial_concrete: 2, moment_concrete: 3, top: 4, bottom: 5 };

    /* Column of a table: what its figure is the sum of. */
    const SUMS = {
        moment_total: { of: "moment", unit: "moment", name: "moment" },
        moment_concrete: { of: "moment_concrete", unit: "moment", name: "moment of the concrete's share" },
        axial_total: { of: "axial", unit: "axial", name: "axial force" },
        axial_concrete: { of: "axial_concrete", unit: "axial", name: "axial force of the concrete's share" },
        stress_top: { of: "top", unit: "stress_top", name: "stress at the top" },
        stress_bottom: { of: "bottom", unit: "stress_bottom", name: "stress at the bottom" },
    };

    const columnsOf = (table) => [...table.tHead.rows[0].cells].map((c) => c.dataset.key);
    const byName = (list) => new Map(list.map((item) => [item.name, item]));
    const members = byName(page.data("derivations").members);
    const states = byName(page.data("courses").steps);

    /* The texts of the group that the rows of a body stand in, by key. */
    function groupOf(body) {
        const group = {};
        for (const key of body.querySelectorAll("tr.group bdi[data-key]")) {
            group[key.dataset.key] = key.textContent;
        }
        return group;
    }

    /* The same with the full numbers and texts of a row. */
    function rowOf(tr, keys, group) {
        const row = { ...group };
        keys.forEach((key, i) => { row[key] = tr.cells[i].dataset.value ?? tr.cells[i].textContent; });
        return row;
    }

    const totalOf = (step, place, sum) => step.at[place].reduce((all, part) => all + (part[PARTS[sum.of]] ?? 0), 0);

    /* The number of a member's place in the data, -1: it is not there. Beside a jump a row has its side; where a table has no sides it is the
     * one whose sum was printed. */
    function placeOf(member, station, side, misses) {
        const near = 2e-5 * Math.max(...member.stations);
        const places = member.stations.map((s, i) => i).filter((i) => Math.abs(member.stations[i] - station) <= near);
        const sided = side === undefined ? places : places.filter((i) => member.sides[i] === side);
        return (sided.length > 0 ? sided : places).reduce((best, i) => (best < 0 || misses(i) < misses(best) ? i : best), -1);
    }

    /* Where in the data a figure is taken apart; null: nowhere. */
    function find(row, key) {
        const is_check = key === "demand";
        const sum = is_check ? SUMS[`stress_${row.face}`] : SUMS[key];
        const member = members.get(is_check ? row.on : row.member);
        const state = states.get(row.state);
        const step = sum && member && state && member.steps.find((s) => s.number === state.number);
        const printed = Number(row[key]);
        const place = step ? placeOf(member, Number(row.station), row.side, (i) => Math.abs(totalOf(step, i, sum) - printed)) : -1;
        return place >= 0 ? { sum, member, step, place, state, station: Number(row.station) } : null;
    }

    const isStress = (sum) => sum.of === "top" || sum.of === "bottom";

    /* N / A and M y / I of a part, in shown units, with what was put in. */
    function working(found, part) {
        const { base, units } = page.data("courses");
        const [area, inertia, toTop, toBottom] = found.member.sections[found.place];
        const force = part[PARTS.axial_concrete];
        const moment = part[PARTS.moment_concrete];
        const arm = found.sum.of === "top" ? -toTop : toBottom;
        const lines = [];
        const line = (formula, numbers, si) => lines.push(`${formula} = ${numbers} = ${page.figure(si / base.stress_top)} ${units.stress_top}`);
        if (force) {
            line("N / A", `${page.figure(force)} ${units.axial} / ${page.figure(area)} ${units.area}`, force * base.axial / (area * base.area));
        }
        if (moment) {
            line("M y / I", `${page.figure(moment)} ${units.moment} x ${page.figure(arm)} ${units.size} / ${page.figure(inertia)} ${units.inertia}`,
                moment * base.moment * arm * base.size / (inertia * base.inertia));
        }
        return lines.join("\n");
    }

    function tableOf(found, printed) {
        const { units } = page.data("courses");
        const parts = found.step.at[found.place];
        const values = parts.map((p) => p[PARTS[found.sum.of]] ?? 0);
        const largest = Math.max(...values.map(Math.abs), Math.abs(printed));
        const total = totalOf(found.step, found.place, found.sum);
        const body = page.make("tbody");
        parts.forEach((part, i) => {
            if (values[i] !== 0 || part.some((v) => v)) {
                const cells = [page.make("th", { scope: "row" }, page.said(found.step.parts[i])),
                    page.make("td", { "data-value": values[i] }, page.figure(values[i], largest))];
                if (isStress(found.sum)) {
                    cells.push(page.make("td", { class: "working" }, working(found, part)));
                }
                body.append(page.make("tr", null, ...cells));
            }
        });
        const head = page.make("tr", null, page.make("th", { scope: "col" }, "from"),
            page.make("th", { scope: "col" }, `${found.sum.name}, ${units[found.sum.unit]}`));
        const foot = page.make("tr", null, page.make("th", { scope: "row" }, "sum"),
            page.make("td", { "data-value": total }, page.figure(total, largest)));
        if (isStress(found.sum)) {
            head.append(page.make("th", { scope: "col" }, "on the gross section"));
            foot.append(page.make("td"));
        }
        return page.make("table", { class: "parts" }, page.make("thead", null, head), body, page.make("tfoot", null, foot));
    }

    const heading = page.make("h2", { id: "derivation-title" });
    const content = page.make("div", { class: "scroll", tabindex: "0" });
    const panel = page.make("dialog", { id: "derivation", "aria-labelledby": "derivation-title" }, heading, content,
        page.button("Close", () => panel.close()));
    document.body.append(panel);
    panel.addEventListener("click", (event) => event.target === panel && panel.close());

    function open(cell, found) {
        const { units } = page.data("courses");
        const printed = Number(cell.dataset.value);
        const [area, inertia, toTop, toBottom] = found.member.sections[found.place];
        const side = found.member.sides[found.place];
        heading.replaceChildren(`How the ${found.sum.name} came to be`);
        const where = page.make("p", null, page.said(found.member.name), ` at ${page.figure(found.station)} ${units.station}${side ? `, ${side}` : ""}, `,
            page.said(found.state.name), `: printed ${cell.textContent} ${units[found.sum.unit]}`);
        content.replaceChildren(where, tableOf(found, printed));
        if (isStress(found.sum)) {
            content.append(page.make("p", { class: "note" }, `Gross section: A = ${page.figure(area)} ${units.area}, I = ${page.figure(inertia)} ${units.inertia}, ` +
                `${page.figure(toTop)} ${units.size} to the top, ${page.figure(toBottom)} ${units.size} to the bottom. Compression is negative; a sagging moment ` +
                "stretches the bottom. A cause other than prestress acts on the section of its day, net of ducts or with grouted steel, so its stress is not just the " +
                "one worked out on the gross section; for prestress that difference is the part \"sections of their day\"."));
        }
        panel.showModal();
    }

    /* One cell of a table can be reached by Tab, the others from it by arrow keys. */
    function addTable(table) {
        const keys = columnsOf(table);
        const columns = keys.map((k, i) => i).filter((i) => keys[i] in SUMS || keys[i] === "demand");
        const places = new Map(); /* cell: where it is taken apart */
        for (const body of table.tBodies) {
            const group = groupOf(body);
            for (const tr of body.querySelectorAll("tr:not(.group)")) {
                const row = rowOf(tr, keys, group);
                for (const i of columns) {
                    const found = tr.cells[i].classList.contains("detail") || !tr.cells[i].dataset.value ? null : find(row, keys[i]);
                    if (found) {
                        places.set(tr.cells[i], found);
                        tr.cells[i].classList.add("opens");
                    }
                }
            }
        }
        if (places.size === 0) {
            return;
        }
        places.keys().next().value.tabIndex = 0;
        const openCell = (cell) => open(cell, places.get(cell));
        table.addEventListener("click", (event) => {
            const cell = event.target.closest("td.opens");
            if (cell) {
                openCell(cell);
            }
        });
        table.addEventListener("keydown", (event) => {
            const cell = event.target.closest("td.opens");
            if (!cell) {
                return;
            }
            if (event.key === "Enter" || event.key === " ") {
                event.preventDefault();
                openCell(cell);
                return;
            }
            const order = [...table.querySelectorAll("td.opens")];
            const across = order.indexOf(cell);
            const down = order.filter((c) => c.cellIndex === cell.cellIndex);
            const target = { ArrowLeft: order[across - 1], ArrowRight: order[across + 1], ArrowUp: down[down.indexOf(cell) - 1], ArrowDown: down[down.indexOf(cell) + 1] }[event.key];
            if (target) {
                event.preventDefault();
                cell.removeAttribute("tabindex");
                target.tabIndex = 0;
                target.focus();
            }
        });
        table.closest("figure").querySelector("figcaption").append(page.make("span", { class: "hint screen-only" }, " – a figure opens how it came to be"));
    }

    document.querySelectorAll("figure.table table").forEach(addTable);
}());
