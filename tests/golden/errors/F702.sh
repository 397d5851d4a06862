mkdir field.rate
acrewright check field.rate
