acrewright field fields/hole-outside.geojson
