-- documents.lua BUILD - the papers of a bid in the programs that people open them with: two spreadsheets reckon the
-- workbook again, a browser shows the HTML at phone, A4 and Letter width, PDF tools read the PDF. Run by `make
-- test-documents`, which installs those programs.
local build = arg[1]
package.path = "tests/?.lua;" .. package.path
local json = require "json"

local folder = build .. "/tests/documents"
local JOBS = { north_hall = { prices = "house_us", from = "$34/h", to = "$37.13/h", was = "34", is = "37.13" },
               mill_annex = { prices = "house_metric", from = "€29/h", to = "€31.47/h", was = "29", is = "31.47" } }
local passed, failed = 0, 0

local function output(command)
  local pipe = io.popen(command .. " 2>&1")
  local text = pipe:read("a")
  local _, _, status = pipe:close()
  return text, status
end

local function check(condition, what, text)
  if condition then passed = passed + 1 return end
  failed = failed + 1
  print("-- " .. what .. "\n" .. (text or ""))
end

local function content(name)
  local file = assert(io.open(name, "rb"))
  local text = file:read("a")
  file:close()
  return text
end

local function write(name, text)
  local file = assert(io.open(name, "wb"))
  file:write(text)
  file:close()
end

local function bid(out, job)
  local said, status = output(("%s/gritwork bid --effort=1 --out=%s/%s %s"):format(build, folder, out, job))
  check(status == 0, out .. " makes a bid", said)
  return json.read(content(("%s/%s/bid.json"):format(folder, out)))
end

-- ---- the workbook

-- A line of CSV as a list of cells.
local function cells(line)
  local list, at = {}, 1
  while at <= #line + 1 do
    if line:sub(at, at) == '"' then
      local stop = at + 1
      while line:sub(stop, stop) ~= '"' or line:sub(stop + 1, stop + 1) == '"' do
        stop = stop + (line:sub(stop, stop) == '"' and 2 or 1)
      end
      local quoted = line:sub(at + 1, stop - 1):gsub('""', '"')
      list[#list + 1], at = quoted, stop + 2
    else
      local stop = line:find(",", at, true) or #line + 1
      list[#list + 1], at = line:sub(at, stop - 1), stop + 1
    end
  end
  return list
end

-- LibreOffice asks its settings whether to reckon a file that another program made; they say always (0).
local SETTINGS = [[<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
  xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance"><item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop
  oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item></oor:items>
]]

local OFFICE = "timeout 120 soffice -env:UserInstallation=file://%s/office --headless --convert-to "
  .. "'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false' --outdir %s %s" -- commas, UTF-8, values as they are

local function absolute(name) return (output("realpath " .. name)):match("[^\n]+") end

local SPREADSHEETS = {
  gnumeric = function(book, csv) return output(("ssconvert --recalc %s %s"):format(book, csv)) end,
  libreoffice = function(book, csv)
    output(("mkdir -p %s/office/user"):format(folder))
    write(folder .. "/office/user/registrymodifications.xcu", SETTINGS)
    local said, status = output(OFFICE:format(absolute(folder), folder, book))
    local made = folder .. "/" .. book:match("([^/]+)%.xlsx$") .. ".csv"
    return said, os.rename(made, csv) and status
  end,
}

-- The first sheet as a spreadsheet reckons it: amount by the code of the line.
local function reckoned(book, spreadsheet)
  local csv = folder .. "/price.csv"
  os.remove(csv)
  local said, status = SPREADSHEETS[spreadsheet](book, csv)
  check(status == 0, spreadsheet .. " opens " .. book, said)
  if status ~= 0 then return {} end
  local amounts = {}
  for line in io.lines(csv) do
    local row = cells(line)
    if tonumber(row[6]) then amounts[row[1]] = tonumber(row[6]) end
  end
  return amounts
end

local function cents(value) return value and math.floor(value * 100 + 0.5) end

local function check_workbook(name, data, job, spreadsheet)
  local amounts = reckoned(("%s/%s/bid.xlsx"):format(folder, name), spreadsheet)
  local what = name .. ", " .. spreadsheet
  local cost = json.read((output(("%s/gritwork cost --effort=1 --json %s"):format(build, job))))
  local wrong = {}
  for _, list in ipairs { cost.lines, cost.build } do
    for _, line in ipairs(list) do
      if not amounts[line.code] or cents(amounts[line.code]) ~= cents(line.amount) then
        wrong[#wrong + 1] = ("%s: %s, not %s"):format(line.code, tostring(amounts[line.code]), line.amount)
      end
    end
  end
  check(#cost.lines > 15 and #wrong == 0, what .. ": each line is reckoned to the cent", table.concat(wrong, "\n"))
  check(cents(amounts["direct cost"]) == cents(data.direct), what .. ": and the direct cost")
  check(cents(amounts.price) == cents(data.price) and cents(amounts.Price) == cents(data.price), what .. ": and the price")
end

-- Puts another wage into the workbook, as an estimator would, and takes away the results kept beside the formulas.
local CHANGE = [[
import re, sys, zipfile
book, out, was, now = sys.argv[1:]
with zipfile.ZipFile(book) as old, zipfile.ZipFile(out, "w") as new:
    for name in old.namelist():
        text = old.read(name)
        if name == "xl/worksheets/sheet1.xml":
            text = text.decode()
            text, count = re.subn(r'(<c r="E\d+" s="\d+"><v>)%s(</v>)' % re.escape(was), r"\g<1>%s\g<2>" % now, text, count=1)
            assert count == 1
            text = re.sub(r"(</f>)<v>[^<]*</v>", r"\1", text).encode()
        new.writestr(name, text)
]]

local function check_change(name, change)
  local recipes = folder .. "/recipes"
  local book = ("%s/prices/%s.lua"):format(recipes, change.prices)
  output(("rm -rf %s && cp -r recipes %s"):format(recipes, recipes))
  local text = content(book)
  local changed = text:gsub("operator = \"" .. change.from:gsub("%p", "%%%0") .. "\"", 'operator = "' .. change.to .. '"')
  check(changed ~= text, name .. ": the wage was found in the price book")
  write(book, changed)
  local data = bid(name .. "_changed", ("%s/jobs/%s.lua"):format(recipes, name))
  write(folder .. "/change.py", CHANGE)
  local said, status = output(("python3 %s/change.py %s/%s/bid.xlsx %s/changed.xlsx %s %s"):format(folder, folder, name, folder,
    change.was, change.is))
  check(status == 0, name .. ": the workbook's wage was changed", said)
  for _, spreadsheet in ipairs { "gnumeric", "libreoffice" } do
    local amounts = reckoned(folder .. "/changed.xlsx", spreadsheet)
    check(cents(amounts.Price) == cents(data.price),
      ("%s, %s: a wage changed in the workbook moves the price as the engine would"):format(name, spreadsheet),
      ("%s, not %s"):format(amounts.Price, data.price))
  end
end

-- ---- HTML

local BROWSER = "timeout 60 chromium --headless --no-sandbox --disable-gpu --no-first-run --disable-background-networking "
  .. "--disable-component-update --disable-sync --hide-scrollbars --enable-logging=stderr --v=0 --user-data-dir=%s/browser "

local function browse(options)
  output("rm -rf " .. folder .. "/browser")
  return output(BROWSER:format(folder) .. options)
end

-- A page that shows the paper in a frame of each width and says how wide it became.
local function measured(name, widths)
  local paper = content(name):gsub("&", "&amp;"):gsub('"', "&quot;")
  local frames = {}
  for i, width in ipairs(widths) do
    frames[i] = ('<iframe width="%d" height="900" style="border:0" srcdoc="%s"></iframe>'):format(width, paper)
  end
  local page = folder .. "/measure.html"
  write(page, "<!doctype html><meta charset=utf-8><body>" .. table.concat(frames) .. [[<p id=said></p><script>
    addEventListener("load", () => { document.getElementById("said").textContent = [...document.querySelectorAll("iframe")]
      .map(f => f.width + ":" + f.contentDocument.documentElement.scrollWidth).join(" ") })</script>]])
  local absolute = (output("realpath " .. page)):match("[^\n]+")
  return browse("--dump-dom --virtual-time-budget=4000 file://" .. absolute)
end

local function check_html(name, paper)
  local file = ("%s/%s/%s"):format(folder, name, paper)
  local text = measured(file, { 360, 794, 816 }) -- a phone; A4 and Letter at 96 dots an inch
  local said = text:match('<p id="said">([^<]*)</p>')
  check(said == "360:360 794:794 816:816", ("%s %s: no paper is wider than its page"):format(name, paper), said or text:sub(-2000))
  check(not text:find("CONSOLE", 1, true), ("%s %s: the browser has nothing to complain of"):format(name, paper),
    text:match("[^\n]*CONSOLE[^\n]*"))
end

-- ---- PDF

-- Every word lies inside its page, with a margin.
local function check_inside(what, pdf)
  local boxes = output("pdftotext -bbox " .. pdf .. " -")
  local width, height, words, wrong = 0, 0, 0, nil
  for line in boxes:gmatch("[^\n]+") do
    local w, h = line:match('<page width="([%d.]+)" height="([%d.]+)"')
    if w then width, height = tonumber(w), tonumber(h) end
    local x1, y1, x2, y2 = line:match('xMin="([-%d.]+)" yMin="([-%d.]+)" xMax="([-%d.]+)" yMax="([-%d.]+)"')
    if x1 then
      words = words + 1
      if tonumber(x1) < 28 or tonumber(y1) < 28 or tonumber(x2) > width - 28 or tonumber(y2) > height - 14 then wrong = line end
    end
  end
  check(words > 100 and not wrong, what .. ": every word is inside the margins", wrong or ("%d words"):format(words))
  return width, height
end

local function check_pdf(name, paper, metric)
  local pdf, what = ("%s/%s/%s"):format(folder, name, paper), name .. " " .. paper
  local width = check_inside(what, pdf)
  check(math.abs(width - (metric and 595.276 or 612)) < 0.01, what .. ": the page is as the job's units want it", tostring(width))
  local fonts = output("pdffonts " .. pdf)
  check(fonts:find("yes yes yes") and not fonts:find("no  yes") and not fonts:find("%f[%a]no no"), what .. ": fonts are in the file", fonts)
  local sound, status = output("pdftocairo -svg -l 1 " .. pdf .. " /dev/null")
  check(status == 0 and sound == "", what .. ": a reader draws it without a word", sound)
  return (output("pdftotext -layout " .. pdf .. " -"))
end

local function money(value, sign)
  local whole, fraction = ("%.2f"):format(value):match("^(%d+)(%.%d+)$")
  whole = whole:reverse():gsub("(%d%d%d)", "%1,"):reverse():gsub("^,", "")
  return sign .. whole .. fraction
end

local function check_papers(name, data)
  local metric = data.currency == "EUR"
  local mark, price = data.fingerprint:sub(1, 16), money(data.price, metric and "€" or "$")
  local proposal = check_pdf(name, "proposal.pdf", metric)
  check(proposal:find(price, 1, true), name .. ": the proposal says the price", price)
  local _, marks = proposal:gsub(mark, "")
  local _, pages = proposal:gsub("\f", "")
  check(marks == pages and pages > 0, name .. ": each page bears the fingerprint", ("%d of %d"):format(marks, pages))
  for _, area in ipairs(data.areas) do check(proposal:find(area.name, 1, true), name .. ": the proposal has " .. area.name) end
  local crew, hoja = check_pdf(name, "crew_sheet.pdf", metric), check_pdf(name, "crew_sheet_es.pdf", metric)
  check(crew:find("HOLD: stop here until signed", 1, true), name .. ": the crew sheet has hold points")
  check(hoja:find("ALTO: no seguir sin firma", 1, true), name .. ": so has the Spanish one")
  for _, area in ipairs(data.areas) do
    check(crew:find("Area: " .. area.name, 1, true) and hoja:find("Zona: " .. area.name, 1, true), name .. ": sheets have " .. area.name)
  end
end

-- What a browser prints of the HTML, on both pages.
local function check_print(name, paper)
  for _, size in ipairs { "A4", "Letter" } do
    local file, pdf = folder .. "/print.html", folder .. "/print.pdf"
    local text = content(("%s/%s/%s"):format(folder, name, paper)):gsub("@page{", "@page{size:" .. size .. ";")
    write(file, text)
    output("rm -f " .. pdf)
    browse(("--no-pdf-header-footer --print-to-pdf=%s file://%s"):format(pdf, (output("realpath " .. file)):match("[^\n]+")))
    check_inside(("%s %s printed on %s"):format(name, paper, size), pdf)
  end
end

output(("rm -rf %s && mkdir -p %s"):format(folder, folder))
for _, name in ipairs { "north_hall", "mill_annex" } do
  local job = ("recipes/jobs/%s.lua"):format(name)
  local data = bid(name, job)
  for _, spreadsheet in ipairs { "gnumeric", "libreoffice" } do check_workbook(name, data, job, spreadsheet) end
  check_change(name, JOBS[name])
  check_papers(name, data)
  for _, paper in ipairs { "proposal.html", "package.html", "crew_sheet.html", "crew_sheet_es.html" } do check_html(name, paper) end
end
for _, paper in ipairs { "proposal.html", "package.html", "crew_sheet.html" } do check_print("north_hall", paper) end

print(("documents: %d passed, %d failed"):format(passed, failed))
os.exit(failed == 0)
