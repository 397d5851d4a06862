# A label of five thousand letters.
{ printf 'model "m"\na : 1 = 1 "'; head -c 5000 /dev/zero | tr '\0' x; echo '"'; } >label.rate
acrewright check label.rate
