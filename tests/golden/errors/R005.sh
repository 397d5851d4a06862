printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright quote meadow.job --book statebook --date 2027-03-14 >/dev/null
acrewright mark 2027-001 finished --book statebook --date 2027-04-01
