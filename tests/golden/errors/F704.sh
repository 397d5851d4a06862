: >nothing.rate
acrewright check nothing.rate
