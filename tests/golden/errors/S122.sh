# A choice of two hundred and one.
{ printf 'model "m"\nchoice c = c0'; seq 1 200 | sed 's/.*/ | c&/' | tr -d '\n'; echo; } >choice.rate
acrewright check choice.rate
