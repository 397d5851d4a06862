# A sum of forty thousand.
{ printf 'model "m"\na : 1 = 1'; seq 1 40000 | sed 's/.*/+1/' | tr -d '\n'; echo; } >long.rate
acrewright check long.rate
