/* 7_search.js - a word is found on all sheets: in texts, facts, tables, the model and the names in pictures.
 * SPDX-License-Identifier: MIT */
(function () {
    const LIMIT = 40;
    const PLACES = "h3, main p, dl > div, tbody tr, figcaption, .listing, .picture title, .picture text";

    const input = page.make("input", { type: "search", id: "search", autocomplete: "off", "aria-describedby": "found-count" });
    const count = page.make("p", { id: "found-count", role: "status" });
    const list = page.make("ul", { id: "found", "aria-label": "Where it was found" });
    const box = page.make("div", { role: "search", class: "screen-only" }, page.make("label", { for: "search" }, "Search the sheets"), input, count, list);
    document.getElementById("contents").prepend(box);

    let texts = null;
    /* Every place with its text in small letters, gathered at the first search. */
    function gather() {
        texts ??= [...document.querySelectorAll(PLACES)].map((element) => {
            const group = element.matches("tr:not(.group)") ? element.parentElement.querySelector("tr.group")?.textContent ?? "" : "";
            const pieces = element.matches("tr, dl > div") ? [...element.children].map((c) => c.textContent) : [element.textContent];
            const own = pieces.join(" ").replace(/\s+/g, " ").trim();
            return { element, own, text: `${group} ${own}`.toLowerCase() };
        });
        return texts;
    }

    function go(element) {
        document.querySelector(".found")?.classList.remove("found");
        const target = element.closest("tr, div.facts > div, figure, p, h3, pre") ?? element;
        target.classList.add("found");
        target.scrollIntoView({ block: "center" });
    }

    /* The words around the first hit. */
    function extract(own, words) {
        const hit = own.toLowerCase().indexOf(words[0]);
        const from = Math.max(hit - 24, 0);
        return (from > 0 ? "…" : "") + own.slice(from, from + 80) + (own.length > from + 80 ? "…" : "");
    }

    function entry(hit, words) {
        const sheet = hit.element.closest(".sheet");
        const link = page.make("a", { href: `#${sheet.id}` },
            page.make("span", { class: "number" }, sheet.dataset.number), page.make("span", null, page.said(extract(hit.own, words))));
        link.addEventListener("click", (event) => {
            event.preventDefault();
            go(hit.element);
        });
        return page.make("li", null, link);
    }

    function search() {
        const words = input.value.toLowerCase().split(/\s+/).filter((w) => w);
        if (words.length === 0) {
            list.replaceChildren();
            count.textContent = "";
            document.querySelector(".found")?.classList.remove("found");
            return;
        }
        const hits = gather().filter((t) => words.every((w) => t.text.includes(w)) && t.element.closest(".sheet"));
        list.replaceChildren(...hits.slice(0, LIMIT).map((hit) => entry(hit, words)));
        count.textContent = hits.length > LIMIT ? `${hits.length} places, the first ${LIMIT} shown` : `${hits.length} place${hits.length === 1 ? "" : "s"}`;
    }

    input.addEventListener("input", search);
    input.addEventListener("keydown", (event) => {
        if (event.key === "Enter") {
            list.querySelector("a")?.focus();
        }
    });
    document.addEventListener("keydown", (event) => {
        if (event.key === "/" && !event.target.closest("input, textarea, dialog")) {
            event.preventDefault();
            input.focus();
        }
    });
}());
