printf 'job "Creek meadow"\nmodel "priceless"\nset area = 60 ac\n' >meadow.job
acrewright quote meadow.job --draft --date 2027-03-01
