# A comment a little over the limit.
{ echo 'model "m"'; head -c 4194304 /dev/zero | tr '\0' '#'; } >large.rate
acrewright check large.rate
