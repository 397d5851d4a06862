printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright break-even meadow.job --vary hours --price '$300'
