printf 'job "Creek meadow"\nmodel "priceless"\nset area = 60 ac\n' >meadow.job
acrewright price meadow.job
