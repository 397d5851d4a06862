printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright quote meadow.job --book book --date 2027-03-14 >/dev/null
printf 'date,machine,meter_start,meter_stop,acres\n2027-06-14,mower,100,108,forty\n' >log.csv
acrewright variance 2027-001 log.csv --book book --hours hours --acres area
