// A firm that mows meadows: a model with a machine, two jobs, two seasons, a log, a boundary, words
// for a quote. Every command has something to do with it and is done at once. Invented, like its
// figures.
#pragma once

#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <utility>

namespace acre::tests {

using Files = std::map<std::string, std::string>; // text by name

// Where a `§` is, small_firm puts a word.
inline constexpr std::pair<const char*, const char*> firm_files[] = {
    {"models/mower.rate", R"(model "Mower§"
given hours_per_year = 400 h/yr  "meter hours a year§"  because "meter book§"
fixed_per_year : $/yr = $12,000/yr  "owning for a year§"
own_per_hour : $/h = fixed_per_year / hours_per_year  "owning§"
fleet costs fixed_per_year over hours_per_year
)"},
    {"models/mowing.rate", R"(# Mowing by the acre §.
model "Mowing by the acre§"
use "mower"

part "Field§"
  given area = 40 ac  "acres mowed§"  within 1 ac .. 1,000 ac  swing 10 ac .. 80 ac
      because "county map§"
  given pace = 5 ac/h  "pace§"  swing 4 ac/h .. 6 ac/h  because "the last three summers§"
  given spacing = 8 ft  "width of a pass§"
  given ground = flat | rough  "what the mower meets§"
  acres : ac = area  "net acres§"
  machine_hours : h = area / pace  "machine hours§"
  days : day = machine_hours / 10 h/day  "days§"
  gallons : gal = 6 gal/h * machine_hours  "diesel§"
  require pace > 1 ac/h  "slower than a man walks§"
  caution when ground is rough  "Rough ground: walk it first for stones and wire§"

part "Costs§"
  given fuel_price = $4.20/gal  "diesel§"  because "fuel dock§"
  cost owning : $/h = mower.own_per_hour over machine_hours  "owning the mower§"
  cost fuel : $/gal = fuel_price over gallons  "diesel burned§"
  cost driver : $/h = $30/h over machine_hours  "driver§"
  event stone = 0.05 1/h over machine_hours costs $180  "a stone in the blades§"

part "Haul§"
  given haul = $120  "trailer there and back§"
  cost trailer : $ = haul over 1  "trailer§"

count machine_hours of mower, acres, gallons, days
show acres, ground, days

price "Mowing" per ac of area covers "Costs§"
  overhead 10 %
  margin 20 %
  round up to $0.05/ac
price "Haul" lump covers "Haul§"
  markup 25 %

caution "Call the utility locating service where posts were pulled§"
)"},
    {"models/terms.rate", R"(library "Terms§"
choice weather = dry | wet
define mowed (speed : mi/h, width : ft) : ac/h = speed * width  "acres an hour§"
  source "Handbook of mowing§, table 3"
  known recalled
  tested speed 0.5 mi/h .. 2 mi/h
  limit width 1 ft .. 40 ft  "a scythe to a gang§"
  note "without turns§"
table slope (grade : %) : %  "loss by slope§"  below hold  above hold
  0   0
  20  30
)"},
    {"models/strips.rate", R"(model "Strips§"
use "terms"
list block "piece§"

part "Strip§" each block
  given area = 10 ac  "acres§"  swing 8 ac .. 120 ac  because "map§"
  given travel = 12 mi  "way§"
  given pulls = 30  "pulls§"
  given mean_run = 900 ft  "mean§"
  given spacing = 8 ft  "spacing§"
  given speed = 3 mi/h  "speed§"
  given sky : weather = dry  "weather§"
  layout_spacing : ft = spacing  "from line to line§"
  hours : h = area / (mowed(speed, spacing) * (1 - slope(5 %)))  "hours§"
  require speed > 1 mi/h  "slower than a man walks§"
  caution when sky is wet  "wet grass clogs§"

acres : ac = sum(area)  "all acres§"
all_hours : h = sum(hours)  "all hours§"
gallons : gal = 6 gal/h * all_hours  "diesel§"
cost work : $/h = $90/h over all_hours  "work§"

count acres, gallons
show acres, spacing

price "Strips§" per ac of acres
  margin 10 %
)"},
    {"more/blocks.job", R"(job "Two strips§"
model "strips"
for "Lisk Ranch§"
date 2027-06-20
block north "North strip§"
  set area = 11 ac  because "walked§"
block south "South strip§"
  set sky = wet
)"},
    {"more/mapped.job", R"(job "From the map§"
model "strips"
for "Lisk Ranch§"
date 2027-06-21
block mapped "Mapped strip§"
  field "long.geojson" heading 0 deg
)"},
    {"more/slow.job", R"(job "Too slow§"
model "strips"
set speed = 0.5 mi/h  because "stones§"
)"},
    {"kestrel.firm", R"(firm "Kestrel Bench Meadows§"
money USD "$" to $0.01
: line = "mowing by the acre§"
: address = "18 Bench Road§"
)"},
    {"season.season", R"(season "season 2027§"
firm "kestrel"
set fuel_price = $4.40/gal  because "fuel dock, January§"
)"},
    {"later.season", R"(season "2027, later§"
firm "kestrel"
set fuel_price = $5.40/gal  because "fuel dock, June§"
)"},
    {"meadow.job", R"(job "Creek meadow§"
model "mowing"
season "season"
for "Sable Creek Ranch§"
date 2027-06-14
set area = 60 ac  because "walked 3 June§"
option "Rough half§"
  set ground = rough
  set pace = 4 ac/h  because "stones§"
)"},
    {"bank.job", R"(job "River bank§"
model "mowing"
season "season"
for "Pell & Daughter Farms§"
date 2027-06-15
set area = 20 ac  because "county map§"
)"},
    {"log.csv",
     "date,machine,operator,meter_start,meter_stop,acres,gallons,fuel_price,down_hours,down_cause,"
     R"(amount.trailer,note
2027-06-14,mower§,Abara§,100.0,107.0,33,41,4.45,0.5,rain§,120,wet corner§
2027-06-15,mower§,Abara§,107.0,113.5,27,40,4.45,,,,
)"},
    {"bill.csv", R"(date,machine,meter_start,meter_stop,acres,gallons,note
2027-06-14,mower§,100.0,107.0,33,41,wet corner§
2027-06-15,mower§,107.0,113.5,27,40,
)"},
    {"field.geojson",
     R"({"type": "Feature", "properties": {"name": "Long meadow§"}, "geometry": {"type": "Polygon",
 "coordinates": [[[-140.7242, 36.6213], [-140.7163, 36.6213], [-140.7164, 36.6275],
  [-140.7242, 36.6275], [-140.7242, 36.6213]]]}}
)"},
    {"words.wording", R"(: crew.chief = Alder§
== What we will do§
Mow {acres}§
? firm.address
By {crew.chief}, {firm.name}, {firm.address}§

- for {job.for}, {job.title}§
@items
@cautions
@picture
@signatures
)"}};

// `word` is appended to every text somebody could write. It must be one that the notation takes
// inside quotes.
inline Files small_firm(std::string_view word = {}) {
    Files files(std::begin(firm_files), std::end(firm_files));
    for (auto& [name, text] : files)
        for (std::size_t at = text.find("§"); at != std::string::npos;
             at = text.find("§", at + word.size()))
            text.replace(at, std::string_view("§").size(), word);
    files["more/long.geojson"] = files["field.geojson"];
    return files;
}

} // namespace acre::tests
