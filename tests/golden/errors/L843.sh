mkdir l843 && cd l843
printf 'job "Creek meadow"\nmodel "mowing"\ndate 2027-06-21 .. 2027-09-30\n' >meadow.job
acrewright quote meadow.job --draft --date 2027-10-01
# On its last day it is in time.
acrewright quote meadow.job --draft --date 2027-09-30 | head -n 1
