#include "tests/fuzz/small_files.h"

namespace acre::fuzz {
namespace {

constexpr const char* crawler = R"rate(model "Crawler"
given fuel_price : $/gal = $4.20/gal  "diesel"  within $1/gal .. $12/gal
    swing pert $3.50/gal .. $6/gal
    because "delivered"
given burn = 30 gal/h  swing 25 gal/h .. 36 gal/h
given age = 4 yr
cost own : $/h = $140/h + age * $5/h/yr over hours
cost fuel : $/h = burn * fuel_price over hours
given hours = 10 h
fleet costs $24,000/yr + age * $5/yr/yr over 1,800 h/yr
)rate";

constexpr const char* rip = R"rate(model "Ripping"
use "crawler"
use "crawler" as spare with age = 9 yr, hours = 2 h
noun move
list block "a piece of ground"
list leg = out | back
choice method = full_field | tree_rows | crossed
choice texture = fine | medium | coarse
part "Ground" each block
  given area = 40 ac  "net acres"  within 0.1 ac .. 10,000 ac  because "county map"
  given soil : texture = medium
  given apart = 6 ft  within 2 ft .. 14 ft  choose 5 ft .. 8 ft
  given speed = 1.5 mi/h  within 0.5 mi/h .. 4 mi/h  swing 80 % .. 120 % of it
  travel : mi = area / apart * (when soil is coarse then 1.1 otherwise 1)
  hours : h = travel / speed * 1.2
given method = full_field | tree_rows | crossed  "where the shank runs"
acres : ac = sum(area)
machine_hours : h = sum(hours)
table wear (load : %) : $/h  below hold  above error
  10   2
  60   12
  100  40
table permit (weight : lb) : step $/move  above hold
  0        120
  80,000   310
define slower (speed : mi/h, wet : texture) : mi/h = when wet is fine then speed / 2 otherwise speed
  source "our own days"
  known ours
  tested speed 0.5 mi/h .. 3 mi/h
  limit speed 0.1 mi/h .. 9 mi/h "it creeps"
part "Costs"
  given load = 55 %
  given moves = 2 move  "in and out"
  cost machine : $/h = crawler.burn * crawler.fuel_price + wear(load) over machine_hours
  cost haul : $/move = $1,800/move + permit(92,000 lb) over moves
  event tip = 0.02 1/h over machine_hours costs $180  "a lost tip"
require most(apart) < 12 ft  "lines this far apart leave a strip unbroken"
caution when method is crossed  "twice over"
caution "Call the utility locating service before the shank goes in"
correlate crawler.fuel_price, load 60 %
gallons : gal = crawler.burn * machine_hours  "diesel"
count machine_hours of crawler, acres, gallons
show acres, area, method, north.area, crawler.fuel_price, gallons
price "Ripping" per ac of acres covers "Costs"
  overhead 9 %
  margin 15 %
  at least $6,500
  round up to $5/ac
price "Standing by" lump
)rate";

constexpr const char* season = R"season(season "2027"
set crawler.fuel_price = $4.35/gal  because "quote of 4 January"
set load = 60 %
)season";

constexpr const char* firm = R"firm(firm  "Kestrel Bench Earthworks"
money USD "$" to $0.01
: address = "18 Bench Road"
)firm";

} // namespace

std::map<std::string, std::string> small_files() {
    return {{"rip.rate", rip},
            {"crawler.rate", crawler},
            {"2027.season", season},
            {"kestrel.firm", firm}};
}

std::string small_job() {
    return "job \"Block 12\"\nmodel \"rip\"\nseason \"2027\"\nfor \"Sable Creek Ranch\"\ndate "
           "2027-03-14\n"
           "set load = 48 % swing 40 % .. 60 %  because \"walked 3 March\"\n"
           "block north \"North side\"\n  set area = 60 ac\n  set soil = fine\nblock south\n  set "
           "area = 30 ac\n  set apart = 7 ft\n"
           "option \"Crossed\"\n  set method = crossed\n";
}

} // namespace acre::fuzz
