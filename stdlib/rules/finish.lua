--- What is promised against what the chain can give.
local abrasive = require "native.abrasive"
local chain = require "core.chain"

local FIRST = { -- starting grits by exposure
  ["coarse aggregate"] = { 40, "coarse aggregate starts at 16-20" },
  ["fine aggregate"] = { 80, "salt and pepper starts at 40-80" },
}

local function tools_of(recipe)
  local tools, first, finish = {}, nil, "bare"
  for _, step in ipairs(recipe.steps) do
    local tool = chain.tool(step)
    if tool and step.word ~= "burnish" then
      first = first or step
      tool.cleared = true
      tools[#tools + 1] = tool
    end
    if step.word == "burnish" and finish == "bare" then finish = "burnished" end
    if step.word == "guard" then finish = "guarded" end
  end
  return tools, first, finish
end

local function finish_field(recipe, field)
  local finish = recipe.record.values.finish
  return finish and finish.values[field], finish and finish.at[field]
end

return {
  {
    id = "gloss-promise", level = "error", scope = "recipe",
    says = "the gloss promised can be reached by the chain: the trade's band for the last abrasive, burnish and guard",
    basis = "expected gloss by last step, common practice; Fresnel ceiling of a smooth surface. A model is no measurement: read a mock-up",
    check = function(recipe, report)
      local promise, at = finish_field(recipe, "gloss")
      local tools, _, finish = tools_of(recipe)
      if not promise or not promise.low or #tools == 0 then return end
      local low, high = abrasive.sheen(tools, finish)
      if low and promise.low > high then
        report { at = at, message = ("a gloss of %g is promised; this chain gives about %.0f to %.0f"):format(promise.low,
          low, high), help = "add finer steps, burnish, or promise less" }
      elseif low and promise.low > low then
        report { level = "warning", at = at, message = ("a gloss of %g is promised; this chain gives about %.0f to %.0f, so some floors will miss it")
          :format(promise.low, low, high), help = "settle it on a mock-up, or add a finer step" }
      end
    end,
  },
  {
    id = "first-tool", level = "warning", scope = "recipe",
    says = "the first abrasive is coarse enough for the exposure promised",
    basis = "starting grit by exposure: coarse aggregate 16-20, salt and pepper 40-80, cream 150; tool supplier's guide",
    check = function(recipe, report)
      local exposure, at = finish_field(recipe, "exposure")
      local limit = FIRST[exposure]
      local _, first = tools_of(recipe)
      local tool = first and chain.tool(first)
      if limit and tool and tool.grit > limit[1] then
        report { at = chain.at(first, "grit"), message = ("%s is promised, and the first abrasive is grit %g"):format(
          exposure, tool.grit), labels = { { at = at, text = "promised here" } }, help = limit[2] }
      end
    end,
  },
}
