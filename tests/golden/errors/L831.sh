mkdir l831 && cd l831
cat >mapped.rate <<'END'
model "Mowing from a map"
given area : ac  "acres mowed"
given gross : ac  "acres on the map"
given run : ft  "length of a pull"
given cross_run : ft = run  "length of a pull, crosswise"
given travel : mi = area / 8 ft  "distance"
given pulls : 1 = travel / run  "pulls"
layout_spacing : ft = 8 ft  "between lines on the map"
layout_passes : 1 = 1  "passes a line"
layout_cross_spacing : ft = 0 ft  "between cross lines"
layout_headland : ft = 0 ft  "edge strip"
layout_row_ends : ft = 0 ft  "row ends"
cost driver : $/mi = $9/mi over travel
price "Mowing" per ac of area
END
printf 'job "Creek meadow"\nmodel "mapped"\nfield "../fields/square.geojson"\nset area = 90 ac because "walked"\n' >meadow.job
acrewright check meadow.job
