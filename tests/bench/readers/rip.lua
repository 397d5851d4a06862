-- The model of rip.rate for LuaJIT: points from a file of doubles, nanoseconds a job and a sum to compare.
local ffi = require("ffi")
ffi.cdef[[ typedef struct { long s, ns; } stamp; int clock_gettime(int, stamp*); ]]
local file = assert(io.open(arg[1], "rb"))
local lanes = tonumber(arg[2])
local bytes = file:read("*a")
local column = {}
for k = 0, 24 do
  column[k] = ffi.new("double[?]", lanes)
  ffi.copy(column[k], bytes:sub(k * lanes * 8 + 1, (k + 1) * lanes * 8), lanes * 8)
end
local floor, abs, min, max, sqrt, log, exp = math.floor, math.abs, math.min, math.max, math.sqrt, math.log, math.exp
local function ceiling(x)
  local whole = floor(x)
  local dust = min(max(1e-9 * abs(x), 1e-9), 1e-3)
  return x - whole > dust and whole + 1 or whole
end
local xs, ys = {5, 15, 25, 35, 45, 60}, {210, 270, 345, 430, 520, 610}
local function bite(c)
  if c <= xs[1] then return ys[1] end
  for k = 1, 5 do
    if c < xs[k + 1] then return ys[k] + (c - xs[k]) * (ys[k + 1] - ys[k]) / (xs[k + 1] - xs[k]) end
  end
  return ys[6]
end
local function rip(area, run, spacing, depth, speed, turn, clay, moisture, power, slip, age, use, price_new, interest, insurance, shift,
                   fuel_price, wage, burden, shank_price, point_life, haul, haul_rate, overhead, margin)
  local pulls = ceiling(area * 43560 / (run * spacing))
  local travel = pulls * run / 5280
  local wet = moisture > 18 and 1.18 or moisture < 8 and 1.25 or 1 + ((13 - moisture) / 100) ^ 2 * 4
  local pull = bite(clay) * wet * depth * 12 * (depth / 3) ^ 1.28
  local drawbar = power * 0.72 * (1 - slip / 100)
  local going = min(speed, drawbar * 375 / pull)
  local load = max(0.25, min(1, pull * going / (drawbar * 375)))
  local burn = power * 0.052 * load * (0.9 + 0.35 * load - 0.21 * sqrt(0.6 * load + 0.1))
  local hours = age * use
  local kept = max(0.08, (1.02 - 0.09 * sqrt(age) - 0.0011 * sqrt(use)) ^ 2)
  local worth, after = price_new * kept, price_new * max(0.07, kept * exp(-0.11))
  local owning = (worth - after + (worth + after) / 2 * (interest + insurance) / 100) / use
  local repair = price_new * 0.0034 * (((hours + use) / 1000) ^ 1.62 - (hours / 1000) ^ 1.62) / use
  local pull_time, turn_time = travel / going, pulls * turn / 60
  local machine_hours = (pull_time + turn_time) * (1 + 0.06 * log(1 + pull_time / 10))
  local idle = ceiling(machine_hours / shift) * shift - machine_hours
  local crew = wage * (1 + burden / 100)
  local extra = 1 + 0.5 * max(0, shift - 8) / shift
  local grit = clay > 40 and moisture < 12 and 1.35 or (clay > 40 or depth > 6) and 1.15 or 1
  local point_hours = point_life / grit
  local by_the_hour = burn * fuel_price * 1.12 + owning + repair + 420 / point_hours
                      + shank_price / (point_hours * 14 * (3 / depth) ^ 0.6) + crew * extra
  local trips = area > 400 and 2 or 1
  local cost = by_the_hour * machine_hours + crew * 0.6 * idle + 180 * trips + haul_rate * haul * 2 * trips
  return max(6500, cost * (1 + overhead / 100) / (1 - margin / 100)) / area
end
local function all()
  local sum = 0
  local c = column
  for i = 0, lanes - 1 do
    sum = sum + rip(c[0][i], c[1][i], c[2][i], c[3][i], c[4][i], c[5][i], c[6][i], c[7][i], c[8][i], c[9][i], c[10][i], c[11][i], c[12][i],
                    c[13][i], c[14][i], c[15][i], c[16][i], c[17][i], c[18][i], c[19][i], c[20][i], c[21][i], c[22][i], c[23][i], c[24][i])
  end
  return sum
end
local stamp = ffi.new("stamp")
local function now() ffi.C.clock_gettime(1, stamp); return tonumber(stamp.s) * 1e9 + tonumber(stamp.ns) end
local best, sum = 1e18, 0
for _ = 1, 30 do
  local start = now()
  sum = all()
  best = min(best, now() - start)
end
print(string.format("%.3f %.17g", best / lanes, sum))
