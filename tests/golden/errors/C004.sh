printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright price - --watch <meadow.job
