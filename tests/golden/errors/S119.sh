# Ten thousand rows and one.
{ printf 'model "m"\ntable t (x : ac) : h\n'; seq 1 10001 | sed 's/.*/  & &/'; } >rows.rate
acrewright check rows.rate
