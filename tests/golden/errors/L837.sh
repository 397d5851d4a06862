printf 'model "Mowing by the hour"\nuse "wheel"\ngiven acres = 40 ac  "acres"\nhours : h = acres / 5 ac/h  "hours"\ncount hours of wheel, acres\ncost mower : $/h = $90/h over hours\nprice "Mowing" per ac of acres\n' >meadow.rate
acrewright quote meadow.rate --book j5book --date 2027-03-14 >/dev/null
acrewright mark 2027-001 accepted --book j5book --date 2027-03-20 >/dev/null 2>&1
printf 'date,machine,meter_start,meter_stop,acres\n2027-03-01,mower,100,108,40\n' >log.csv
acrewright bill 2027-001 log.csv --book j5book --draft --date 2027-06-20 >/dev/null
