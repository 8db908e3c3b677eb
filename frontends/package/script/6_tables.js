/* 6_tables.js - tables sort by a column, within their groups, and copy as CSV with every digit and the columns that print leaves out: what
 * `kernline table --csv` writes of the same rows.
 * SPDX-License-Identifier: MIT */
(function () {
    function valueOf(cell) {
        const text = cell.dataset.value ?? cell.textContent;
        const number = Number(text);
        return text !== "" && !Number.isNaN(number) ? number : text;
    }

    function compare(a, b) {
        if (typeof a === typeof b) {
            return typeof a === "number" ? a - b : a.localeCompare(b);
        }
        return typeof a === "number" ? -1 : 1; /* texts and blanks behind numbers */
    }

    function sort(table, head, column) {
        const states = { ascending: "descending", descending: "none", none: "ascending" };
        const next = states[head.getAttribute("aria-sort") ?? "none"];
        table.querySelectorAll("thead th[aria-sort]").forEach((h) => h.removeAttribute("aria-sort"));
        if (next !== "none") {
            head.setAttribute("aria-sort", next);
        }
        for (const body of table.tBodies) {
            const rows = [...body.querySelectorAll("tr:not(.group)")];
            const order = next === "none" ? (a, b) => a.dataset.order - b.dataset.order
                : (a, b) => (next === "ascending" ? 1 : -1) * compare(valueOf(a.cells[column]), valueOf(b.cells[column]));
            body.append(...rows.sort(order));
        }
        page.tell(next === "none" ? "in the order of the model" : `sorted, ${next}`);
    }

    const quoted = (text) => (/[",\r\n]/.test(text) ? `"${text.replaceAll("\"", "\"\"")}"` : text);

    function csvOf(table) {
        const heads = [...table.tHead.rows[0].cells];
        const groups = [...new Set([...table.querySelectorAll("tr.group bdi[data-key]")].map((b) => b.dataset.key))];
        const titles = heads.map((h) => (h.dataset.unit ? `${h.dataset.key} (${h.dataset.unit})` : h.dataset.key));
        const lines = [[...groups, ...titles]];
        for (const body of table.tBodies) {
            const group = groups.map((key) => body.querySelector(`tr.group bdi[data-key="${key}"]`)?.textContent ?? "");
            for (const row of body.querySelectorAll("tr:not(.group)")) {
                lines.push([...group, ...[...row.cells].map((c) => c.dataset.value ?? c.textContent)]);
            }
        }
        return lines.map((line) => line.map(quoted).join(",")).join("\r\n") + "\r\n";
    }

    async function copy(table, button) {
        const text = csvOf(table);
        try {
            await navigator.clipboard.writeText(text);
        } catch { /* where a page from a file may not: the way of older browsers */
            const area = page.make("textarea", { class: "unseen" });
            area.value = text;
            document.body.append(area);
            area.select();
            document.execCommand("copy");
            area.remove();
            button.focus();
        }
        page.tell("copied as CSV");
        button.textContent = "Copied";
        setTimeout(() => { button.textContent = "Copy as CSV"; }, 1500);
    }

    for (const table of document.querySelectorAll("figure.table table")) {
        for (const body of table.tBodies) {
            body.querySelectorAll("tr:not(.group)").forEach((row, i) => { row.dataset.order = i; });
        }
        [...table.tHead.rows[0].cells].forEach((head, i) => {
            const sorter = page.button("", () => sort(table, head, i), { class: "sorter" });
            sorter.append(...head.childNodes);
            head.append(sorter);
        });
        const copier = page.button("Copy as CSV", () => copy(table, copier), { class: "copier screen-only" });
        table.closest("figure").querySelector("figcaption").append(" ", copier);
    }
}());
