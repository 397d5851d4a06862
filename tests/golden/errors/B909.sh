acrewright field fields/yard.geojson --spacing '200 ft' --heading '0 deg'
