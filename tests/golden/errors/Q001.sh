printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright sensitivity meadow.job --of cost.totl
