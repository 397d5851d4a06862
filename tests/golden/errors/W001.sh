printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
printf 'We mow {aera} of grass.\n' >firm.wording
acrewright quote meadow.job --draft --date 2027-03-14 --wording firm.wording
