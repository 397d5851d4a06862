printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
printf 'model "Hauling"\ngiven area = 40 mi\ncost truck : $/mi = $9/mi over area\nprice "Hauling" per mi of area\n' >hauling.rate
acrewright break-even meadow.job --vary area --against hauling.rate
