/* 2_theme.js - light or dark, whatever the system has.
 * SPDX-License-Identifier: MIT */
(function () {
    const root = document.documentElement;
    page.controls.append(page.button("Light / dark", () => {
        const system = window.matchMedia("(prefers-color-scheme: dark)").matches;
        const dark = root.dataset.theme ? root.dataset.theme === "dark" : system;
        root.dataset.theme = dark ? "light" : "dark";
    }));
}());
