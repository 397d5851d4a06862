# A price of a thousand and one steps.
{ printf 'model "m"\ncost c : $ = $1 over 1\nprice "P" lump\n'; seq 1 1001 | sed 's/.*/  overhead 1 %/'; } >steps.rate
acrewright check steps.rate
