-- The language server before Neovim, and the editor files: run by `nvim --headless --clean -u` this file, from the top of the repository.
local program = os.getenv("POTASH")
if not program:find("^/") then program = vim.fn.getcwd() .. "/" .. program end
local folder = vim.fn.tempname()
local passed = 0

local developer = [[
formula "Tern"
    kind developer
    for film
    water 350 mL at 50 °C
    metol 3 g
    sodium sulfite (anhydrous) 100 g
    sodium carbonate (anhydrous) 30 g
    water to make 500 mL
    use for film
        dilute 1+9
]]

local function write(name, text)
    local file = assert(io.open(folder .. "/" .. name, "w"))
    file:write(text)
    file:close()
end

local function expect(condition, message)
    if not condition then error(message or "it is not so", 2) end
end

local function wait(what, condition)
    expect(vim.wait(20000, condition, 5), "waited in vain: " .. what .. "; diagnostics: " .. vim.inspect(vim.diagnostic.get(0)))
end

local function codes()
    local found = {}
    for _, item in ipairs(vim.diagnostic.get(0)) do table.insert(found, item.code or (item.user_data and item.user_data.lsp.code)) end
    return table.concat(found, " ")
end

local function lines()
    return table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\n") .. "\n"
end

local client

local function request(method, parameters)
    local answer, failure = vim.lsp.buf_request_sync(0, method, parameters or vim.lsp.util.make_position_params(), 20000)
    expect(answer and answer[client] and not answer[client].err, method .. ": " .. vim.inspect(failure or answer))
    return answer[client].result
end

local function go(words)
    vim.fn.cursor(1, 1)
    expect(vim.fn.search("\\V" .. words, "cW") > 0, words)
end

local function test(name, body)
    local good, message = xpcall(body, debug.traceback)
    if not good then
        io.stderr:write(name .. ": " .. message .. "\n")
        vim.cmd("cquit 1")
    end
    passed = passed + 1
end

test("a file is known by its name, coloured, and given to the server", function()
    vim.fn.mkdir(folder, "p")
    write("tern.bath", developer)
    write("cold.bath", 'read "tern.bath"\nvariant "Tern, cold"\n    of "Tern"\n')
    write("diary.bath", 'read "tern.bath"\nbatch "T-1" of "Tern"\n    mixed 2026-03-04\n    made 1 L\n')
    vim.opt.runtimepath:prepend(vim.fn.getcwd() .. "/docs/editors/vim")
    vim.env.PATH = vim.fn.fnamemodify(program, ":h") .. ":" .. vim.env.PATH
    vim.cmd("filetype plugin on | syntax on")
    vim.cmd("edit " .. folder .. "/tern.bath")
    expect(vim.bo.filetype == "bath", vim.bo.filetype)
    expect(vim.bo.commentstring == "# %s", vim.bo.commentstring)
    local group = function(words) go(words) return vim.fn.synIDattr(vim.fn.synID(vim.fn.line("."), vim.fn.col("."), 1), "name") end
    expect(group("formula") == "bathHeading", group("formula"))
    expect(group("Tern") == "bathText", group("Tern"))
    expect(group("kind") == "bathStatement", group("kind"))
    expect(group("350 mL") == "bathNumber", group("350 mL"))
    expect(group("to make") == "bathWord", group("to make"))
    wait("a client", function() return next(vim.lsp.buf_get_clients(0)) ~= nil end)
    client = next(vim.lsp.buf_get_clients(0))
end)

test("1:29 is typed, underlined, and repaired by one action", function()
    go("1+9")
    vim.cmd("normal! cW1:29")
    wait("a diagnostic", function() return codes() == "ratio-with-colon" end)
    local found = vim.diagnostic.get(0)[1]
    expect(found.lnum == 9 and found.col == 15 and found.severity == vim.diagnostic.severity.ERROR, vim.inspect(found))
    local parameters = vim.lsp.util.make_range_params()
    parameters.context = { diagnostics = {}, only = { "quickfix" } }
    local actions = request("textDocument/codeAction", parameters)
    expect(#actions == 2, vim.inspect(actions))
    vim.lsp.util.apply_workspace_edit(actions[1].edit, "utf-16")
    expect(lines():find("dilute 1+29", 1, true), lines())
    wait("no error", function() return not codes():find("ratio-with-colon", 1, true) end)
end)

test("the file is laid out as tidy does it", function()
    vim.cmd("write")
    local edits = request("textDocument/formatting", vim.lsp.util.make_formatting_params())
    vim.lsp.util.apply_text_edits(edits, 0, "utf-16")
    local tidy = vim.fn.system({ program, "tidy", folder .. "/tern.bath" })
    expect(lines() == tidy, lines() .. "\nis not\n" .. tidy)
    vim.cmd("write")
end)

test("every capability is answered", function()
    go("metol")
    expect(request("textDocument/hover").contents.value:find("metol", 1, true))
    expect(#request("textDocument/completion").items > 100)
    expect(#request("textDocument/documentHighlight") == 1)
    local parameters = vim.lsp.util.make_position_params()
    parameters.context = { includeDeclaration = true }
    expect(#request("textDocument/references", parameters) == 1)
    local text = { textDocument = vim.lsp.util.make_text_document_params() }
    expect(request("textDocument/documentSymbol", text)[1].name == "Tern")
    expect(#request("textDocument/foldingRange", text) == 2)
    expect(#request("textDocument/semanticTokens/full", text).data % 5 == 0)
    expect(#request("workspace/symbol", { query = "Tern, c" }) == 1)
    local whole = vim.lsp.util.make_given_range_params({ 1, 0 }, { vim.fn.line("$"), 0 })
    expect(request("textDocument/inlayHint", whole)[1].label == "6 g/L") -- 3 g in half a litre
    go("Tern")
    expect(request("textDocument/prepareRename").placeholder == "Tern")
    vim.cmd("edit " .. folder .. "/cold.bath")
    wait("a client", function() return vim.lsp.buf_get_clients(0)[client] ~= nil end)
    go('"Tern"')
    expect(request("textDocument/definition")[1].uri:find("tern.bath", 1, true))
    local ranged = vim.tbl_extend("force", vim.lsp.util.make_formatting_params(), vim.lsp.util.make_range_params())
    local edits = request("textDocument/rangeFormatting", ranged)
    expect(#edits == 1 and edits[1].newText == '    of     "Tern"', vim.inspect(edits)) -- this line, whatever the others are
end)

test("a title is renamed over three files", function()
    go('Tern"\\n\\|Tern"\\$')
    vim.cmd("edit! " .. folder .. "/cold.bath")
    go('of "Tern')
    vim.fn.cursor(vim.fn.line("."), vim.fn.col(".") + 5)
    local parameters = vim.lsp.util.make_position_params()
    parameters.newName = "Little tern"
    vim.lsp.util.apply_workspace_edit(request("textDocument/rename", parameters), "utf-16")
    vim.cmd("silent wall")
    for _, name in ipairs({ "tern.bath", "cold.bath", "diary.bath" }) do
        local text = table.concat(vim.fn.readfile(folder .. "/" .. name), "\n")
        expect(text:find('"Little tern"', 1, true), name .. ":\n" .. text)
    end
end)

vim.fn.delete(folder, "rf")
io.stdout:write("[  PASSED  ] " .. passed .. " test(s).\n")
vim.cmd("qall!")
