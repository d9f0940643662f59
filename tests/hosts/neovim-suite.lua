-- The tests of the language server behind Neovim's own language client (the interface of version 0.7 and later).

local tests = {}
local patience = 10000

-- Where `word` stands for the first time after `before` has, as the protocol counts: from zero. ASCII lines only.
local function place_of(buffer, word, before)
    local seen = before == nil
    for row, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, true)) do
        local from = 1
        if not seen then
            local _, stop = line:find(before, 1, true)
            seen = stop ~= nil
            from = (stop or 0) + 1
        end
        local start = seen and line:find(word, from, true)
        if start then
            return { line = row - 1, character = start - 1 }
        end
    end
    error('`' .. word .. '` does not stand in the file')
end

local function errors_of(buffer)
    return vim.diagnostic.get(buffer, { severity = vim.diagnostic.severity.ERROR })
end

local function wait_for(awaited, is_good)
    if not vim.wait(patience, is_good, 20) then
        error('waited in vain for ' .. awaited)
    end
end

local function ask(client, buffer, method, place)
    local answer, failure = client.request_sync(method, {
        textDocument = { uri = vim.uri_from_bufnr(buffer) },
        position = place,
    }, patience, buffer)
    if not answer or answer.err then
        error(method .. ' was not answered: ' .. vim.inspect(failure or answer.err))
    end
    return answer.result
end

local function test(title, body)
    local started = vim.loop.hrtime()
    local passed, message = xpcall(body, debug.traceback)
    table.insert(tests, {
        title = title,
        passed = passed,
        message = passed and '' or tostring(message),
        milliseconds = math.floor((vim.loop.hrtime() - started) / 1e6),
    })
end

local ended

local function start_client()
    local id = vim.lsp.start_client({
        name = 'halfsplit',
        cmd = { vim.env.HALFSPLIT_NODE, vim.env.HALFSPLIT_SERVER, '--stdio' },
        root_dir = vim.fn.getcwd(),
        workspace_folders = { { uri = vim.uri_from_fname(vim.fn.getcwd()), name = 'workspace' } },
        on_exit = function(code, signal)
            ended = { code = code, signal = signal }
        end,
    })
    assert(id, 'Neovim did not start the language server')
    return vim.lsp.get_client_by_id(id)
end

local function open(client, name)
    vim.cmd('edit ' .. vim.fn.fnameescape(name))
    local buffer = vim.api.nvim_get_current_buf()
    vim.bo[buffer].filetype = 'fault'
    assert(vim.lsp.buf_attach_client(buffer, client.id), 'Neovim did not attach ' .. name)
    return buffer
end

local function findings_come_and_go(client)
    local buffer = open(client, 'misspelt.fault')
    wait_for('the finding', function()
        return #errors_of(buffer) > 0
    end)
    local found = errors_of(buffer)
    assert(#found == 1, 'one finding, not ' .. vim.inspect(found))
    local place = place_of(buffer, 'socket-voltge')
    assert(found[1].lnum == place.line and found[1].col == place.character, 'its place: ' .. vim.inspect(found[1]))
    assert(found[1].message:find('`socket-voltage`', 1, true), 'it names the similar test: ' .. found[1].message)
    local code = found[1].user_data.lsp.code
    assert(code == 'unknown-name', 'its code: ' .. vim.inspect(code))
    local finish = place.character + #'socket-voltge'
    vim.api.nvim_buf_set_text(buffer, place.line, place.character, place.line, finish, { 'socket-voltage' })
    wait_for('the finding to go', function()
        return #errors_of(buffer) == 0
    end)
end

local function definition_is_found(client)
    local buffer = open(client, 'no-light.fault')
    local found = ask(client, buffer, 'textDocument/definition', place_of(buffer, 'socket-voltage'))
    local place = vim.tbl_islist(found) and found[1] or found
    assert(place, 'there is no definition')
    local uri = place.targetUri or place.uri
    local range = place.targetSelectionRange or place.range
    local declaring = vim.uri_to_bufnr(uri)
    vim.fn.bufload(declaring)
    local expected = place_of(declaring, 'socket-voltage', '    test light')
    assert(uri:find('reading%-lamp%.fault$'), uri)
    assert(vim.deep_equal(range.start, expected), vim.inspect(range.start) .. ' is not ' .. vim.inspect(expected))
end

local function tests_are_completed(client)
    local buffer = open(client, 'no-light.fault')
    local found = ask(client, buffer, 'textDocument/completion', place_of(buffer, 'socket-voltage'))
    local labels = {}
    for _, item in ipairs(found.items or found) do
        labels[item.label] = true
    end
    assert(labels['light'] and labels['socket-voltage'], 'both tests are offered, not ' .. vim.inspect(vim.tbl_keys(labels)))
end

local function server_ends(client)
    client.stop()
    wait_for('the server to end', function()
        return ended ~= nil
    end)
    assert(ended.code == 0 and ended.signal == 0, 'it ended with ' .. vim.inspect(ended))
end

local client
test('the server starts', function()
    client = start_client()
    wait_for('the server to answer', function()
        return client.initialized
    end)
end)
if client ~= nil then
    local bodies = {
        { 'a misspelt name is reported, and the finding goes when it is mended', findings_come_and_go },
        { 'the definition of a test in another file is found', definition_is_found },
        { 'the names of tests are completed', tests_are_completed },
        { 'the server ends with status 0 when it is told to', server_ends },
    }
    for _, entry in ipairs(bodies) do
        test(entry[1], function()
            entry[2](client)
        end)
    end
end

local failed = vim.tbl_filter(function(result)
    return not result.passed
end, tests)
vim.fn.writefile({ vim.json.encode(tests) }, vim.env.HALFSPLIT_RESULTS)
vim.cmd(#failed == 0 and 'qall!' or 'cquit!')
