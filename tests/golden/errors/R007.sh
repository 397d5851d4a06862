mkdir r007 && cd r007
printf 'season "2027"\nset waeg = $34/h\n' >2027.season
printf 'job "Creek meadow"\nmodel "mowing"\nseason "2027"\n' >meadow.job
acrewright quote meadow.job --date 2027-03-14
