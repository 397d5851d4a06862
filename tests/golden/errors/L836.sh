printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright quote meadow.job --book latebook --date 2027-03-14 --valid 10 >/dev/null
acrewright mark 2027-001 accepted --book latebook --date 2027-04-01
