acrewright field fields/feet.geojson
