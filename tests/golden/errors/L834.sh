mkdir l834 && cd l834
printf 'season "2027"\nclosed saturday\nclosed sunday\n' >2027.season
printf 'model "Mowing by the week"\ngiven days_per_week = 6  "days a week"\ngiven days = 4 day  "days"\ncost driver : $/day = $240/day over days * days_per_week / 6  "driver"\nprice "Mowing" lump\n' >weekly.rate
printf 'job "Creek meadow"\nmodel "weekly"\nseason "2027"\ndate 2027-06-21\n' >meadow.job
acrewright check meadow.job
