/* 4_reading.js - courses along a member answer: a pointer or a finger on a plot reads the station beside it and the value of every step
 * that is shown there; so do the arrow keys when a picture has the focus. Values are those of the tables, at stations that
 * were computed; nothing is read between them.
 * SPDX-License-Identifier: MIT */
(function () {
    const SVG = "http://www.w3.org/2000/svg";

    function fieldOf(group) {
        const d = group.dataset;
        const number = (key) => Number(d[key]);
        return {
            group, quantity: d.quantity, x0: number("x0"), x1: number("x1"), px0: number("px0"), px1: number("px1"),
            y0: number("y0"), y1: number("y1"), py0: number("py0"), py1: number("py1"),
        };
    }

    const acrossOf = (f, x) => f.px0 + (x - f.x0) / (f.x1 - f.x0) * (f.px1 - f.px0);
    const upOf = (f, y) => f.py0 + (y - f.y0) / (f.y1 - f.y0) * (f.py1 - f.py0);

    /* The row nearest to a station; of two at one place (a jump) the one on the pointer's side. */
    function nearest(stations, station) {
        let best = 0;
        for (let i = 1; i < stations.length; i++) {
            const nearer = Math.abs(stations[i] - station) < Math.abs(stations[best] - station);
            const behind = stations[i] === stations[best] && station > stations[i];
            best = nearer || behind ? i : best;
        }
        return best;
    }

    /* The numbers of the states a picture shows now. */
    function shownOf(picture, sheet) {
        const steps = page.data("courses").steps;
        const grouped = new Set();
        for (const group of picture.querySelectorAll("g.step:not(.folded)")) {
            grouped.add(Number(group.dataset.step));
        }
        if (sheet.dataset.step !== undefined && grouped.size > 0) {
            return [Number(sheet.dataset.step)];
        }
        const loaded = [...picture.querySelectorAll("svg > polyline")].some((p) => /^c\d$/.test(p.getAttribute("class"))); /* cases, combinations */
        return steps.map((s) => s.number).filter((n) => grouped.has(n) || (loaded && steps[n].stage === ""));
    }

    function mark(field, x, values) {
        const layer = document.createElementNS(SVG, "g");
        const put = (name, attributes) => {
            const element = document.createElementNS(SVG, name);
            for (const [key, value] of Object.entries(attributes)) {
                element.setAttribute(key, value);
            }
            layer.append(element);
        };
        layer.setAttribute("class", "reading-mark");
        put("line", { x1: x, x2: x, y1: field.py0, y2: field.py1 });
        for (const value of values) {
            put("circle", { cx: x, cy: upOf(field, value), r: 3.5 });
        }
        return layer;
    }

    function addReading(picture) {
        const sheet = picture.closest(".sheet");
        const member = page.member(picture.dataset.member);
        const svg = picture.querySelector("svg");
        const fields = [...picture.querySelectorAll("g.field[data-quantity]")].map(fieldOf);
        if (!member || fields.length === 0 || !fields.every((f) => member[f.quantity])) {
            return;
        }
        const units = page.data("courses").units;
        const steps = page.data("courses").steps;
        const box = page.make("div", { class: "reading", hidden: "" });
        const scroll = picture.querySelector(".scroll");
        let at = -1;
        let layers = [];
        picture.append(box);
        scroll.setAttribute("aria-label", `${picture.dataset.name} along ${member.name}: arrow keys read values`);

        function hide() {
            box.hidden = true;
            at = -1;
            layers.forEach((l) => l.remove());
            layers = [];
        }

        function rowsOf(field, index) {
            const shown = shownOf(picture, sheet).filter((n) => member[field.quantity][n]);
            return shown.map((n) => ({ step: steps[n], value: member[field.quantity][n][index] })).filter((r) => r.value !== null);
        }

        function tableOf(field, rows) {
            const unit = units[field.quantity] ?? units[field.quantity.split("_from_")[0]];
            const largest = Math.max(...rows.map((r) => Math.abs(r.value)));
            const table = page.make("table", { "data-quantity": field.quantity });
            table.append(page.make("caption", null, `${field.quantity.replaceAll("_", " ")}, ${unit}`));
            for (const r of rows) {
                table.append(page.make("tr", { "data-step": r.step.number },
                    page.make("th", { scope: "row" }, page.said(r.step.name)),
                    page.make("td", { "data-value": r.value }, page.figure(r.value, largest))));
            }
            return table;
        }

        function read(index) {
            hide();
            at = index;
            const station = member.stations[index];
            const side = member.sides[index] ? `, ${member.sides[index]} of the place` : "";
            const parts = fields.map((f) => ({ field: f, rows: rowsOf(f, index) })).filter((p) => p.rows.length > 0);
            box.replaceChildren(page.make("p", { "data-station": station, "data-side": member.sides[index] }, `station ${page.figure(station)} ${units.station}${side}`),
                ...parts.map((p) => tableOf(p.field, p.rows)));
            const x = acrossOf(fields[0], station);
            for (const p of parts) {
                const layer = mark(p.field, x, p.rows.map((r) => r.value));
                svg.append(layer);
                layers.push(layer);
            }
            box.hidden = false;
            place(x);
            return parts;
        }

        /* Beside the mark, on the side that has room. */
        function place(x) {
            const frame = picture.getBoundingClientRect();
            const drawn = svg.getBoundingClientRect();
            const left = drawn.left - frame.left + x / svg.viewBox.baseVal.width * drawn.width;
            const room = frame.width - left > box.offsetWidth + 24;
            box.style.left = `${Math.max(room ? left + 14 : left - box.offsetWidth - 14, 0)}px`;
            box.style.top = `${drawn.top - frame.top + 8}px`;
        }

        function follow(event) {
            const matrix = svg.getScreenCTM();
            const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse());
            const f = fields[0];
            if (p.x < f.px0 - 8 || p.x > f.px1 + 8) {
                hide();
                return;
            }
            const index = nearest(member.stations, f.x0 + (p.x - f.px0) / (f.px1 - f.px0) * (f.x1 - f.x0));
            if (index !== at) {
                read(index);
            }
        }

        svg.addEventListener("pointermove", follow);
        svg.addEventListener("pointerdown", follow);
        svg.addEventListener("pointerleave", (event) => event.pointerType === "mouse" && hide());
        scroll.addEventListener("blur", hide);
        sheet.addEventListener("stepchange", hide);
        scroll.addEventListener("keydown", (event) => {
            const moves = { ArrowLeft: Math.max(at - 1, 0), ArrowRight: Math.min(at + 1, member.stations.length - 1), Home: 0, End: member.stations.length - 1 };
            if (event.key === "Escape") {
                hide();
            } else if (event.key in moves) {
                event.preventDefault();
                const parts = read(moves[event.key]);
                const last = (p) => `${p.field.quantity.replaceAll("_", " ")} ${page.figure(p.rows.at(-1).value)}, ${p.rows.at(-1).step.name}`;
                page.tell(`station ${page.figure(member.stations[at])} ${units.station}: ${parts.map(last).join("; ")}`);
            }
        });
    }

    for (const picture of document.querySelectorAll(".picture[data-member]")) {
        addReading(picture);
    }
}());
