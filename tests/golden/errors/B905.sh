acrewright field fields/line.geojson
