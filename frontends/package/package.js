/* package.js - what the page does beyond being read. Everything is there without it.
 * SPDX-License-Identifier: MIT */
(function () {
    "use strict";
    var root = document.documentElement;
    var button = document.createElement("button");
    button.type = "button";
    button.textContent = "Light / dark";
    button.addEventListener("click", function () {
        var system = window.matchMedia("(prefers-color-scheme: dark)").matches;
        var dark = root.dataset.theme ? root.dataset.theme === "dark" : system;
        root.dataset.theme = dark ? "light" : "dark";
    });
    document.getElementById("controls").appendChild(button);
}());
