printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright price meadow.job --set area
