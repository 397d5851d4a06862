mkdir l840 && cd l840
printf 'season "2027"\nset wage = $34/h\nset wage = $36/h within 2026-12-01 .. 2026-12-31\n' >2027.season
printf 'job "Creek meadow"\nmodel "mowing"\nseason "2027"\ndate 2027-06-21\n' >meadow.job
acrewright check meadow.job
