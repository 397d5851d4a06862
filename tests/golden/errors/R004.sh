printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright quote meadow.job --book book --date 2027-03-14 >/dev/null
chmod u+w book/000001.json
sed -i s/Creek/River/ book/000001.json
acrewright book book
