/* 3_steps.js - on every sheet whose pictures hold several steps a slider that shows one of them, in all its pictures at once; to the
 * right of the last step all are shown together, as on paper.
 * SPDX-License-Identifier: MIT */
(function () {
    function numbersOf(sheet) {
        const numbers = new Set();
        for (const group of sheet.querySelectorAll("g.step")) {
            numbers.add(Number(group.dataset.step));
        }
        return [...numbers].sort((a, b) => a - b);
    }

    /* `number`: the step, or null for all that have room. */
    function show(sheet, number) {
        sheet.classList.toggle("one-step", number !== null);
        for (const picture of sheet.querySelectorAll(".picture")) {
            const groups = picture.querySelectorAll("g.step");
            let has = false;
            for (const group of groups) {
                const is = Number(group.dataset.step) === number;
                group.classList.toggle("shown", is);
                has = has || is;
            }
            picture.classList.toggle("has-steps", groups.length > 0);
            picture.classList.toggle("not-yet", number !== null && groups.length > 0 && !has);
        }
        if (number === null) {
            delete sheet.dataset.step;
        } else {
            sheet.dataset.step = String(number);
        }
        sheet.dispatchEvent(new Event("stepchange"));
    }

    function addSlider(sheet, numbers) {
        const steps = page.data("courses").steps;
        const id = `step-of-${sheet.id}`;
        const range = page.make("input", { type: "range", id, min: 0, max: numbers.length, value: numbers.length, step: 1 });
        const name = page.make("output", { for: id });
        const move = () => {
            const at = Number(range.value);
            const number = at < numbers.length ? numbers[at] : null;
            const text = number === null ? "steps together" : `${at + 1} of ${numbers.length}: ${steps[number].name}`;
            name.replaceChildren(page.said(text));
            range.setAttribute("aria-valuetext", text);
            show(sheet, number);
        };
        const by = (change) => () => {
            range.value = String(Number(range.value) + change);
            move();
        };
        range.addEventListener("input", move);
        sheet.querySelector("h2").after(page.make("div", { class: "steps screen-only", role: "group", "aria-label": "Step of the pictures" },
            page.make("label", { for: id }, "Step"),
            page.button("‹", by(-1), { "aria-label": "Earlier step" }), range,
            page.button("›", by(1), { "aria-label": "Later step" }), name));
        move();
    }

    for (const sheet of document.querySelectorAll(".sheet")) {
        const numbers = numbersOf(sheet);
        if (numbers.length > 1) {
            addSlider(sheet, numbers);
        }
    }
}());
