# Two hundred thousand points and one more.
{ printf '{"type": "Polygon", "coordinates": [['
  seq 1 200001 | awk '{ a = $1 / 200002 * 6.283185; printf "[%.7f, %.7f],", -119.7 + cos(a) / 100, 36.6 + sin(a) / 100 }'
  printf '[-119.69, 36.6]]]}\n'; } >many.geojson
acrewright field many.geojson 2>&1 | cut -c1-160
exit 1
