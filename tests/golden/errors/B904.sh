acrewright field fields/bow.geojson
