acrewright field fields/cut.geojson
