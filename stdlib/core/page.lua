--- Text of the manual: folding, and fields as lines, as rows of a table, as types for editors.
local page = {}

--- Folds a text at spaces; lines after the first begin with `indent` blanks.
function page.fold(text, width, indent)
  local lines, line = {}, ""
  for word in text:gmatch("%S+") do
    if #line > 0 and #line + 1 + #word > width - indent then
      lines[#lines + 1] = line
      line = word
    else
      line = #line > 0 and line .. " " .. word or word
    end
  end
  lines[#lines + 1] = line
  return table.concat(lines, "\n" .. (" "):rep(indent))
end

--- A name, and a text folded beside it.
function page.row(name, text, column)
  return "  " .. name .. (" "):rep(math.max(1, column - 2 - #name)) .. page.fold(text, 80, column) .. "\n"
end

local function default_text(field)
  if field.required then return "required" end
  if field.default == nil then return "may be left out" end
  return ("else %s (%s)"):format(type(field.default) == "string" and '"' .. field.default .. '"' or tostring(field.default),
    field.basis)
end

local function type_text(kind)
  if kind.names and #kind.names <= 12 then return "one of " .. table.concat(kind.names, ", ") end
  if kind.list then return "a list of " .. kind.list.says end
  if kind.map and kind.map.figure then return "names, each with " .. kind.map.says end
  if kind.map and kind.map.either then return "names, each with " .. kind.map.says end
  return kind.says
end

local function limits_text(kind)
  if kind.bounds then return ", " .. kind.bounds end
  if kind.low and kind.high then return (", %s to %s"):format(kind.low, kind.high) end
  if kind.low then return (", at least %s"):format(kind.low) end
  if kind.high then return (", at most %s"):format(kind.high) end
  return ""
end

--- Appends the fields as lines for a terminal.
function page.field_lines(fields, out, depth)
  local column = 18 + 2 * depth
  for _, field in ipairs(fields) do
    local text = ("%s; %s%s; %s"):format(field.says, type_text(field[2]), limits_text(field[2]), default_text(field))
    out[#out + 1] = (" "):rep(2 * depth) .. page.row(field[1], text, 18):gsub("\n" .. (" "):rep(18), "\n" .. (" "):rep(column))
    local inner = field[2].fields or (field[2].map and field[2].map.fields) or (field[2].map and field[2].map.list and field[2].map.list.fields)
    if inner then page.field_lines(inner, out, depth + 1) end
  end
end

--- Text for a cell of a table in Markdown.
function page.escaped(text) return (text:gsub("|", "\\|")) end

--- Appends the fields as rows of a table in Markdown: name, type, meaning, default.
function page.field_table(fields, prefix, out)
  for _, field in ipairs(fields) do
    out[#out + 1] = ("| `%s%s` | %s%s | %s | %s |\n"):format(prefix, field[1], page.escaped(type_text(field[2])), limits_text(field[2]),
      page.escaped(field.says), page.escaped(default_text(field)))
    local kind = field[2]
    if kind.fields then page.field_table(kind.fields, prefix .. field[1] .. ".", out) end
    if kind.map and kind.map.fields then page.field_table(kind.map.fields, prefix .. field[1] .. ".*.", out) end
    if kind.map and kind.map.list and kind.map.list.fields then
      page.field_table(kind.map.list.fields, prefix .. field[1] .. ".*[].", out)
    end
  end
end

--- The type of a field in a definition file for Lua editors.
function page.cats_type(kind)
  if kind == nil then return "any" end
  if kind.says == "true or false" then return "boolean" end
  if kind.window then return "gritwork.value|gritwork.window" end
  if kind.kind then return "gritwork.value" end
  if kind.names then
    local quoted = {}
    for i, name in ipairs(kind.names) do quoted[i] = ('"%s"'):format(name) end
    return table.concat(quoted, "|")
  end
  if kind.says == "a number" or kind.says == "a whole number" then return "number" end
  if kind.document then return "gritwork." .. kind.document end
  if kind.list then return ("(%s)|(%s)[]"):format(page.cats_type(kind.list), page.cats_type(kind.list)) end
  if kind.fields or kind.map then return "table" end
  if kind.says == "a function" then return "function" end
  return kind.says == "a value" and "any" or "string"
end

return page
