/* 1_page.js - what the other scripts share: elements, the page's data, figures. Everything that can be read is there without scripts;
 * they make steps move, courses answer, figures open, tables sort, and words be found.
 * SPDX-License-Identifier: MIT */
"use strict";

const page = (function () {
    /* An element with attributes (null: left out) and children, texts or elements. */
    function make(name, attributes, ...children) {
        const element = document.createElement(name);
        for (const [key, value] of Object.entries(attributes ?? {})) {
            if (value !== null) {
                element.setAttribute(key, value);
            }
        }
        element.append(...children);
        return element;
    }

    function button(text, act, attributes) {
        const element = make("button", { type: "button", ...attributes }, text);
        element.addEventListener("click", act);
        return element;
    }

    /* Texts of the model may run from right to left and stay among themselves. */
    function said(text) {
        return make("bdi", null, text);
    }

    const read = {};
    /* A JSON element, parsed when it is first asked for. */
    function data(id) {
        read[id] ??= JSON.parse(document.getElementById(id).textContent);
        return read[id];
    }

    /* As tables round: five digits of the value, or of something larger beside it. */
    function figure(value, beside) {
        const largest = Math.max(Math.abs(value), Math.abs(beside ?? 0));
        if (!(largest > 0)) {
            return "0";
        }
        const decimals = Math.min(Math.max(4 - Math.floor(Math.log10(largest)), 0), 12);
        return Math.abs(value) < 1e-9 * largest ? "0" : value.toFixed(decimals);
    }

    function member(name) {
        return data("courses").members.find((m) => m.name === name);
    }

    /* Read aloud what has just changed. */
    const live = make("p", { class: "unseen", "aria-live": "polite", id: "told" });
    document.body.append(live);
    function tell(text) {
        live.textContent = text;
    }

    return { make, button, said, data, figure, member, tell, controls: document.getElementById("controls") };
}());
