// Starts `potash editor` as the language server for .bath files.
const vscode = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

exports.activate = async function activate() {
    const settings = vscode.workspace.getConfiguration("potash");
    const library = settings.get("library");
    const server = { command: settings.get("command"), args: ["editor", ...(library ? ["--library", library] : [])] };
    client = new LanguageClient("potash", "Potash", server, { documentSelector: [{ language: "bath" }] });
    try {
        await client.start();
    } catch (error) {
        vscode.window.showErrorMessage(`Potash could not be started (${server.command}): ${error.message}. Is it installed? Its path can be set as potash.command.`);
    }
};

exports.deactivate = function deactivate() {
    return client ? client.stop() : undefined;
};
