printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
: >book
acrewright quote meadow.job --book book --date 2027-03-14
