printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
printf 'model "Hauling"\ngiven way = 40 mi\ncost truck : $/mi = $9/mi over way\nprice "Hauling" per mi of way\n' >hauling.rate
acrewright bridge meadow.job hauling.rate
