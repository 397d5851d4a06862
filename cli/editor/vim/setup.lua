-- Made by `acrewright editor --print setup`: starts the language server for every text of the notation.
local settings = vim.g.acrewright or {}

local function start(buffer)
  local root = settings.root or vim.fn.getcwd()
  local config = {
    name = 'acrewright',
    cmd = settings.cmd or { 'acrewright', 'editor' },
    root_dir = root,
    init_options = { job = settings.job, models = settings.models },
  }
  if vim.lsp.start then
    vim.lsp.start(config, { bufnr = buffer })
  else
    settings.client = settings.client or vim.lsp.start_client(config)
    vim.lsp.buf_attach_client(buffer, settings.client)
  end
end

vim.api.nvim_create_autocmd('FileType', {
  pattern = 'acrewright',
  callback = function(event)
    start(event.buf)
    vim.api.nvim_create_autocmd({ 'BufEnter', 'InsertLeave', 'TextChanged' }, {
      buffer = event.buf,
      callback = function() vim.lsp.codelens.refresh() end,
    })
  end,
})
