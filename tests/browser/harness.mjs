/* harness.mjs - tests that count: each has a name and fails by throwing.
 * SPDX-License-Identifier: MIT */
import { execFileSync } from "node:child_process";

const tests = [];
export const test = (name, act) => tests.push({ name, act });

/* Run all, tell those that fail. @return the number that failed */
export async function runTests(context) {
    let failed = 0;
    for (const { name, act } of tests) {
        try {
            await act(context);
        } catch (error) {
            failed++;
            console.log(`FAILED ${name}\n    ${String(error.message).split("\n").slice(0, 12).join("\n    ")}`);
        }
    }
    console.log(`browser: ${tests.length - failed} passed, ${failed} failed`);
    return failed;
}

/* What the program prints; checks and expectations may fail (exit status 1). */
export function kernline(...words) {
    try {
        return execFileSync(process.env.KERNLINE, words, { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"], maxBuffer: 1e9 });
    } catch (error) {
        if (error.status === 1) {
            return error.stdout;
        }
        throw error;
    }
}

/* Rows of a table as objects by the heads without their units. */
export function csvOf(text) {
    const lines = text.trim().split(/\r?\n/).map((line) => [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map((m) => m[1])
        .map((cell) => (cell.startsWith("\"") ? cell.slice(1, -1).replaceAll("\"\"", "\"") : cell)));
    const heads = lines[0].map((h) => h.replace(/ \(.*\)$/, ""));
    return lines.slice(1).map((line) => Object.fromEntries(heads.map((h, i) => [h, line[i]])));
}
