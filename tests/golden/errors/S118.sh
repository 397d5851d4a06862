# A comment a little over the limit.
{ echo 'model "m"'; head -c 16777216 /dev/zero | tr '\0' '#'; } >large.rate
acrewright check large.rate
