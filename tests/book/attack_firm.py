"""The firm whose book is attacked."""

FILES = {
    'models/mowing.rate': '''model "Mowing by the acre"

part "Field"
  given area = 40 ac  "acres mowed"  within 1 ac .. 1,000 ac  swing 30 ac .. 60 ac
  given pace = 4 ac/h  "pace"  swing 3 ac/h .. 6 ac/h
  given ground = flat | rough  "what the mower meets"
  given fuel_price = $4.20/gal  "diesel"
  machine_hours : h = area / pace  "machine hours"
  caution when ground is rough  "Rough ground: walk it first for stones and wire"
  cost fuel : $/gal = fuel_price over 6 gal/h * machine_hours  "diesel burned"
  cost driver : $/h = $30/h over machine_hours  "driver"

part "Move"
  given haul = $120  "trailer there and back"
  cost trailer : $ = haul over 1  "trailer"

show area, pace, ground

price "Mowing" per ac of area covers "Field"
  overhead 10 %
  margin 20 %
  round up to $0.05/ac
price "Haul" lump covers "Move"
  markup 25 %

caution "Call the utility locating service where posts were pulled"
''',
    '2027.season': 'season "2027"\nfirm "tamarack"\nset fuel_price = $4.40/gal because "dock"\n',
    'tamarack.firm': 'firm "Tamarack Flat Ground Works"\nmoney USD "$" to $0.01\n: license = "TF-0417"\n',
    'meadow.job': 'job "Creek meadow"\nfor "Alder Meadows"\nmodel "mowing"\nseason "2027"\ndate 2027-04-12 .. 2027-06-30\nset area = 44 ac because "map"\n',
    'bank.job': 'job "Canal bank"\nfor "Ditch company"\nmodel "mowing"\nseason "2027"\nset ground = rough\noption "Fast"\n  set pace = 5.5 ac/h\n',
    'words.wording': '== Work\nMow {area}, at {pace}.\n\n@items\n\n@options\n\n@cautions\n\n- Good until {quote.valid_until}, by {quote.by}, of {quote.date}. {firm.license}\n@signatures\n',
    'log.csv': 'date,machine,meter_start,meter_stop,acres\n2027-04-12,mower,100,110,44\n',
}
