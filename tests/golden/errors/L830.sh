mkdir l830 && cd l830
printf 'season "2027"\nset wage = $34/h\n' >2027.season
printf 'job "Creek meadow"\nmodel "mowing"\nseason "2027"\ndate 2026-06-21\n' >meadow.job
acrewright check meadow.job
