acrewright price meadow.job --colour
