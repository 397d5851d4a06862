printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright quote meadow.job --book book --date 2027-03-14 >/dev/null
acrewright mark 2027-010 accepted --book book --date 2027-04-01
