acrewright field fields/ditch.geojson --heading '0 deg' --spacing '60 ft'
