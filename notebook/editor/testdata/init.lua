-- Opens a file of a journal in an editor, waits for the server's diagnostics, asks for
-- a hover, a completion, a definition and a rename, types a correction, and writes what
-- came of it to a file, a line each.
local out = {}
local function say(what, value)
  table.insert(out, what .. ": " .. tostring(value):gsub("\n", " "))
end

local function finish()
  local f = io.open(vim.env.REPORT, "w")
  f:write(table.concat(out, "\n") .. "\n")
  f:close()
  vim.cmd("qall!")
end

local function wait(what, ok)
  if not vim.wait(20000, ok, 20) then
    say("waited in vain for", what)
    finish()
  end
end

local function guarded(f)
  local ok, err = xpcall(f, debug.traceback)
  if not ok then
    say("error", err)
  end
  finish()
end

guarded(function()
  vim.cmd("edit " .. vim.fn.fnameescape(vim.env.FOLDER .. "/journal.md"))
  local id = vim.lsp.start_client({ name = "scarph", cmd = { vim.env.SERVER }, root_dir = vim.env.FOLDER })
  vim.lsp.buf_attach_client(0, id)
  local client = vim.lsp.get_client_by_id(id)
  wait("initialize", function() return client.initialized end)
  say("encoding", client.offset_encoding)

  local function at(line, character)
    return { textDocument = vim.lsp.util.make_text_document_params(), position = { line = line, character = character } }
  end
  local function ask(method, params)
    local answer, err = vim.lsp.buf_request_sync(0, method, params, 20000)
    if not answer or not answer[id] then
      say(method .. " failed", err)
      return nil
    end
    if answer[id].error then
      say(method .. " failed", vim.inspect(answer[id].error))
    end
    return answer[id].result
  end

  local line = vim.fn.search("^inside") - 1
  local hover = ask("textDocument/hover", at(line, 2))
  say("hover", hover and hover.contents.value)
  local list = ask("textDocument/completion", at(line, 11))
  say("completion", list and list.items[1].label)
  local places = ask("textDocument/definition", at(line, 11))
  say("definition", places and vim.uri_to_fname(places[1].uri):match("[^/]+$"))

  vim.api.nvim_buf_set_lines(0, line, line, false, { "planking = 1/2\"" })
  wait("a diagnostic", function() return #vim.diagnostic.get(0, { severity = vim.diagnostic.severity.ERROR }) > 0 end)
  say("diagnostic", vim.diagnostic.get(0, { severity = vim.diagnostic.severity.ERROR })[1].message)
  vim.api.nvim_buf_set_lines(0, line, line + 1, false, {})
  wait("no diagnostic", function() return #vim.diagnostic.get(0, { severity = vim.diagnostic.severity.ERROR }) == 0 end)

  local edit = ask("textDocument/rename", vim.tbl_extend("force", at(line, 2), { newName = "clear" }))
  vim.lsp.util.apply_workspace_edit(edit, client.offset_encoding)
  say("renamed", vim.api.nvim_buf_get_lines(0, line, line + 1, false)[1])
  local edits = ask("textDocument/formatting", { textDocument = vim.lsp.util.make_text_document_params(), options = { tabSize = 4, insertSpaces = true } })
  vim.lsp.util.apply_text_edits(edits, 0, client.offset_encoding)
  say("laid out", vim.api.nvim_buf_get_lines(0, line - 2, line - 1, false)[1])

  -- another program writes to the file while there is an unsaved edit
  local text = table.concat(vim.fn.readfile(vim.env.FOLDER .. "/journal.md"), "\n") .. "\n"
  local changed = text:gsub("planking, 8", "planking, 10")
  local f = io.open(vim.env.FOLDER .. "/journal.md", "w")
  f:write(changed)
  f:close()
  wait("what was written", function()
    return table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\n"):find("planking, 10", 1, true) ~= nil
  end)
  say("brought over", table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\n"):find("clear = beam") ~= nil)

  client.stop()
  wait("the end", function() return client.is_stopped() end)
  say("stopped", true)
end)
