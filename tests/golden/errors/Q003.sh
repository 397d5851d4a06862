printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright break-even meadow.job --vary area --price '$300' --between '10 ac..2,000 ac'
