printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright risk meadow.job --trials 99999999999
