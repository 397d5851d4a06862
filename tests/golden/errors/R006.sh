mkdir oldbook
seal=$(printf '{"kind":"quote","previous":"","quote":"2027-001","record":1}' | sha256sum | cut -d ' ' -f 1)
printf '{"kind":"quote","previous":"","quote":"2027-001","record":1,"seal":"%s"}\n' "$seal" >oldbook/000001.json
printf 'job "Creek meadow"\nmodel "mowing"\n' >meadow.job
acrewright bridge 2027-001 meadow.job --book oldbook
