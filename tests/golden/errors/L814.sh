mkdir l814 && cd l814
mkdir seasons
printf 'season "2027"\nset wage = $34/h\n' >2027.season
printf 'season "2027"\nset wage = $39/h\n' >seasons/2027.season
printf 'job "Creek meadow"\nmodel "mowing"\nseason "2027"\n' >meadow.job
acrewright check meadow.job
