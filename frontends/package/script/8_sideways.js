/* 8_sideways.js - what is wider than the window says so: words over it, and edges that fade where more of it lies.
 * SPDX-License-Identifier: MIT */
(function () {
    const SLACK = 2; /* px: rounding of widths */

    function watch(scroll) {
        const words = page.make("p", { class: "sideways screen-only", hidden: "" }, "Wider than the window: scroll it sideways ↔");
        scroll.before(words);
        const look = () => {
            const more = scroll.scrollWidth - scroll.clientWidth;
            words.hidden = more <= SLACK;
            scroll.classList.toggle("more-left", scroll.scrollLeft > SLACK);
            scroll.classList.toggle("more-right", scroll.scrollLeft < more - SLACK);
        };
        scroll.addEventListener("scroll", look, { passive: true });
        new ResizeObserver(look).observe(scroll);
    }

    for (const scroll of document.querySelectorAll(".sheet .scroll")) {
        watch(scroll);
    }
}());
