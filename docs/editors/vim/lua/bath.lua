-- Starts `potash editor` for the buffer, one for each folder of formulas.
local M = {}
local clients = {}

local function root_of(path)
  local folder = vim.fn.fnamemodify(path, ':p:h')
  local git = vim.fn.finddir('.git', folder .. ';')
  return git ~= '' and vim.fn.fnamemodify(git, ':p:h:h') or folder
end

function M.start()
  local root = root_of(vim.api.nvim_buf_get_name(0))
  local id = clients[root]
  if not (id and vim.lsp.get_client_by_id(id)) then
    id = vim.lsp.start_client({ name = 'potash', cmd = { 'potash', 'editor' }, root_dir = root, workspace_folders = { { uri = vim.uri_from_fname(root), name = root } } })
    clients[root] = id
  end
  if id then vim.lsp.buf_attach_client(0, id) end
end

return M
