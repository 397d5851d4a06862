mkdir l813 && cd l813
printf 'season "2027"\nset wage = $34/h\n' >2027.season
printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright check meadow.job
