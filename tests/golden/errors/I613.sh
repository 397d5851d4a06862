printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
printf 'name,what it is,value,unit\narea,,about 80,ac\n' >givens.csv
acrewright workbook meadow.job --read givens.csv
