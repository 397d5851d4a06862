#!/usr/bin/env bash
# The worst that is accepted: for each reader the largest and densest inputs its limits let through, with the memory and the processor
# time the program takes for them. Prints a table, and at its end the worst of each command; what is refused shows it by its exit code.
# `worst_cases.sh NAME` runs those whose name holds NAME; ACREWRIGHT names another program than that of the build folder.
set -euo pipefail
cd "$(dirname "$0")/../.."
program=$(realpath "${ACREWRIGHT:-build/cli/acrewright}")
only=${1:-}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

: >by_command
greatest_mib=0
greatest_seconds=0
# run NAME FILE WORDS...: FILE is what its size is told of
run() {
    local name=$1 file=$2 code=0 took seconds mib
    shift 2
    /usr/bin/time -o took -f '%U %S %M' timeout 600 "$program" "$@" >out 2>err || code=$?
    read -r seconds mib < <(tail -n 1 took | awk '{ print $1 + $2, int($3 / 1024) }')
    echo "$1 $seconds $mib $name" >>by_command
    printf '%-34s %6s KiB  %6.2f s  %5d MiB  %7d KiB out  %s\n' "$name" "$(($(du -sb "$file" | cut -f 1) / 1024))" "$seconds" "$mib" \
        "$(($(stat -c %s out) / 1024))" "$([[ $code == 0 ]] || echo "exit $code: $(head -n 1 err | cut -c 1-90)")"
    greatest_mib=$((mib > greatest_mib ? mib : greatest_mib))
    greatest_seconds=$(awk -v a="$seconds" -v b="$greatest_seconds" 'BEGIN { print (a > b) ? a : b }')
}
wanted() { [[ -z $only || $1 == *"$only"* ]]; }
# asks NAME FILE: every question of a job
asks() {
    local name=$1 file=$2 given=${3:-}
    run "$name: check" "$file" check "$file"
    run "$name: price" "$file" price "$file"
    run "$name: price, JSON" "$file" price "$file" --json
    run "$name: explain, JSON" "$file" explain "$file" --json
    run "$name: sensitivity, JSON" "$file" sensitivity "$file" --json
    run "$name: risk" "$file" risk "$file"
    run "$name: calendar" "$file" calendar "$file"
    run "$name: compare" "$file" compare "$file" "$file"
    run "$name: quote" "$file" quote "$file" --draft --date 2027-03-14
    run "$name: workbook" "$file" workbook "$file" --write w.xlsx
    run "$name: page" "$file" page "$file" --write p.html
    [[ -z $given ]] || run "$name: break-even" "$file" break-even "$file" --vary "$given" --until "cost.total=\$1,000"
}
# model BYTES BODY: an awk program that prints one line of number i, repeated to the size or to 99,000 lines
model() {
    awk -v limit="$1" 'function put(s) { n += length(s) + 1; print s }
        BEGIN { put("model \"m\""); for (i = 0; n < limit - 70000 && i < '"${3:-99000}"'; ++i) { '"$2"' } }'
}
priced() { printf 'cost q : $ = $1 over %s\nprice "P" lump\n' "$1"; }
# tops NAME COUNT: the most of NAME0 … by lines of five hundred, then of those
tops() {
    awk -v name="$1" -v n="$2" 'BEGIN {
        for (level = 0; n > 1; ++level) {
            for (k = 0; k < n; k += 500) {
                s = "r" level "_" (k / 500) " : 1 = max("
                for (j = k; j < k + 500 && j < n; ++j) s = s (j > k ? ", " : "") name j
                print s ")"
            }
            name = "r" level "_"; n = int((n + 499) / 500)
        } }'
}
full=$((4 << 20))

# --- texts
if wanted text; then
    model $full 'put("x" i ":1=1")' 9999999 >lines.rate
    run 'text: lines, tidy' lines.rate tidy lines.rate
    model $full 's = "x" i ":1=1"; for (j = 0; j < 900; ++j) s = s "+1"; put(s)' >sums.rate
    run 'text: sums, tidy' sums.rate tidy sums.rate
    model $full 's = "x" i ":1="; for (j = 0; j < 199; ++j) s = s "-"; put(s "1")' >signs.rate
    run 'text: signs, tidy' signs.rate tidy signs.rate
    model $full 'put("\"")' 9999999 >quotes.rate
    run 'text: nothing but errors' quotes.rate check quotes.rate
    model $full 's = "x" i ":1="; for (j = 0; j < 199; ++j) s = s "("; put(s "1 +")' >deep_errors.rate
    run 'text: errors within 199 brackets' deep_errors.rate check deep_errors.rate
    model $full 'put("choice c" i " = a | b")' 9999999 >choices.rate
    run 'text: choices' choices.rate check choices.rate
    model $full 'put("unit u" (i + 1) " = 1 " (i ? "u" i : "ft"))' 9999999 >units.rate
    run 'text: units, each of the last' units.rate check units.rate
    model $full 'put("table t" i " (x : 1) : 1\n 1 1\n 2 2")' 9999999 >tables.rate
    run 'text: tables' tables.rate check tables.rate
    model $full 'put("define f" i " () : 1 = 1")' 9999999 >defines.rate
    run 'text: defines' defines.rate check defines.rate
    model $full 'put("x" i " : 1 = nothing")' >unknown.rate
    run 'text: unknown names' unknown.rate check unknown.rate
    model $full 'put("x" i " : 1 = x" i)' >loops.rate
    run 'text: lines that read themselves' loops.rate check loops.rate
    model $full 'put("x" i " : 1 = x" (i + 1) % 99000)' >loop.rate
    run 'text: a loop of all lines' loop.rate check loop.rate
    { echo 'season "2027"'; seq 200000 | sed 's/.*/set u& = 1/'; } >slips.season
    model $full 'put("given u_" i " = 1")' >named.rate
    printf 'job "j"\nmodel "named"\nseason "slips"\n' >slips.job
    run 'text: a season of slips' slips.season check slips.job
fi

# --- jobs
if wanted givens; then
    { model $full 'put("given x" i " = 1 within 0 .. 3")' 90000; tops x 90000; priced r1_0; } >givens.rate
    asks givens givens.rate
fi
if wanted swings; then
    { model $full 'put("given x" i " = 1 within 0 .. 3 swing 0.5 .. 2")' 1500; tops x 1500; priced r1_0; } >swings.rate
    asks swings swings.rate x7
fi
if wanted wide; then
    { echo 'model "m"'; echo 'given z = 1 within 0.1 .. 5 swing 0.5 .. 2'; model $full 'put("x" i " : 1 = z + " i)' 98000 | tail -n +2
      tops x 98000; priced r1_0; } >wide.rate
    asks wide wide.rate z
fi
if wanted chain; then
    { echo 'model "m"'; seq 0 24 | sed 's/.*/given g& = 1 within 0 .. 3 swing 0.5 .. 2/'
      model $full 'put("x" i " : 1 = " (i ? "x" (i - 1) : "1") " * 1.000001 + g" i % 25)' 99000 | tail -n +2; priced x98999; } >chain.rate
    asks chain chain.rate g3
fi
if wanted steps; then
    { echo 'model "m"'; echo 'given z = 1 within 0 .. 1000 swing 0 .. 1000'; model $full 'put("x" i " : 1 = ceil(z * " i ".37)")' 60000 | tail -n +2
      tops x 60000; priced r1_0; } >steps.rate
    asks steps steps.rate z
fi
if wanted functions; then
    { echo 'model "m"'; echo 'given z = 1 within 0.1 .. 5 swing 0.5 .. 2'
      model $full 'put("x" i " : 1 = exp(sin(" (i ? "x" (i - 1) : "z") " * 1 deg)) ^ 0.3")' 60000 | tail -n +2; priced x59999; } >functions.rate
    asks functions functions.rate z
fi
if wanted towers; then
    { echo 'model "m"'; echo 'define f0 (x : 1) : 1 = sqrt(x + 1)'
      for i in $(seq 1 13); do echo "define f$i (x : 1) : 1 = f$((i - 1))(sqrt(x)) + f$((i - 1))(x + 1)"; done
      echo 'given z = 3 within 0.1 .. 5 swing 0.5 .. 4'; echo 'tall : 1 = f13(z)'; priced tall; } >towers.rate
    asks towers towers.rate z
fi
if wanted blocks; then
    { printf 'model "m"\nlist block\npart "x" each block\n  given g = 1 within 0 .. 3 swing 0.5 .. 2\n'
      for i in $(seq 90); do echo "  l$i : 1 = g * $i.5 + $i"; done; printf '  cost k : $ = $1 over l90\nprice "P" lump\n'; } >of_blocks.rate
    { printf 'job "j"\nmodel "of_blocks"\n'; seq 1000 | sed 's/.*/block b&/'; } >blocks.job
    asks blocks blocks.job b7.g
fi
if wanted instances; then
    { printf 'model "m"\n'; seq 999 | sed 's/.*/use "part" as u& with g = 2/'; printf 'given a = 1 swing 0.5 .. 2\nprice "P" lump\n'; } >instances.rate
    { printf 'model "part"\ngiven g = 1 swing 0.5 .. 2\n'; seq 95 | sed 's/.*/l& : 1 = g * & + &/'; echo 'cost k : $ = $1 over l95'; } >part.rate
    asks instances instances.rate a
fi
if wanted conditions; then
    { printf 'model "m"\ngiven z = 1 within 0 .. 9 swing 0.5 .. 2\n'; seq 9990 | sed 's/.*/require z < & + 8 "more than &"/'
      seq 10 | sed 's/.*/caution "c &"/'; priced z; } >conditions.rate
    asks conditions conditions.rate z
fi
if wanted labels; then
    long=$(printf 'x%.0s' $(seq 3000))
    { printf 'model "m"\nlist block\npart "x" each block\n  given g = 1 swing 0.5 .. 2 "%s"\n' "$long"
      for i in $(seq 20); do echo "  l$i : 1 = g * $i.5 \"$long\""; done; printf '  cost k : $ = $1 over l20\nprice "P" lump\n'; } >long.rate
    { printf 'job "j"\nmodel "long"\n'; seq 1000 | sed 's/.*/block b&/'; } >labels.job
    asks labels labels.job b7.g
fi
if wanted options; then
    { printf 'job "j"\nmodel "of_options"\n'; seq 1000 | sed 's/.*/block b&/'
      sum=1; for i in $(seq 900); do sum+=+1; done
      for i in $(seq 200); do printf 'option "%s"\n  set g = %s\n' "$i" "$sum"; done; } >options.job
    printf 'model "m"\nlist block\npart "x" each block\n  given g = 1\n  cost k : $ = $1 over g\nprice "P" lump\n' >of_options.rate
    run 'options: price' options.job price options.job
    run 'options: compare' options.job compare options.job
fi

# --- questions at their own limits
if wanted grid; then
    printf 'model "m"\ngiven a = 1 ac\ngiven b = 1\ncost c : $/ac = $1/ac over a * b\nprice "P" per ac of a\n' >small.rate
    run 'grid: 4,000,000 cells, CSV' small.rate grid small.rate --csv --along 'a=1 ac..4000 ac by 1 ac' --along 'b=1..1000 by 1'
    run 'grid: 4,000,000 cells, JSON' small.rate grid small.rate --json --along 'a=1 ac..4000 ac by 1 ac' --along 'b=1..1000 by 1'
    run 'grid: 16,000,000 answers, CSV' small.rate grid small.rate --csv --along 'a=1 ac..4000 ac by 1 ac' --along 'b=1..1000 by 1' \
        --of cost.total --of price.total --of price.per_unit --of c
    run 'grid: table of 20,000 cells' small.rate grid small.rate --along 'a=1 ac..200 ac by 1 ac' --along 'b=1..100 by 1'
    run 'card: 200,000 cells, HTML' small.rate rate-card small.rate --rows 'a=1 ac..2000 ac by 1 ac' --columns 'b=1..100 by 1' --page card.html
fi
if wanted bridge; then
    { printf 'model "m"\n'; seq 0 63 | sed 's/.*/given g& = 1/'
      model $full 'put("x" i " : 1 = " (i ? "x" (i - 1) : "1") " * 1.000001 + g" i % 64)' 30000 | tail -n +2; priced x29999; } >sides.rate
    printf 'job "old"\nmodel "sides"\n' >old.job
    { printf 'job "new"\nmodel "sides"\n'; seq 0 63 | sed 's/.*/set g& = 2/'; } >new.job
    run 'bridge: 64 changes' sides.rate bridge old.job new.job --total
    { printf 'job "new"\nmodel "sides"\n'; seq 0 13 | sed 's/.*/set g& = 2/'; } >few.job
    run 'bridge: 14 changes, every order' sides.rate bridge old.job few.job --total
fi
if wanted compare; then
    { echo 'model "m"'; echo 'given g = 1'
      model $full 'put("x" i " : 1 = " (i ? "x" (i - 1) : "1") " * 1.000001 + g")' 40000 | tail -n +2; priced x39999; } >column.rate
    run 'compare: 8 jobs of 200,000 steps' column.rate compare column.rate column.rate column.rate column.rate column.rate column.rate column.rate column.rate
fi
if wanted season; then
    mkdir season
    printf 'model "m"\ngiven a = 1 ac\ngiven b = 1\ncost c : $/ac = $1/ac over a * b\nprice "P" per ac of a\n' >season/m.rate
    awk 'BEGIN { for (i = 1; i <= 20000; ++i) { f = "season/" i ".job"
        printf "job \"%d\"\nmodel \"m\"\ndate 2027-%02d-%02d\nset a = %d ac\n", i, 1 + i % 12, 1 + i % 28, i > f; close(f) } }'
    run 'season: 20,000 jobs' season season season --page season.html
    mkdir faulty
    { echo 'season "2027"'; seq 100000 | sed 's/.*/set u& = 1/'; } >faulty/s.season
    cp season/m.rate faulty/m.rate
    for i in $(seq 0 999); do printf 'job "%s"\nmodel "m"\nseason "s"\ndate 2027-03-14\n' "$i" >"faulty/$i.job"; done
    run 'season: 1,000 jobs of a season of slips' faulty season faulty
    mkdir plans
    { printf 'model "m"\n'; seq 0 999 | sed 's/.*/given g& = 1/'; model $full 'put("x" i " : 1 = " (i ? "x" (i - 1) : "1") " * 1.00001 + g" i % 1000)' 9000 | tail -n +2
      priced x8999; } >plans/m.rate
    for i in $(seq 0 900); do printf 'job "%s"\nmodel "m"\ndate 2027-03-14\nset g%s = 2\n' "$i" "$i" >"plans/$i.job"; done
    run 'season: 900 plans' plans season plans
fi

# --- other files
if wanted field; then
    ring() { awk -v n="$1" 'BEGIN { printf "{\"type\":\"Polygon\",\"coordinates\":[["
        for (i = 0; i < n; ++i) { a = i / n * 6.283185307; r = 0.01 * (1 + '"$2"'); printf "[%.7f,%.7f],", -119.7 + r * cos(a), 36.6 + r * sin(a) }
        printf "[%.7f,%.7f]]]}", -119.7 + 0.01 * (1 + 0), 36.6 }'; }
    ring 199999 0 >round.geojson
    run 'field: 200,000 points' round.geojson field round.geojson
    ring 199999 '0.3 * sin(5000 * a)' >teeth.geojson
    run 'field: teeth' teeth.geojson field teeth.geojson
    ring 199999 '0.3 * sin(5000 * a)' >narrow.geojson
    run 'field: teeth, pulls of 1 ft' teeth.geojson field teeth.geojson --spacing '1 ft' --heading '0 deg'
    awk 'BEGIN { srand(1); printf "{\"type\":\"Polygon\",\"coordinates\":[["; for (i = 0; i < 199999; ++i) printf "[%.7f,%.7f],", -119.7 + rand() / 50, 36.6 + rand() / 50
        print "[-119.7,36.6]]]}" }' >crossed.geojson
    run 'field: crosses itself everywhere' crossed.geojson field crossed.geojson
    awk 'BEGIN { printf "{\"type\":\"MultiPolygon\",\"coordinates\":["; for (i = 0; i < 66000; ++i) { x = -119.7 + (i % 257) * 0.0001; y = 36.6 + int(i / 257) * 0.0001
        printf "%s[[[%.6f,%.6f],[%.6f,%.6f],[%.6f,%.6f]]]", i ? "," : "", x, y, x + 0.00005, y, x, y + 0.00005 } print "]}" }' >islands.geojson
    run 'field: 66,000 islands' islands.geojson field islands.geojson
    awk 'BEGIN { printf "{\"type\":\"Polygon\",\"coordinates\":[[[-119.75,36.55],[-119.65,36.55],[-119.65,36.65],[-119.75,36.65],[-119.75,36.55]]"
        for (i = 0; i < 66000; ++i) { x = -119.7 + (i % 257) * 0.0001; y = 36.6 + int(i / 257) * 0.0001
        printf ",[[%.6f,%.6f],[%.6f,%.6f],[%.6f,%.6f],[%.6f,%.6f]]", x, y, x, y + 0.00005, x + 0.00005, y, x, y } print "]}" }' >holes.geojson
    run 'field: 66,000 holes' holes.geojson field holes.geojson
    { printf '{"type":"Polygon","coordinates":['; awk 'BEGIN { for (i = 0; i < 2700000; ++i) printf "[]," }'; echo '[]]}'; } >brackets.geojson
    run 'field: empty brackets' brackets.geojson field brackets.geojson
    awk 'BEGIN { printf "model \"m\"\nlist block\npart \"x\" each block\n  given area = 4 ac\n  layout_spacing : ft = 30 ft\n  cost rip : $/ac = $90/ac over area\n"
        printf "price \"Rip\" per ac of sum(area)\n" }' >laid.rate
    { printf 'job "j"\nmodel "laid"\n'; for i in $(seq 1000); do printf 'block b%s\n  field "round.geojson" heading 12 deg\n' "$i"; done; } >fields.job
    run 'field: 1,000 blocks of 200,000 points' round.geojson price fields.job
    { printf '{"type":"Feature","properties":{'; awk 'BEGIN { for (i = 0; i < 700000; ++i) printf "\"a%d\":0,", i }'; echo '"b":0}}'; } >members.geojson
    run 'field: 30 boundaries of 7 MiB' round.geojson field $(for i in $(seq 30); do echo members.geojson; done)
    run 'field: members' members.geojson field members.geojson
fi
if wanted log; then
    cp -r "$OLDPWD/examples/quote-book" book 2>/dev/null || true
    number=$(basename "$(ls "$OLDPWD"/examples/logs/*.csv | head -n 1)" .csv)
    { echo 'date,machine,operator,meter_start,meter_stop,acres,gallons'; awk 'BEGIN { for (i = 0; i < 100000; ++i) printf "2027-03-%02d,m,o,%d,%d,1,1\n", 1 + i % 28, 2 * i, 2 * i + 1 }'; } >long.csv
    run 'log: 100,000 rows' long.csv variance "$number" long.csv --book book
    { printf 'date,meter_start,meter_stop,acres'; seq 196 | sed 's/.*/,amount.c&/' | tr -d '\n'; echo
      awk 'BEGIN { s = ""; for (j = 0; j < 196; ++j) s = s ",1"; for (i = 0; i < 20000; ++i) print "2027-03-14,,,1" s }'; } >wide.csv
    run 'log: 200 columns' wide.csv variance "$number" wide.csv --book book
    { echo 'date,meter_start,meter_stop,acres'; head -c 8000000 /dev/zero | tr '\0' ','; } >commas.csv
    run 'log: commas' commas.csv variance "$number" commas.csv --book book
fi
if wanted book; then
    mkdir records
    awk 'BEGIN { for (i = 1; i <= 20000; ++i) { f = sprintf("records/%06d.json", i); print "{\"kind\":\"word\"}" > f; close(f) } }'
    run 'book: 20,000 records' records verify records
    mkdir large
    for i in 1 2 3; do { printf '{"a":['; head -c 8000000 /dev/zero | tr '\0' '1' | fold -w 1 | paste -sd, ; echo ']}'; } | tr -d '\n' >"large/00000$i.json"; echo >>"large/00000$i.json"; done
    run 'book: 3 records of 16 MiB' large verify large
fi
printf 'at most %d MiB and %s s\n\n%-12s %9s %9s\n' "$greatest_mib" "$greatest_seconds" command processor memory
awk '{ if ($2 >= s[$1] + 0) { s[$1] = $2; slow[$1] = $0 } if ($3 > m[$1] + 0) m[$1] = $3 }
    END { for (c in s) { name = slow[c]; sub(/^[^ ]+ [^ ]+ [^ ]+ /, "", name); printf "%-12s %7.2f s %5d MiB  %s\n", c, s[c], m[c], name } }' \
    by_command | sort
