# The model of rip.rate for NumPy: points from a file of doubles, nanoseconds a job and a sum to compare.
import sys
import time

import numpy as np

lanes = int(sys.argv[2])
columns = np.fromfile(sys.argv[1]).reshape(25, lanes)


def ceiling(x):
    whole = np.floor(x)
    dust = np.minimum(np.maximum(1e-9 * np.abs(x), 1e-9), 1e-3)
    return np.where(x - whole > dust, whole + 1, whole)


def rip(area, run, spacing, depth, speed, turn, clay, moisture, power, slip, age, use, price_new, interest, insurance, shift, fuel_price,
        wage, burden, shank_price, point_life, haul, haul_rate, overhead, margin):
    pulls = ceiling(area * 43560 / (run * spacing))
    travel = pulls * run / 5280
    wet = np.where(moisture > 18, 1.18, np.where(moisture < 8, 1.25, 1 + ((13 - moisture) / 100) ** 2 * 4))
    bite = np.interp(clay, [5, 15, 25, 35, 45, 60], [210, 270, 345, 430, 520, 610])
    pull = bite * wet * depth * 12 * (depth / 3) ** 1.28
    drawbar = power * 0.72 * (1 - slip / 100)
    going = np.minimum(speed, drawbar * 375 / pull)
    load = np.maximum(0.25, np.minimum(1, pull * going / (drawbar * 375)))
    burn = power * 0.052 * load * (0.9 + 0.35 * load - 0.21 * np.sqrt(0.6 * load + 0.1))
    hours = age * use
    kept = np.maximum(0.08, (1.02 - 0.09 * np.sqrt(age) - 0.0011 * np.sqrt(use)) ** 2)
    worth, after = price_new * kept, price_new * np.maximum(0.07, kept * np.exp(-0.11))
    owning = (worth - after + (worth + after) / 2 * (interest + insurance) / 100) / use
    repair = price_new * 0.0034 * (((hours + use) / 1000) ** 1.62 - (hours / 1000) ** 1.62) / use
    pull_time, turn_time = travel / going, pulls * turn / 60
    machine_hours = (pull_time + turn_time) * (1 + 0.06 * np.log(1 + pull_time / 10))
    idle = ceiling(machine_hours / shift) * shift - machine_hours
    crew = wage * (1 + burden / 100)
    extra = 1 + 0.5 * np.maximum(0, shift - 8) / shift
    grit = np.where((clay > 40) & (moisture < 12), 1.35, np.where((clay > 40) | (depth > 6), 1.15, 1))
    point_hours = point_life / grit
    by_the_hour = (burn * fuel_price * 1.12 + owning + repair + 420 / point_hours
                   + shank_price / (point_hours * 14 * (3 / depth) ** 0.6) + crew * extra)
    trips = np.where(area > 400, 2, 1)
    cost = by_the_hour * machine_hours + crew * 0.6 * idle + 180 * trips + haul_rate * haul * 2 * trips
    return np.maximum(6500, cost * (1 + overhead / 100) / (1 - margin / 100)) / area


best = 1e18
for _ in range(30):
    start = time.perf_counter_ns()
    answer = rip(*columns)
    best = min(best, time.perf_counter_ns() - start)
print("%.3f %.17g" % (best / lanes, answer.sum()))
