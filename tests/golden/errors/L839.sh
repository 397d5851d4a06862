mkdir l839 && cd l839
printf 'season "2027"\nset wage = $34/h\nset wage = $36/h within 2027-08-01 .. 2027-10-31\n' >2027.season
printf 'job "Creek meadow"\nmodel "mowing"\nseason "2027"\n' >meadow.job
acrewright check meadow.job
