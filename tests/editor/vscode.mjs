// The extension for Visual Studio Code as `make vscode` packs it: what its manifest names is there, and what it starts is the language server.
// The editor itself is not at hand: its interface is stood in for as far as the extension asks for it.
import assert from "node:assert/strict";
import { readFileSync, statSync } from "node:fs";
import Module, { createRequire } from "node:module";
import { join, resolve } from "node:path";

const folder = process.argv[2];
const extension = join(folder, "extension");
const about = JSON.parse(readFileSync(join(extension, "package.json"), "utf8"));
assert.match(about.version, /^[1-9]|^0\.[0-9]+\.[0-9]+$/);
const named = [about.main, ...about.contributes.languages.map((one) => one.configuration), ...about.contributes.grammars.map((one) => one.path)];
for (const file of named) {
    assert.ok(statSync(join(extension, file)).isFile(), file);
}
const manifest = readFileSync(join(folder, "extension.vsixmanifest"), "utf8");
assert.ok(manifest.includes(`Version="${about.version}"`) && manifest.includes(`Publisher="${about.publisher}"`));
for (const [, path] of manifest.matchAll(/Path="([^"]+)"/g)) {
    assert.ok(statSync(join(folder, path)).isFile(), path);
}
assert.ok(statSync(join(extension, "node_modules/vscode-languageclient/package.json")).isFile());

const started = [];
class LanguageClient {
    constructor(id, name, server, options) { Object.assign(this, { id, name, server, options }); }
    async start() { started.push(this); }
    async stop() { started.push("stopped"); }
}
const settings = { command: "/opt/potash", library: "" };
const stand_ins = {
    vscode: { workspace: { getConfiguration: () => ({ get: (key) => settings[key] }) }, window: { showErrorMessage: (text) => started.push(text) } },
    "vscode-languageclient/node": { LanguageClient },
};
const load = Module._load;
Module._load = (name, ...rest) => stand_ins[name] ?? load(name, ...rest);
const { activate, deactivate } = createRequire(import.meta.url)(resolve(extension, "extension.js"));
await activate();
assert.deepEqual(started[0].server, { command: "/opt/potash", args: ["editor"] });
assert.deepEqual(started[0].options.documentSelector, [{ language: "bath" }]);
await deactivate();
assert.equal(started[1], "stopped");
console.log("[  PASSED  ] 1 test(s).");
