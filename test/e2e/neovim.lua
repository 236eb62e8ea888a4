-- Run by Neovim: opens a set with the server attached, and writes down what it is told.
-- Environment: SERVER (the bundle), NODE, SET (the file), OUT (where to write).
local out = {}
local function say(key, value) out[key] = value end

local buffer = nil
local client_id = nil

local function request(method, params)
  local answers = vim.lsp.buf_request_sync(buffer, method, params, 10000)
  local answer = answers and answers[client_id]
  return answer and answer.result or nil
end

local function position(words)
  for number, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
    local column = line:find(words, 1, true)
    if column then return { line = number - 1, character = column - 1 } end
  end
end

local function at(words)
  return { textDocument = vim.lsp.util.make_text_document_params(buffer), position = position(words) }
end

local function checks()
  local codes = {}
  for _, diagnostic in ipairs(vim.diagnostic.get(buffer)) do
    local lsp = diagnostic.user_data and diagnostic.user_data.lsp or {}
    table.insert(codes, diagnostic.code or lsp.code)
  end
  return codes
end

local function has(check)
  return vim.tbl_contains(checks(), check)
end

local ok, trouble = pcall(function()
  vim.cmd('edit ' .. vim.env.SET)
  buffer = vim.api.nvim_get_current_buf()
  client_id = vim.lsp.start_client({
    name = 'setwright',
    cmd = { vim.env.NODE, vim.env.SERVER, '--stdio' },
    root_dir = vim.fn.fnamemodify(vim.env.SET, ':h'),
    on_exit = function(code) say('exit', code) end,
  })
  vim.lsp.buf_attach_client(buffer, client_id)
  say('found', vim.wait(15000, function() return has('grid-condenser-without-leak') end, 20))
  say('before', checks())

  local hover = request('textDocument/hover', at('V1 01-A'))
  say('hover', hover and hover.contents.value)
  local definition = request('textDocument/definition', at('L1.grid.finish to'))
  say('definition', definition and definition[1] and definition[1].targetSelectionRange.start.line)
  local library = request('textDocument/definition', at('01-A'))
  say('library', library and library[1] and library[1].targetUri)

  -- An edit within the text: the client sends what has changed, not the whole.
  local line = position('condenser C3').line
  vim.api.nvim_buf_set_lines(buffer, line, line, false, { '    leak R1 2 meg from V1.grid to A+' })
  say('mended', vim.wait(15000, function() return not has('grid-condenser-without-leak') end, 20))
  say('after', checks())

  local symbols = request('textDocument/documentSymbol', { textDocument = vim.lsp.util.make_text_document_params(buffer) })
  say('symbols', symbols and symbols[1] and symbols[1].name)
  local edits = request('textDocument/formatting', {
    textDocument = vim.lsp.util.make_text_document_params(buffer),
    options = { tabSize = 2, insertSpaces = true },
  })
  say('edits', edits and #edits)
  vim.lsp.stop_client(client_id)
  vim.wait(15000, function() return out.exit ~= nil end, 20)
end)
if not ok then say('trouble', tostring(trouble)) end
local file = io.open(vim.env.OUT, 'w')
file:write(vim.json and vim.json.encode(out) or vim.fn.json_encode(out))
file:close()
vim.cmd('qall!')
