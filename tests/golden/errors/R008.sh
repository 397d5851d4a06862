printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright key new ruth.key >/dev/null
acrewright key admit "$(acrewright key show ruth.key)" --key ruth.key --book signed --name Ruth --date 2027-03-01 >/dev/null
acrewright quote meadow.job --book signed --date 2027-03-14
