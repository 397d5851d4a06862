# Thirty thousand brackets on one line.
{ printf 'model "m"\na : 1 = '; head -c 30000 /dev/zero | tr '\0' '('; printf '1'; head -c 30000 /dev/zero | tr '\0' ')'; echo; } >deep.rate
acrewright check deep.rate
