-- Drives neovim without a screen: what a person sees who opens a job, edits it and asks. Run by tests/editor/nvim.sh in a copy of the
-- examples; prints one line a check and leaves with 1 when one fails.
local program = os.getenv('ACREWRIGHT')
local failed = 0

local function check(what, good, came)
  if not good then failed = failed + 1 end
  io.stdout:write((good and 'ok: ' or 'FAILED: ') .. what .. (good and '' or '\n  came: ' .. vim.inspect(came)) .. '\n')
end

local function wait(what, until_true)
  check(what, vim.wait(20000, until_true, 5), 'nothing within 20 s')
end

vim.g.acrewright = { cmd = { program, 'editor' }, root = vim.fn.getcwd() }
vim.cmd('filetype on')
vim.cmd('source files/filetype.vim')
vim.cmd('luafile files/setup.lua')
vim.cmd('edit examples/01-first-price.job')
check('the file type is known', vim.bo.filetype == 'acrewright', vim.bo.filetype)
vim.cmd('source files/syntax.vim')
check('the words are colored', vim.fn.synIDattr(vim.fn.synID(2, 1, 1), 'name') == 'acrewrightStatement',
  vim.fn.synIDattr(vim.fn.synID(2, 1, 1), 'name'))

local buffer = vim.api.nvim_get_current_buf()
wait('the server starts', function()
  local _, client = next(vim.lsp.buf_get_clients(buffer))
  return client ~= nil and client.initialized
end)

local function ask(method, parameters)
  local answers = vim.lsp.buf_request_sync(buffer, method, parameters, 120000) or {}
  local _, answer = next(answers)
  return answer and answer.result, answer and answer.error
end
local function document() return { uri = vim.uri_from_bufnr(buffer) } end
local function at(line, character)
  return { textDocument = document(), position = { line = line, character = character } }
end
local function lines() return vim.api.nvim_buf_get_lines(buffer, 0, -1, false) end
local function text() return table.concat(lines(), '\n') .. '\n' end
local function line_of(pattern)
  for i, line in ipairs(lines()) do
    if line:find(pattern, 1, true) then return i - 1, line end
  end
end
local function lens() return ask('textDocument/codeLens', { textDocument = document() })[1].command.title end

-- What `price` says of the same text.
local function priced()
  local out = vim.fn.system({ program, 'price', '-', '--named', 'examples/01-first-price.job', '--json' }, text())
  local json = vim.fn.json_decode(out)
  if not json.price then return nil, json.title end
  return json.price.total_text .. '  ' .. json.price.per_unit_text .. ' all in'
end

-- The price, after each of fifty edits that were not saved.
check('the price stands above `job`', lens() == priced(), { lens(), priced() })
local row = line_of('set area')
local same = 0
for edit = 1, 50 do
  local acres = 60 + edit * 3
  vim.api.nvim_buf_set_lines(buffer, row, row + 1, false, { 'set area = ' .. acres .. ' ac  because "edit ' .. edit .. '"' })
  local shown, said = lens(), priced()
  if shown == said then same = same + 1 else check('edit ' .. edit, false, { shown, said }) end
end
check('fifty edits show what `price` says', same == 50, same)

-- Errors as they are typed, and their mend.
vim.api.nvim_buf_set_lines(buffer, row, row + 1, false, { 'set area = 118 h' })
wait('an error is shown', function()
  for _, one in ipairs(vim.diagnostic.get(buffer)) do
    if one.lnum == row and one.severity == vim.diagnostic.severity.ERROR then return true end
  end
end)
check('there is no price then', lens():find('^no price') ~= nil, lens())
vim.api.nvim_buf_set_lines(buffer, row, row + 1, false, { 'set aera = 118 ac' })
wait('a slip of a name is shown', function() return #vim.diagnostic.get(buffer) > 0 and
  vim.diagnostic.get(buffer)[1].lnum == row end)
local actions = ask('textDocument/codeAction', {
  textDocument = document(), context = { diagnostics = {} },
  range = { start = { line = row, character = 0 }, ['end'] = { line = row, character = 12 } } })
check('its mend is offered', actions and #actions > 0 and actions[1].kind == 'quickfix', actions)
if actions and actions[1] then
  vim.lsp.util.apply_workspace_edit(actions[1].edit, 'utf-16')
  check('the mend is made', lines()[row + 1]:find('^set area = 118 ac') ~= nil, lines()[row + 1])
end
wait('the errors go', function() return #vim.diagnostic.get(buffer) == 0 end)

-- Hover, completion, definition.
local hover = ask('textDocument/hover', at(row, 5))
check('hover tells value, place and who set it', hover and hover.contents.value:find('area = 118 ac', 1, true) ~= nil
  and hover.contents.value:find('set by the job', 1, true) ~= nil, hover)
vim.api.nvim_buf_set_lines(buffer, -1, -1, false, { 'set me', 'set depth = 5 ' })
local function labels(answer)
  local found = {}
  for _, item in ipairs(answer.items) do found[item.label] = item end
  return found
end
local names = labels(ask('textDocument/completion', at(vim.api.nvim_buf_line_count(buffer) - 2, 6)))
check('names are completed', names['method'] and names['crawler.purchase'] and not names['gallons'], vim.tbl_keys(names))
local units = labels(ask('textDocument/completion', at(vim.api.nvim_buf_line_count(buffer) - 1, 14)))
check('units of the kind are completed', units['ft'] and units['in'] and not units['gal'], vim.tbl_keys(units))
vim.api.nvim_buf_set_lines(buffer, -3, -1, false, {})
local place = ask('textDocument/definition', at(row, 5))
check('the definition is in the model', place and place.uri:find('models/deep%-rip%.rate') ~= nil, place)

-- Rename over models, and the standard layout. What a boundary sets keeps its name: a job with a map needs it.
local before = priced()
local miles = line_of('set site.miles')
local uses = ask('textDocument/references', vim.tbl_extend('error', at(miles, 10), { context = { includeDeclaration = true } }))
local edits, why = ask('textDocument/rename', vim.tbl_extend('error', at(miles, 10), { newName = 'road_miles' }))
check('a rename reaches the model and other jobs', edits and vim.tbl_count(edits.changes) > 2, why or edits)
local refused, reason = ask('textDocument/rename', vim.tbl_extend('error', at(miles, 10), { newName = 'counties' }))
check('a name that is taken is refused', refused == nil and reason ~= nil, refused)
if edits then
  local places = 0
  for _, list in pairs(edits.changes) do places = places + #list end
  check('as many places as references', places == #uses, { places, #uses })
  vim.lsp.util.apply_workspace_edit(edits, 'utf-16')
  vim.cmd('silent wall')
  check('the price is the same under the new name', priced() == before and lens() == before, { priced(), before, lens() })
end
row = line_of('set area')
vim.api.nvim_buf_set_lines(buffer, row, row + 1, false, { 'set   area=118 ac' })
local tidied = ask('textDocument/formatting', { textDocument = document(), options = { tabSize = 2, insertSpaces = true } })
vim.lsp.util.apply_text_edits(tidied or {}, buffer, 'utf-16')
local tidy = vim.fn.system({ program, 'tidy', '-' }, text())
check('formatting is `tidy`', text() == tidy and line_of('set   area') == nil, text())
local outline = ask('textDocument/documentSymbol', { textDocument = document() })
check('the statements are listed', outline and #outline > 1, outline)
local hints = ask('textDocument/inlayHint', { textDocument = document(),
  range = { start = { line = 0, character = 0 }, ['end'] = { line = 100, character = 0 } } })
check('inlay hints are answered', hints ~= nil, hints)

-- A file that vanishes is no end.
vim.fn.delete('examples/2027.season')
vim.api.nvim_buf_set_lines(buffer, -1, -1, false, { '# gone' })
wait('the season that is gone is told', function()
  for _, one in ipairs(vim.diagnostic.get(buffer)) do
    if one.code == 'F701' then return true end
  end
end)
io.stdout:write(failed .. ' failed\n')
vim.cmd(failed == 0 and 'qall!' or 'cquit 1')
