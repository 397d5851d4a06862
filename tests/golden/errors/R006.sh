mkdir oldbook
record='{"counter":{"2027":1},"issued":"2027-03-14","kind":"quote","previous":"","quote":"2027-001","record":1'
seal=$(printf '%s,"valid_until":"2027-04-13"}' "$record" | sha256sum | cut -d ' ' -f 1)
printf '%s,"seal":"%s","valid_until":"2027-04-13"}\n' "$record" "$seal" >oldbook/000001.json
printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright bridge 2027-001 meadow.job --book oldbook
