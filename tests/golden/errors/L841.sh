printf 'model "Mowing by the hour"\nuse "wheel"\ngiven acres = 40 ac  "acres"\nhours : h = acres / 5 ac/h  "hours"\ncount hours of wheel, acres\ncost mower : $/h = $90/h over hours\nprice "Mowing" per ac of acres\n  at least $500\n' >meadow.rate
acrewright quote meadow.rate --book billbook --date 2027-03-14 >/dev/null
acrewright mark 2027-001 accepted --book billbook --date 2027-03-20 >/dev/null 2>&1
printf 'date,machine,meter_start,meter_stop,acres\n2027-03-21,mower,100,102,10\n' >log.csv
acrewright bill 2027-001 log.csv --book billbook --date 2027-03-22 --deposit '$100' >/dev/null 2>&1
printf 'date,machine,meter_start,meter_stop,acres\n2027-03-21,mower,100,102,10\n2027-03-22,mower,102,104,11\n' >log.csv
acrewright bill 2027-001 log.csv --book billbook --draft --date 2027-03-23 --deposit '$100' >/dev/null
