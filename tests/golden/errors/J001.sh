printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright quote meadow.job --book book --date 2027-03-14 >/dev/null
printf 'date,meter_start,meter_stop\n2027-06-14,100,108\n' >log.csv
acrewright variance 2027-001 log.csv --book book --hours hours --acres area
