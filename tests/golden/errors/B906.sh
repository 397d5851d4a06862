acrewright field fields/pole.geojson
