printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
: >bookfile
acrewright quote meadow.job --book bookfile --date 2027-03-14
