acrewright field fields/point.geojson
