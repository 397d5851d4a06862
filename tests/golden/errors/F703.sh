printf 'model "Pe\361a"\n' >latin.rate
acrewright check latin.rate
