printf 'job "Creek meadow"\nmodel "mowing"\noption "Rough half"\n  set pace = 4 ac/h\n' >meadow.job
acrewright price meadow.job --option "Rough halves"
